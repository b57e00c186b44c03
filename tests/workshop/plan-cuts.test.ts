import { describe, expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { renumber } from '../../src/relief/build-relief.js';
import type { CutPlan, Pass } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

const cell = (depth: string, ...inside: string[]) => ({
  depth,
  inside: inside.map((own) => ({ shape: 'square' as const, depth: own })),
});

const brief = ({ phase, number, sheets }: Pass): string => `${phase} ${number}: ${sheets.join('+')}`;

const moves = (plan: CutPlan): string[] =>
  plan.passes.map((pass) => pass.moves.map(({ action, sheet }) => `${action} ${sheet}`).join(', '));

describe('passes', () => {
  it('saw recesses deepest first, before the stack is complete', () => {
    const plan = planCuts(
      cellRelief({ rows: [[cell('4', '-1', '-1'), cell('3', '-1')]], sheets: [3, 3, 3, 3] }),
    );
    expect(plan.passes.map(brief)).toEqual([
      'recesses 2: s1+s2',
      'recesses 1: s1',
      'pass 4: s1+s2+s3+s4',
      'pass 3: s1+s2+s3',
    ]);
    expect(moves(plan)).toEqual(['', 'lift s2', 'put-back s2, put-back s3, put-back s4', 'lift s4']);
    expect(plan.totals.sheetMoves).toBe(5);
  });

  it('set sheets aside at the start of a pass where that moves fewer', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('4'), cell('2', '-1')]], sheets: [3, 3, 3, 3] }));
    expect(plan.passes.map(brief)).toEqual(['pass 4: s1+s2+s3+s4', 'recesses 1: s1', 'pass 2: s1+s2']);
    expect(plan.totals.sheetMoves).toBe(4);
  });

  it('saw an opening in a recess before the recess', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('2', '-1', '0')]], sheets: [3, 3] }));
    const order = plan.passes.flatMap((pass) =>
      pass.steps.map((step) => `${pass.sheets.length} ${step.kind} ${step.regions.join()}`),
    );
    const { regions } = plan.relief;
    const find = (role: string): number => regions.findIndex((region) => region.role === role);
    expect(order.slice(0, 2)).toEqual([`2 cutout ${find('opening')}`, `1 cutout ${find('recess')}`]);
  });

  it('take a piece out of a recess before the recess is sawn', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('3', '-1', '3')]], sheets: [3, 3, 3] }));
    const kinds = plan.passes.flatMap((pass) => pass.steps.map((s) => `${pass.phase} ${s.kind} ${s.frees}`));
    expect(kinds).toEqual(['pass outline piece', 'recesses cutout waste', 'pass outline piece']);
  });

  it('take a piece out in the pass that saws the last line around it', () => {
    // The 1 in the middle is parted from the 3 around it in pass 3: nothing holds it in the lower sheets.
    const plan = planCuts(cellRelief({ rows: [[cell('3', '1')]], sheets: [3, 3, 3] }));
    expect(plan.passes.map(brief)).toEqual(['pass 3: s1+s2+s3']);
    expect(plan.passes[0].steps.map((step) => step.frees)).toEqual(['piece', 'piece']);
    const low = plan.relief.bodies.find((body) => body.sheets === 1)!.id;
    expect(plan.offcuts.map((offcut) => offcut.spareParts)).toEqual([[], [low], [low]]);
  });

  it('saw the detail lines and openings of such a piece while it is still held', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('3', '1', '0')]], sheets: [3, 3, 3] }));
    expect(plan.passes.map(brief)).toEqual(['pass 3: s1+s2+s3']);
    expect(plan.passes[0].steps.map((step) => step.kind)).toEqual(['cutout', 'outline', 'outline']);
  });

  it('let a loose piece with recesses wait where they then need fewer moves', () => {
    // The 2 in the 4 is loose after pass 4. In pass 2 its recess takes one sheet off and on, before all three.
    const rows = [[cell('4', '2', '-1'), cell('1')]];
    const plan = planCuts(cellRelief({ rows, sheets: [3, 3, 3, 3] }));
    expect(plan.passes.map(brief)).toEqual([
      'pass 4: s1+s2+s3+s4',
      'recesses 1: s1',
      'pass 2: s1+s2',
      'pass 1: s1',
    ]);
    expect(plan.totals.sheetMoves).toBe(5);
    // Where nothing is sawn later, it does not: the stack is put on the first sheet, and nothing is lifted.
    const alone = planCuts(cellRelief({ rows: [[cell('4', '2', '-1')]], sheets: [3, 3, 3, 3] }));
    expect(alone.passes.map(brief)).toEqual(['recesses 1: s1', 'pass 4: s1+s2+s3+s4']);
    expect(alone.totals.sheetMoves).toBe(3);
  });

  it('tell when stock comes loose in a lump, and what it is', () => {
    // The ring of 3 holds a 1 and a 2 side by side: they come loose together when its inner line is sawn.
    const inner = { shape: 'square' as const, depth: '2', right: '1' };
    const plan = planCuts(
      cellRelief({
        rows: [[{ depth: '1', inside: [{ shape: 'square', depth: '3' }, inner] }]],
        sheets: [3, 3, 3],
      }),
    );
    const { regions } = plan.relief;
    const lump = [...regions.keys()].filter(
      (r) => plan.relief.map.regions[r].inside === regions.findIndex((x) => x.label === '3'),
    );
    const told = plan.passes.flatMap((pass) => pass.steps.flatMap((step) => step.comesLoose ?? []));
    expect(lump).toHaveLength(2);
    expect(told).toEqual([lump]);
  });

  it('tell the blocks on the table', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('3', '1', '2')]], sheets: [3, 3, 3] }));
    const [first, second] = plan.passes;
    expect(first.blocks).toMatchObject([{ board: true, regions: [0, 1, 2] }]);
    const low = [...plan.relief.regions.keys()].filter((r) => plan.relief.regions[r].depth !== 3);
    expect(second.blocks.filter((block) => !block.board)).toMatchObject([{ regions: low }]);
  });

  it('pass over numbers that no piece has, lifting several sheets at once', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('4'), cell('1')]], sheets: [3, 3, 3, 3] }));
    expect(plan.passes.map((pass) => pass.number)).toEqual([4, 1]);
    expect(moves(plan)[1]).toBe('lift s4, lift s3, lift s2');
  });

  it('leave what has no number standing, and say which sheets nobody needs', () => {
    const relief = cellRelief({ rows: [[cell('2'), cell('?')]], sheets: [3, 3, 3] });
    const plan = planCuts(relief);
    expect(plan.passes.map(brief)).toEqual(['pass 2: s1+s2']);
    expect(plan.passes[0].steps).toHaveLength(1);
    expect(plan.findings.map((finding) => finding.rule)).toEqual(['unused-sheet']);
    expect(planCuts(cellRelief({ rows: [[cell('?')]], sheets: [3] })).passes).toEqual([]);
  });

  it('saw each line once, but for those that a recess setting goes in along', () => {
    for (const name of ['harbour', 'owl', 'fretwork'] as const) {
      const plan = planFixture(name);
      const full = new Map<number, number>();
      for (const pass of plan.passes.filter((p) => p.phase === 'pass')) {
        for (const e of pass.steps.flatMap((step) => step.edges)) full.set(e, (full.get(e) ?? 0) + 1);
      }
      expect([...full.values()].filter((n) => n > 1)).toEqual([]);
    }
  });
});

