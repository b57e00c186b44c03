import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

const square = (depth: string) => ({ shape: 'square' as const, depth });

describe('a blade that stands in the work', () => {
  it('is taken out once an opening is done, and that takes as long as a threading', () => {
    const relief = cellRelief({ rows: [[{ depth: '1', inside: [square('0')] }]], sheets: [3] });
    const plan = planCuts(relief);
    const [opening, outline] = plan.passes[0].steps;
    expect(opening).toMatchObject({ captive: true, start: { kind: 'drill', threaded: true } });
    expect(outline.captive).toBeUndefined();
    expect(outline.start).toMatchObject({ threaded: false, outside: true, released: true });
    expect(plan.totals).toMatchObject({ threadings: 1, releases: 1 });
    const quick = planCuts(relief, { threadMinutes: 0 });
    expect(plan.totals.minutes - quick.totals.minutes).toBeCloseTo(2 * plan.workshop.threadMinutes, 9);
    expect(plan.passes[0].minutes).toBeCloseTo(
      plan.passes[0].steps.reduce((sum, step) => sum + step.minutes, 0),
      9,
    );
  });

  it('is not taken out for nothing: from hole to hole the threading counts', () => {
    const piece = { depth: '1', inside: [square('0')] };
    const { totals, passes } = planCuts(cellRelief({ rows: [[piece, piece]], sheets: [3] }));
    const captive = passes[0].steps.map((step) => step.captive === true);
    expect(captive).toEqual(captive.map((_, i) => i < 2));
    expect(totals).toMatchObject({ threadings: 2, releases: 1 });
  });

  it('is free where it came in from the edge', () => {
    const { totals, passes } = planCuts(
      cellRelief({
        rows: [
          [
            { depth: '1', inside: [] },
            { depth: '1', inside: [] },
          ],
        ],
        sheets: [3],
      }),
    );
    expect(totals).toMatchObject({ threadings: 0, releases: 0 });
    expect(passes[0].steps.some((step) => step.captive)).toBe(false);
  });

  it('comes out of a frame that is sawn off around it', () => {
    const harbour = planFixture('harbour');
    const steps = harbour.passes.flatMap((pass) => pass.steps);
    const frame = harbour.pieces.find(({ id }) => id === 'p1')!;
    const at = steps.findIndex(({ frees, regions }) => frees === 'piece' && regions.includes(frame.region));
    expect(steps[at].captive).toBe(true);
    expect(steps[at + 1].start).toMatchObject({ outside: true, released: true, threaded: false });
  });
});

describe('sheets that come off with a piece', () => {
  it('are spare where they are not its own', () => {
    const { pieces, passes } = planFixture('harbour');
    const spare = pieces.filter((piece) => piece.spare !== undefined);
    expect(spare.map(({ name }) => name)).toContain('cottage door');
    for (const { region, sheets, spare: out = [] } of pieces) {
      const sawn = passes.flatMap(({ steps, loose, sheets: held, phase }) =>
        phase !== 'add-ons' &&
        (loose.includes(region) || steps.some((s) => s.frees === 'piece' && s.regions.includes(region)))
          ? held
          : [],
      );
      expect([...sheets, ...out].sort()).toEqual([...sawn].sort());
    }
  });
});
