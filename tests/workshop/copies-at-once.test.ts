import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { copiesAtOnce } from '../../src/workshop/copies-at-once.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';

const relief = cellRelief({
  rows: [
    [
      { depth: '2', inside: [{ shape: 'circle', depth: '0' }] },
      { depth: '1', inside: [] },
    ],
  ],
  sheets: [3, 3],
});

describe('copiesAtOnce', () => {
  it('takes the time of the plan for one copy', () => {
    const plan = planCuts(relief);
    const { rows, best } = copiesAtOnce(plan, 1);
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ together: 1, height: 6, runs: 1 });
    expect(rows[0].minutes).toBeCloseTo(plan.totals.minutes, 9);
    expect(best).toBe(rows[0]);
  });

  it('stacks up to the easy height, where set-up and holes are saved and nothing is lost', () => {
    const { best, rows } = copiesAtOnce(planCuts(relief, { easyHeight: 20, moveMinutes: 0 }), 12);
    // Up to 18 mm sawing takes as long for each copy; the rest is shared.
    expect(rows.map((row) => row.height)).toEqual([6, 12, 18, 24, 30, 36, 42, 48]);
    expect(best!.together).toBeGreaterThanOrEqual(3);
  });

  it('saws fewer at once where a high stack costs more time than it saves', () => {
    const free = { setupMinutes: 0, threadMinutes: 0, drillMinutes: 0, cornerMinutes: 0, moveMinutes: 0 };
    const { best } = copiesAtOnce(planCuts(relief, { ...free, easyHeight: 6 }), 12);
    expect(best!.together).toBe(1);
  });

  it('counts the last run with fewer copies, and all in all the best row is the best', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 5, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 60, noNaN: true }),
        (copies, easyHeight, setupMinutes) => {
          const table = copiesAtOnce(planCuts(relief, { easyHeight, setupMinutes }), copies);
          for (const row of table.rows) {
            expect(row.runs).toBe(Math.ceil(copies / row.together));
            expect(row.minutesPerCopy).toBeGreaterThanOrEqual(table.best!.minutesPerCopy);
            expect(row.minutesPerCopyRange[0]).toBeLessThan(row.minutesPerCopy);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it('has no row where the saw does not take one copy', () => {
    expect(copiesAtOnce(planCuts(relief, { maxHeight: 5 }), 3)).toMatchObject({ best: null, rows: [] });
  });

  it('lists sheets of one thickness and different looks as sets to trade', () => {
    const sheets = relief.stack.sheets.map((sheet, j) => ({ ...sheet, face: ['walnut', 'maple'][j] }));
    const { trades } = copiesAtOnce(planCuts({ ...relief, stack: { sheets } }), 2);
    // The 1 has no second sheet to trade with.
    const two = relief.bodies.find((body) => body.sheets === 2)!.id;
    expect(trades).toEqual([{ thickness: 3, sheets: ['s1', 's2'], pieces: [two] }]);
    expect(copiesAtOnce(planCuts(relief), 2).trades).toEqual([]);
  });

  it('keeps parts above a recess floor apart from those below', () => {
    const picture = cellRelief({
      rows: [
        [
          { depth: '3', inside: [{ shape: 'circle', depth: '-1' }] },
          { depth: '3', inside: [] },
        ],
      ],
      sheets: [3, 3, 3],
    });
    const faces = ['oak', 'ash', 'walnut'];
    const sheets = picture.stack.sheets.map((sheet, j) => ({ ...sheet, face: faces[j] }));
    const { trades } = copiesAtOnce(planCuts({ ...picture, stack: { sheets } }), 2);
    const [cut, whole] = ['recess', 'none'].map(
      (_, i) => picture.bodies.find((body) => body.recesses.length > 0 === (i === 0))!.id,
    );
    expect(trades).toEqual([
      { thickness: 3, sheets: ['s2', 's3'], pieces: [cut] },
      { thickness: 3, sheets: ['s1', 's2', 's3'], pieces: [whole] },
    ]);
  });

  it.each([0, -1, 1.5, Number.NaN])('refuses %d copies', (copies) => {
    expect(() => copiesAtOnce(planCuts(relief), copies)).toThrow(PlystepError);
  });
});