describe('the order of the cuts', () => {
  const openings = cellRelief({
    rows: [0, 1, 2].map(() => [cell('1', '0'), cell('1', '0'), cell('1', '0')]),
    sheets: [3],
  });

  it.each([
    ['bottom', 1, -1],
    ['top', 1, 1],
    ['left', 0, 1],
    ['right', 0, -1],
  ] as const)('goes away from the side that is held: %s', (clampSide, axis, way) => {
    const { passes, relief } = planCuts(openings, { clampSide });
    const cutouts = passes[0].steps.filter((step) => step.kind === 'cutout');
    const places = cutouts.map(({ regions: [r] }) => way * relief.map.regions[r].labelPoint[axis]);
    expect(places).toHaveLength(9);
    const mean = (list: readonly number[]): number => list.reduce((sum, v) => sum + v, 0) / list.length;
    expect(mean(places.slice(0, 3))).toBeLessThan(mean(places.slice(6)));
    expect(places[0]).toBe(Math.min(...places));
  });

  it('saws what is inside first, and the piece that holds others only after them', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('2', '2', '2', '0')]], sheets: [3, 3] }));
    const { regions } = plan.relief.map;
    const areas = plan.passes.flatMap((pass) => pass.steps.map((step) => regions[step.regions[0]].bounds[2]));
    expect(areas).toEqual([...areas].sort((a, b) => a - b));
    expect(areas).toHaveLength(4);
  });

  it('saws a small piece before its larger neighbour', () => {
    for (const name of ['harbour', 'owl'] as const) {
      const { passes, relief } = planFixture(name);
      const [steps] = passes.filter(({ phase }) => phase === 'pass').map((pass) => pass.steps);
      const places = new Map(
        steps.flatMap((step, i) => (step.frees === 'piece' ? step.regions.map((r) => [r, i]) : [])) as [
          number,
          number,
        ][],
      );
      const pairs = [...places.keys()].flatMap((a) =>
        relief.map.regions[a].neighbours.flatMap(({ region: b }) =>
          places.has(b) && relief.map.regions[a].area < relief.map.regions[b].area ? [[a, b]] : [],
        ),
      );
      const right = pairs.filter(([a, b]) => places.get(a)! <= places.get(b)!).length;
      expect(right / pairs.length).toBeGreaterThan(0.6);
    }
  });
});

