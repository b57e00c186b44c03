import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findSurrounds, type NeighbourLists } from '../../src/relief/surrounds.js';

/** Neighbour lists of `count` regions and the outside (the last index), from pairs. */
function lists(count: number, pairs: readonly (readonly [number, number])[]): NeighbourLists {
  const neighbours: number[][] = Array.from({ length: count + 1 }, () => []);
  for (const [a, b] of pairs) {
    neighbours[a].push(b);
    neighbours[b].push(a);
  }
  return neighbours;
}

/** What can be reached from the outside without passing `without`. */
function reached(neighbours: NeighbourLists, without: number): Set<number> {
  const found = new Set([neighbours.length - 1]);
  for (const at of found) for (const to of neighbours[at]) if (to !== without) found.add(to);
  return found;
}

/** All regions that each region is enclosed by, by leaving out one after the other. */
function enclosing(neighbours: NeighbourLists, region: number): number[] {
  return [...Array(neighbours.length - 1).keys()].filter(
    (other) => other !== region && !reached(neighbours, other).has(region),
  );
}

describe('findSurrounds', () => {
  it('finds the ring around a ring around a disc', () => {
    const rings = lists(3, [
      [3, 0],
      [0, 1],
      [1, 2],
    ]);
    expect([...findSurrounds(rings)]).toEqual([-1, 0, 1]);
  });

  it('takes two halves of a ring for no surround', () => {
    const halves = lists(3, [
      [3, 0],
      [3, 1],
      [0, 1],
      [0, 2],
      [1, 2],
    ]);
    expect([...findSurrounds(halves)]).toEqual([-1, -1, -1]);
  });

  it('agrees with leaving out one region after the other', () => {
    const graph = fc.integer({ min: 1, max: 9 }).chain((count) =>
      fc.array(fc.tuple(fc.nat(count), fc.nat(count)), { maxLength: 18 }).map((pairs) =>
        lists(
          count,
          pairs.filter(([a, b]) => a !== b),
        ),
      ),
    );
    fc.assert(
      fc.property(graph, (neighbours) => {
        const surround = findSurrounds(neighbours);
        const connected = reached(neighbours, -1);
        for (const [region, nearest] of surround.entries()) {
          const all = connected.has(region) ? enclosing(neighbours, region) : [];
          expect(nearest === -1).toBe(all.length === 0);
          if (nearest === -1) continue;
          // The nearest one is enclosed by all others.
          expect(all).toContain(nearest);
          const further = enclosing(neighbours, nearest);
          expect(further.sort()).toEqual(all.filter((other) => other !== nearest).sort());
        }
      }),
      { numRuns: 400 },
    );
  });

  it('walks a chain of 100,000 regions without running out of stack', () => {
    const count = 100_000;
    const chain = lists(
      count,
      [...Array(count).keys()].map((k) => [k, k === 0 ? count : k - 1] as const),
    );
    expect(findSurrounds(chain)[count - 1]).toBe(count - 2);
  });
});
