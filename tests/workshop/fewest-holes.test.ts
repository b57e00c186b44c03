import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { type Cell, cellRelief } from '../support/cell-relief.js';
import { fewestHoles } from './fewest-holes.js';

const piece = fc.constantFrom('1', '2', '3');
const inside = fc.constantFrom('0', '0', '1', '2', '3');

const cell = (insets: number): fc.Arbitrary<Cell> =>
  fc.record({
    depth: fc.oneof({ weight: 6, arbitrary: piece }, { weight: 1, arbitrary: fc.constant('0') }),
    inside: fc.array(
      fc.record({
        shape: fc.constantFrom('circle', 'square'),
        depth: inside,
        right: fc.option(inside, { nil: undefined }),
      }),
      { maxLength: insets },
    ),
  });

const row = (insets: number, length: number): fc.Arbitrary<Cell[]> =>
  fc.array(cell(insets), { minLength: length, maxLength: length });

const rows = fc.oneof(
  row(2, 2).map((cells) => [cells]),
  row(1, 3).map((cells) => [cells]),
  fc.tuple(row(1, 2), row(1, 2)).map((cells) => [...cells]),
);

describe('holes and threadings', () => {
  it('are as few as brute force finds, on small pictures', () => {
    fc.assert(
      fc.property(rows, fc.constantFrom('cut', 'board-edge'), (picture, frame) => {
        const relief = cellRelief({ rows: picture, sheets: [3, 3, 3], frame });
        const { totals } = planCuts(relief);
        expect([totals.drillStarts, totals.threadings]).toEqual(fewestHoles(relief));
      }),
      { numRuns: 100 },
    );
  });

  it('needs one hole for an inset piece, one for an opening, none for what the edge reaches', () => {
    const plan = planCuts(
      cellRelief({
        rows: [
          [
            { depth: '2', inside: [{ shape: 'circle', depth: '0' }] },
            { depth: '2', inside: [{ shape: 'square', depth: '2' }] },
          ],
        ],
        sheets: [3, 3],
      }),
    );
    expect(plan.totals).toMatchObject({ drillStarts: 2, threadings: 2 });
  });

  it('takes a loose block out of its hole and saws it from its own edge', () => {
    // The ring of 3 comes out first; what stood in it, a 2 beside a 1, is parted by a line from edge to edge.
    const plan = planCuts(
      cellRelief({
        rows: [
          [
            {
              depth: '1',
              inside: [
                { shape: 'circle', depth: '3' },
                { shape: 'circle', depth: '2', right: '1' },
              ],
            },
          ],
        ],
        sheets: [3, 3, 3],
      }),
    );
    expect(plan.passes[1].blocks).toHaveLength(2);
    expect(plan.passes[1].steps.map((step) => step.start.kind)).toEqual(['edge']);
    expect(plan.totals).toMatchObject({ drillStarts: 2, threadings: 2 });
  });

  it('threads through an open place instead of drilling', () => {
    // The ring of 2 has its inner line free once the 3 in it is out.
    const plan = planCuts(
      cellRelief({
        rows: [
          [
            {
              depth: '1',
              inside: [
                { shape: 'circle', depth: '2' },
                { shape: 'circle', depth: '3' },
              ],
            },
          ],
        ],
        sheets: [3, 3, 3],
      }),
    );
    const starts = plan.passes.flatMap((pass) => pass.steps.map((step) => step.start.kind));
    expect(starts.filter((kind) => kind === 'drill')).toHaveLength(2);
    expect(plan.totals.threadings).toBe(2);
  });
});