describe('add-ons with shared outline', () => {
  it('are not cut out of what lies under them, but out of scrap at the end', () => {
    const plan = planCuts(
      cellRelief({ rows: [[cell('2', '+', '0'), cell('3', '-1', '+')]], sheets: [3, 3, 3] }),
    );
    const { regions } = plan.relief;
    const own = plan.relief.addOns.map((addOn) => addOn.region);
    const main = plan.passes.filter((pass) => pass.phase !== 'add-ons').flatMap((pass) => pass.steps);
    // Their regions come off with the piece under them, or with the recess that they lie in.
    expect(main.filter((step) => step.regions.every((r) => own.includes(r)))).toEqual([]);
    const last = plan.passes.filter((pass) => pass.phase === 'add-ons');
    const steps = last.flatMap((pass) => pass.steps);
    const freed = steps.filter((step) => step.frees === 'piece').flatMap((step) => step.regions);
    expect([...freed].sort((a, b) => a - b)).toEqual([...own].sort((a, b) => a - b));
    // The opening in one of them is cut out of it before its outline.
    const opening = regions.findIndex((region) => region.role === 'opening');
    expect(steps[0]).toMatchObject({ kind: 'cutout', frees: 'waste', regions: [opening] });
    expect(steps[0].start.kind).toBe('drill');
  });
});

describe('swapped sheets', () => {
  const relief = cellRelief({ rows: [[cell('3', '-1')]], sheets: [6, 3, 3] });
  const piece = relief.map.regions[relief.bodies[0].region].id;

  it('take the recess out of the sheet that shows', () => {
    const swapped = renumber(relief, { numbers: [{ region: piece, depth: '3', face: 's2' }] });
    const plan = planCuts(swapped);
    expect(plan.passes.map(brief)).toEqual(['recesses 1: s2', 'pass 3: s1+s2+s3']);
    expect(plan.pieces[0]).toMatchObject({ sheets: ['s2', 's1', 's3'], sawnOrder: ['s1', 's2', 's3'] });
  });

  it('saw a piece earlier where it takes a spare part from further back', () => {
    const two = cellRelief({ rows: [[cell('2'), cell('3')]], sheets: [6, 3, 3] });
    const region = two.map.regions[two.bodies.find((body) => body.sheets === 2)!.region].id;
    const plan = planCuts(renumber(two, { numbers: [{ region, depth: '2', substitute: { s2: 's3' } }] }));
    expect(plan.passes.map(brief)).toEqual(['pass 3: s1+s2+s3']);
    expect(plan.offcuts.find((offcut) => offcut.sheet === 's2')!.spareParts).toHaveLength(1);
  });
});

