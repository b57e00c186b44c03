import { describe, expect, it } from 'vitest';
import { planReport } from '../../src/output/plan-json.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { renumber } from '../../src/relief/build-relief.js';
import type { RegionNumber, Relief } from '../../src/relief/relief.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { flatPath, sampleRun } from '../simulator/flat-path.js';
import { OUTSIDE, planWorld } from '../simulator/plan-world.js';
import { SegmentStore } from '../simulator/segment-store.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

/** Written coordinates have four decimals, chords lie within 0.004 mm of the curves, mm. */
const SAME_LINE = 0.02;
const BESIDE = 0.04;
const STEP = 0.9;

/**
 * What the plan saws through each sheet against the lines that are written for it, both read as path data:
 * every written line is sawn, and what is sawn beside them parts nothing but waste from waste.
 */
function differences(relief: Relief, drawn: Relief = relief): string[] {
  const plan = planCuts(relief);
  const report = JSON.parse(JSON.stringify(planReport(plan))) as ReturnType<typeof planReport>;
  const world = planWorld(report);
  const faults: string[] = [];
  for (const { sheet, svg } of writeSheets({ relief: drawn })) {
    if (sheet === null) continue;
    const written = new SegmentStore();
    const sawn = new SegmentStore();
    const lines = ['cut', 'vein'].flatMap((group) => pathsOf(svg, group)).flatMap(flatPath);
    const steps = report.passes
      .filter(({ phase, sheets }) => phase !== 'add-ons' && sheets.includes(sheet))
      .flatMap((pass) => pass.steps.flatMap((step) => flatPath(step.path)));
    for (const run of lines) written.add(run, 0);
    for (const run of steps) sawn.add(run, 0);
    const place = ([x, y]: readonly [number, number]): string => `${x.toFixed(2)}, ${y.toFixed(2)}`;
    for (const { at } of lines.flatMap((run) => sampleRun(run, STEP))) {
      if (sawn.distance(at, SAME_LINE) > SAME_LINE)
        faults.push(`${sheet}: written, not sawn at ${place(at)}`);
    }
    for (const { at, along } of steps.flatMap((run) => sampleRun(run, STEP))) {
      if (written.distance(at, SAME_LINE) <= SAME_LINE) continue;
      const sides = [-1, 1].map((s) =>
        world.at([at[0] + s * BESIDE * along[1], at[1] - s * BESIDE * along[0]]),
      );
      const owners = sides.map((cell) => (cell === OUTSIDE ? null : world.owner(cell, sheet)));
      if (owners.some((owner) => owner !== null))
        faults.push(`${sheet}: sawn, not written at ${place(at)}, beside ${owners.join(' and ')}`);
    }
  }
  return faults;
}

function pathsOf(svg: string, id: string): string[] {
  const group = new RegExp(`<g id="${id}"[\\s\\S]*?</g>`).exec(svg)?.[0] ?? '';
  return [...group.matchAll(/ d="([^"]*)"/g)].map((match) => match[1]);
}

const cell = (depth: string, ...inside: string[]) => ({
  depth,
  inside: inside.map((own) => ({ shape: 'circle' as const, depth: own })),
});

describe('written sheets and the plan say the same', () => {
  it.each(['harbour', 'owl', 'fretwork'] as const)('on %s', (name) => {
    expect(differences(planFixture(name).relief)).toEqual([]);
    expect(differences(planFixture(name, { joint: 'continuous' }).relief)).toEqual([]);
  });

  const relief = cellRelief({
    rows: [[cell('3', '-1', '-1'), cell('3', '-1'), cell('2', '-1', '0')]],
    sheets: [6, 3, 3, 3],
  });
  const leftToRight = ({ map, bodies }: Relief) => {
    const left = (region: number): number => map.regions[region].bounds[0];
    return [...bodies].sort((a, b) => left(a.region) - left(b.region));
  };
  const numbers = (changes: readonly Partial<RegionNumber>[]): RegionNumber[] =>
    leftToRight(relief).map(({ region, sheets }, i) => ({
      region: relief.map.regions[region].id,
      depth: String(sheets),
      ...changes[i],
    }));

  it('for recesses in pieces whose sheets change places', () => {
    const swapped = renumber(relief, {
      numbers: numbers([{ face: 's2' }, { face: ['s3', 's1', 's2'] }, { face: 's2' }]),
    });
    expect(leftToRight(swapped).map((body) => body.order.join(' '))).toEqual([
      's2 s1 s3',
      's3 s1 s2',
      's2 s1',
    ]);
    expect(differences(swapped)).toEqual([]);
  });

  it('for pieces with a spare part from further back', () => {
    const changed = renumber(relief, { numbers: numbers([{ substitute: { s3: 's4' } }, {}, {}]) });
    expect(leftToRight(changed)[0].order).toEqual(['s1', 's2', 's4']);
    expect(differences(changed)).toEqual([]);
  });

  it('and notices a line that is missing', () => {
    // Sheets written for another order of one piece are not those of the plan.
    const other = renumber(relief, { numbers: numbers([{ face: 's2' }, {}, {}]) });
    const found = differences(relief, other).join('\n');
    expect(found).toContain('s1: sawn, not written');
    expect(found).toContain('s2: written, not sawn');
  });
});
