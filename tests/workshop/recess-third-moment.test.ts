import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  possibleSlots,
  type RecessClass,
  type Slot,
  scheduleRecesses,
  slotMoves,
  timeOf,
} from '../../src/workshop/recess-schedule.js';
import { countSheets, frontSheets } from '../../src/workshop/sheet-sets.js';

/**
 * Recesses could also be sawn in a piece that is out already, in the part of it that its first sheets make. Its
 * other parts are then taken off and put back, each of which counts one, as it does for a sheet of the stack.
 * docs/plan.md proves that this never saves a move; here all schedules with that third moment are tried out.
 */
const total = 4;

/** Moves for the recesses of one piece that is out: from all its sheets, through each set, and back to all. */
function looseMoves(own: number, sets: readonly number[]): number {
  const ways = permutations([...new Set(sets)]);
  return Math.min(
    ...ways.map(
      (way) =>
        [...way, own].reduce(({ at, moves }, next) => ({ at: next, moves: moves + countSheets(at ^ next) }), {
          at: own,
          moves: 0,
        }).moves,
    ),
  );
}

/** The fewest moves of all schedules in which every class is sawn in a slot or in its piece once that is out. */
function fewestWithThird(items: readonly RecessClass[], ownSheets: (item: RecessClass) => number): number {
  const OUT = -1;
  const time = (slot: Slot): number => (slot === OUT ? total + 1 : timeOf(slot, total));
  const slots: Slot[] = new Array(items.length).fill(0);
  let least = Number.POSITIVE_INFINITY;
  const assign = (i: number): void => {
    if (i === items.length) {
      let moves = 0;
      for (const slot of new Set(slots)) {
        const members = items.filter((_, k) => slots[k] === slot);
        if (slot !== OUT) moves += slotMoves(slot, members, total);
        else for (const item of members) moves += looseMoves(ownSheets(item), [item.sheets]);
      }
      least = Math.min(least, moves);
      return;
    }
    const from = Math.max(0, ...items[i].after.map((k) => time(slots[k])));
    const inTime = from > total ? [] : possibleSlots({ ...items[i], after: [] }, slots, total);
    for (const slot of [...inTime.filter((s) => time(s) >= from), OUT]) {
      slots[i] = slot;
      assign(i + 1);
    }
  };
  assign(0);
  return least;
}

function permutations<T>(list: readonly T[]): T[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((item, i) =>
    permutations(list.filter((_, j) => j !== i)).map((rest) => [item, ...rest]),
  );
}

const classes = fc
  .array(
    fc.record({
      bits: fc.integer({ min: 1, max: 2 ** total - 2 }),
      latest: fc.integer({ min: 2, max: total }),
      span: fc.integer({ min: 0, max: 2 }),
      beforeAll: fc.boolean(),
      front: fc.boolean(),
    }),
    { minLength: 1, maxLength: 4 },
  )
  .map((items) =>
    items.map(({ bits, latest, span, beforeAll, front }): RecessClass => {
      const sheets = bits % (2 ** latest - 1) || 1;
      const earliest = beforeAll ? total : Math.min(total, latest + span);
      return { sheets, earliest, latest, beforeAll, front: front ? latest : 0, after: [] };
    }),
  );

describe('recesses in a piece that is out already', () => {
  it('never save a sheet move, where the piece has the sheets of its pass', () => {
    fc.assert(
      fc.property(classes, (items) => {
        const { moves, proven } = scheduleRecesses(items, total);
        expect(proven).toBe(true);
        expect(fewestWithThird(items, (item) => frontSheets(item.latest))).toBe(moves);
      }),
      { numRuns: 400 },
    );
  });

  it('would save moves where the piece has fewer sheets than its pass: a spare part from further back', () => {
    // s1 and s4 of four sheets, so the pass is the fourth: 3 sheets off and on, against 1 part off and on.
    const item: RecessClass = { sheets: 1, earliest: 4, latest: 4, beforeAll: false, front: 0, after: [] };
    expect(scheduleRecesses([item], total).moves).toBe(6);
    expect(fewestWithThird([item], () => 0b1001)).toBe(2);
    // Where no piece lies in it, it is sawn before the stack is complete.
    expect(scheduleRecesses([{ ...item, beforeAll: true }], total).moves).toBe(3);
  });
});
