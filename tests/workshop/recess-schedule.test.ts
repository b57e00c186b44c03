import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  BEFORE_ALL,
  possibleSlots,
  type RecessClass,
  type Slot,
  scheduleRecesses,
} from '../../src/workshop/recess-schedule.js';

const recess = (over: Partial<RecessClass>): RecessClass => ({
  sheets: 0b1,
  earliest: 4,
  latest: 4,
  beforeAll: true,
  front: 0,
  after: [],
  ...over,
});

describe('scheduleRecesses', () => {
  it('needs nothing where there are no recesses', () => {
    expect(scheduleRecesses([], 4)).toEqual({ slots: [], moves: 0, proven: true });
  });

  it('saws one-sheet recesses of the highest number before the stack is complete', () => {
    // Three sheets are laid behind the first: 3 moves; setting them aside and back would be 6.
    expect(scheduleRecesses([recess({})], 4)).toMatchObject({ slots: [BEFORE_ALL], moves: 3 });
  });

  it('sets sheets aside where only a low piece has a recess', () => {
    // In pass 2 one sheet goes off and on: 2 moves; before the stack is complete it would be 3.
    expect(scheduleRecesses([recess({ latest: 2 })], 4)).toMatchObject({ slots: [2], moves: 2 });
  });

  it('waits for pieces inside a recess', () => {
    const { slots } = scheduleRecesses([recess({ beforeAll: false, earliest: 3, latest: 2 })], 4);
    expect(slots).toEqual([2]);
  });

  it('holds the front sheets of the piece where an opening lies in the recess', () => {
    // Front 3 together for the opening, 2 off for the recess, 3 on again: 5; in pass 3: 2 off, 2 on.
    const { slots, moves } = scheduleRecesses([recess({ front: 3, latest: 3 })], 4);
    expect([slots, moves]).toEqual([[3], 4]);
  });

  it('puts recesses of several pieces into one slot', () => {
    const classes = [recess({ latest: 4 }), recess({ latest: 3 }), recess({ latest: 3, sheets: 0b11 })];
    const { slots, moves } = scheduleRecesses(classes, 4);
    expect(slots).toEqual([BEFORE_ALL, BEFORE_ALL, BEFORE_ALL]);
    expect(moves).toBe(1 + 3);
  });
});

describe('scheduleRecesses against brute force', () => {
  const total = 5;
  const classes = fc
    .array(
      fc.record({
        bits: fc.integer({ min: 1, max: 0b1111 }),
        latest: fc.integer({ min: 2, max: total }),
        span: fc.integer({ min: 0, max: 2 }),
        beforeAll: fc.boolean(),
        front: fc.boolean(),
      }),
      { minLength: 1, maxLength: 4 },
    )
    // A recess leaves at least one of the sheets of its piece.
    .map((items) => items.map((item) => ({ ...item, mask: item.bits % (2 ** item.latest - 1) || 1 })))
    .map((items) =>
      items.map(
        ({ mask, latest, span, beforeAll, front }, i): RecessClass => ({
          sheets: mask,
          earliest: beforeAll ? total : Math.min(total, latest + span),
          latest,
          beforeAll,
          front: front ? latest : 0,
          // A class whose sheets hold all of an earlier one's may not come after it: the deeper one goes first.
          after: items.flatMap((other, j) =>
            j < i &&
            other.mask !== mask &&
            (other.mask & mask) === mask &&
            other.latest === latest &&
            beforeAll
              ? [j]
              : [],
          ),
        }),
      ),
    );

  it('finds the fewest moves', () => {
    fc.assert(
      fc.property(classes, (items) => {
        const found = scheduleRecesses(items, total);
        const best = bruteForce(items, total);
        if (best === null) return found.slots.length === 0;
        expect(found.moves).toBe(best);
        expect(found.proven).toBe(true);
        return true;
      }),
      { numRuns: 300 },
    );
  });
});

/** Fewest moves over all assignments, each walked by counting sheets one at a time. */
function bruteForce(items: readonly RecessClass[], total: number): number | null {
  const slots: Slot[] = new Array(items.length).fill(-1);
  let best: number | null = null;
  const assign = (i: number): void => {
    if (i === items.length) {
      const moves = countMoves(items, slots, total);
      if (best === null || moves < best) best = moves;
      return;
    }
    for (const slot of possibleSlots(items[i], slots, total)) {
      slots[i] = slot;
      assign(i + 1);
    }
  };
  assign(0);
  return best;
}

/** Lays sheets on and takes them off one by one, over every order of the recesses of a slot. */
function countMoves(items: readonly RecessClass[], slots: readonly Slot[], total: number): number {
  let moves = 0;
  for (const slot of new Set(slots)) {
    const own = items.filter((_, i) => slots[i] === slot);
    const together = slot === BEFORE_ALL ? total : slot;
    const front = Math.max(...own.map((item) => item.front));
    const sets = [...new Set(own.map((item) => item.sheets))];
    const frontSet = new Set(Array.from({ length: front }, (_, j) => j));
    const endSet = new Set(Array.from({ length: together }, (_, j) => j));
    const ways = permutations(sets)
      .filter((way) => deepFirst(way))
      .map((way) => {
        const stops = way.map((mask) => new Set([...endSet, ...frontSet].filter((j) => (mask >> j) & 1)));
        const begin = slot === BEFORE_ALL ? (front > 0 ? [frontSet] : []) : [endSet];
        const all = [...begin, ...stops, endSet];
        return all.slice(1).reduce((sum, to, k) => sum + difference(all[k], to), 0);
      });
    moves += Math.min(...ways);
  }
  return moves;
}

/** A set comes after every set that holds all of it. */
function deepFirst(way: readonly number[]): boolean {
  return way.every((mask, i) => way.slice(i + 1).every((later) => later === mask || (later & mask) !== mask));
}

function difference(a: ReadonlySet<number>, b: ReadonlySet<number>): number {
  return [...a].filter((j) => !b.has(j)).length + [...b].filter((j) => !a.has(j)).length;
}

function permutations<T>(list: readonly T[]): T[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((item, i) =>
    permutations(list.filter((_, j) => j !== i)).map((rest) => [item, ...rest]),
  );
}
