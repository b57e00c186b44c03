import { describe, expect, it } from 'vitest';
import { LEAST_CONTACT } from '../../src/workshop/glue-up.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

const cell = (depth: string, ...inside: string[]) => ({
  depth,
  inside: inside.map((own) => ({ shape: 'square' as const, depth: own })),
});

describe('glueUp', () => {
  it('puts every piece in place once, each to what is there already', () => {
    for (const name of ['harbour', 'owl', 'fretwork'] as const) {
      const { glueUp, pieces } = planFixture(name);
      const placed = new Set<string>();
      for (const { kind, item, to } of glueUp!.steps) {
        expect(to.every((id) => placed.has(id))).toBe(true);
        if (kind === 'piece') {
          expect(placed.has(item)).toBe(false);
          placed.add(item);
        }
      }
      expect(placed.size).toBe(pieces.length);
    }
  });

  it('lays the frame down first, as a form, and finishes what sits together in its hole before it goes in', () => {
    const { glueUp } = planFixture('harbour');
    const assemblies = glueUp!.steps.map((step) => step.assembly);
    expect(glueUp!.steps[0]).toMatchObject({ item: 'p1', assembly: 'whole picture', to: [] });
    const whole = assemblies.indexOf('whole picture', 1);
    expect(whole).toBeGreaterThan(1);
    expect(assemblies.slice(whole).every((name) => name === 'whole picture')).toBe(true);
    for (const step of glueUp!.steps.filter(({ kind }) => kind === 'assembly')) {
      expect(assemblies.lastIndexOf(step.item)).toBeLessThan(glueUp!.steps.indexOf(step));
    }
  });

  it('puts what sits alone in a hole right after its host', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('3', '2', '1'), cell('3')]], sheets: [3, 3, 3] }));
    const id = (sheets: number): string => plan.relief.bodies.find((body) => body.sheets === sheets)!.id;
    const steps = plan.glueUp!.steps;
    const two = steps.findIndex((step) => step.item === id(2));
    expect(steps[two].to).toEqual([steps[two - 1].item]);
    expect(steps[two + 1]).toMatchObject({ item: id(1), to: [id(2)] });
    // 36 mm of border around the 9 mm square, 3 mm high; 56 mm around the 14 mm square, 6 mm high.
    expect(steps[two + 1].contact).toBeCloseTo(36 * 3, 6);
    expect(steps[two].contact).toBeCloseTo(56 * 6, 6);
  });

  it('begins with the piece that has most contact', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('1'), cell('3'), cell('2')]], sheets: [3, 3, 3] }));
    const middle = plan.relief.bodies.find((body) => body.sheets === 3)!.id;
    expect(plan.glueUp!.steps[0]).toMatchObject({ item: middle, to: [] });
    // 20 mm of border: with the 2 it is 6 mm high, with the 1 it is 3 mm.
    expect(plan.glueUp!.steps.slice(1).map((step) => step.contact)).toEqual([
      expect.closeTo(120, 6),
      expect.closeTo(60, 6),
    ]);
  });

  it('proposes a backing board where contact is small', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('1'), cell('3'), cell('2')]], sheets: [3, 3, 3] }));
    const low = plan.relief.bodies.find((body) => body.sheets === 1)!.id;
    expect(plan.glueUp!.backing).toEqual({ pieces: [low], needed: LEAST_CONTACT });
    const firm = planCuts(cellRelief({ rows: [[cell('3'), cell('3')]], sheets: [3, 3, 3] }));
    expect(firm.glueUp!.backing).toBeNull();
  });

  it('takes a piece inside an add-on for no host of itself', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('0', '+', '2')]], sheets: [3, 3, 3] }));
    expect(plan.glueUp!.steps.filter((step) => step.kind === 'piece')).toHaveLength(1);
  });

  it('is not there for continuous sheets', () => {
    expect(planFixture('owl', { joint: 'continuous' }).glueUp).toBeNull();
  });
});

describe('pieces', () => {
  it('weigh what their sheets weigh, recesses taken off', () => {
    // 20 × 20 mm of poplar (0.42) in 3 sheets of 3 mm, a recess of 14 × 14 mm in the first.
    const plan = planCuts(cellRelief({ rows: [[cell('3', '-1')]], sheets: [3, 3, 3] }));
    expect(plan.pieces[0].grams).toBeCloseTo(0.42e-3 * (3 * 3 * 400 - 3 * 196), 6);
    expect(plan.pieces[0].size).toEqual([expect.closeTo(20, 6), expect.closeTo(20, 6)]);
    expect(plan.pieces[0].area).toBeCloseTo(400, 6);
  });

  it('know what they are glued to, as both sides see it', () => {
    const { pieces } = planFixture('harbour');
    const contact = new Map(
      pieces.flatMap(({ id, gluedTo }) =>
        gluedTo.map(({ piece, area }) => [`${id} ${piece}`, area] as const),
      ),
    );
    expect(contact.size).toBeGreaterThan(pieces.length);
    for (const [key, area] of contact) {
      const [one, other] = key.split(' ');
      expect(contact.get(`${other} ${one}`)).toBe(area);
    }
  });

  it('have no weight where the material is not in the table', () => {
    const relief = cellRelief({ rows: [[cell('1')]], sheets: [3] });
    const stack = { sheets: [{ ...relief.stack.sheets[0], material: 'moonstone' }] };
    expect(planCuts({ ...relief, stack }).pieces[0].grams).toBeNull();
  });
});

describe('cautions', () => {
  const cautionsOf = (material: string, depth: string, inside: readonly string[]): string => {
    const relief = cellRelief({ rows: [[cell(depth, ...inside)]], sheets: [3] });
    const stack = { sheets: [{ ...relief.stack.sheets[0], material }] };
    return planCuts({ ...relief, stack }).cautions.join(' ');
  };

  it('always defer to manuals, local rules and instruction, and have the saw unplugged', () => {
    const all = cautionsOf('poplar', '1', []);
    expect(all).toContain('manuals of your tools, your local rules and qualified instruction go before them');
    expect(all).toContain('unplug it before you change, thread or free a blade');
  });

  it('speak of drilling and fine dust where they apply, and only there', () => {
    expect(cautionsOf('poplar', '1', [])).not.toMatch(/Drill on|very fine dust/);
    expect(cautionsOf('poplar', '1', ['0'])).toContain('Drill on a backing board with the work clamped');
    for (const material of ['MDF', 'hardboard', 'fibreboard 3 mm', 'particle board']) {
      expect(cautionsOf(material, '1', [])).toContain('very fine dust');
    }
  });
});