describe('what does not fit', () => {
  it('is an error where the stack is higher than the saw', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('2')]], sheets: [30, 30] }));
    expect(plan.findings).toMatchObject([
      { rule: 'stack-too-high', level: 'error', measured: { value: 60, needed: 50.8 } },
    ]);
  });

  it('is a finding where waste is too narrow for the smallest bit', () => {
    const workshop = { bits: [{ name: 'wide', diameter: 13.5 }], drillMargin: 0.5 };
    const plan = planCuts(cellRelief({ rows: [[cell('2', '0')]], sheets: [3, 3] }), workshop);
    expect(plan.findings.map((finding) => finding.rule)).toEqual(['drill-start']);
    expect(plan.findings[0].level).toBe('warning');
    expect(plan.passes[0].steps[0].start).toMatchObject({ kind: 'drill', where: 'line', bit: 'wide' });
    // There is room for a smaller bit, so that is what is asked for.
    expect(plan.findings[0].fix).toMatch(/^Take a bit of \d/);
  });

  it('says which blade would do where the waste is too narrow for the hole', () => {
    const picture = cellRelief({ rows: [[cell('2', '2', '1', '0')]], sheets: [3, 3] });
    // The innermost square is 4.4 mm wide; a hole of 4 mm with its margins is not.
    const blade = { name: 'broad', width: 3.8, thickness: 0.9 };
    const bits = [{ name: '4.1 mm', diameter: 4.1 }];
    const { findings } = planCuts(picture, { blade, bits });
    expect(findings.map(({ rule }) => rule)).toContain('drill-start');
    expect(findings[0].fix).toMatch(
      /^Take a smaller blade: No\. 9 passes a hole of 1\.\d+ mm; else make it 5\.\d mm wide/,
    );
  });

  it('is an error where no bit passes the blade', () => {
    const workshop = { bits: [{ name: 'tiny', diameter: 0.5 }] };
    const plan = planCuts(cellRelief({ rows: [[cell('2', '0')]], sheets: [3, 3] }), workshop);
    expect(plan.findings.map((finding) => finding.level)).toEqual(['error']);
    expect(plan.findings[0].message).toContain('0.50 mm');
  });

  it('is thrown above 30 sheets', () => {
    const relief = cellRelief({ rows: [[cell('2')]], sheets: new Array(31).fill(1) });
    expect(() => planCuts(relief)).toThrow(PlystepError);
  });
});

describe('planCuts', () => {
  it('gives the same plan each time and leaves the relief as it was', () => {
    const relief = cellRelief({ rows: [[cell('3', '-1', '2'), cell('2', '0')]], sheets: [3, 3, 3] });
    const before = JSON.stringify(relief);
    const [one, other] = [planCuts(relief), planCuts(relief)];
    expect(JSON.stringify(one)).toBe(JSON.stringify(other));
    expect(JSON.stringify(relief)).toBe(before);
  });

  it('survives structured clone and JSON', () => {
    const plan = planFixture('owl');
    expect(structuredClone(plan)).toEqual(plan);
    expect(JSON.parse(JSON.stringify(plan))).toEqual(plan);
  });

  it('adds its totals up', () => {
    const { passes, totals, workshop } = planFixture('harbour');
    const steps = passes.flatMap((pass) => pass.steps);
    expect(totals.cutLength).toBeCloseTo(
      steps.reduce((sum, step) => sum + step.length, 0),
      6,
    );
    expect(totals.minutes).toBeCloseTo(
      passes.reduce((sum, pass) => sum + pass.minutes, workshop.setupMinutes),
      6,
    );
    expect(totals.sheetMoves).toBe(passes.flatMap((pass) => pass.moves).length);
  });
});
