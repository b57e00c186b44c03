import type { Point } from '../geometry/point.js';
import { countCrossings, loopPoints } from '../plane/edge-points.js';
import type { Relief } from '../relief/relief.js';
import { woodHeights } from './material.js';
import { edgesOf, nearestOnEdge } from './near-line.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf } from './words.js';

/** Distance between outlines and the chords on which they are compared, mm. */
const FLATNESS = 0.1;

/** An outline that is this near to the edge of its seat, mm, runs along it. */
const ALONG_THE_EDGE = 0.2;

/** An add-on that is larger than what it rests on. Page: docs/checks/add-on-overhang.md. */
export const addOnOverhang = defineRule<'add-on-overhang', NoOptions>({
  id: 'add-on-overhang',
  group: 'build',
  level: 'warning',
  summary: 'an add-on is larger than its seat',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    if (relief.addOns.length === 0) return [];
    const heights = woodHeights(relief);
    const found: RuleFinding[] = [];
    for (const { region, seats, shared } of relief.addOns) {
      const open = seats.find((seat) => heights[seat] === 0);
      const over = shared || open !== undefined ? null : overhangingPoint(relief, region, seats);
      if (seats.length > 0 && open === undefined && over === null) continue;
      const name = nameOf(relief, region);
      found.push({
        message:
          seats.length === 0
            ? `${name} rests on nothing.`
            : open === undefined
              ? `${name} reaches out over the edge of what it rests on.`
              : `${name} lies partly over ${nameOf(relief, open)}, where there is no wood.`,
        at: over ?? placeOf(relief, region),
        regions: open === undefined ? [region] : [region, open],
        fix: 'Draw it smaller or move it, so that it rests on one piece all over.',
      });
    }
    return found;
  },
});

/** A point of the outline that lies outside all seats; null where there is none. */
function overhangingPoint(relief: Relief, region: number, seats: readonly number[]): Point | null {
  const { map } = relief;
  const outlines = seats.map((seat) =>
    map.regions[seat].loops.map((loop) => loopPoints(map, loop, FLATNESS)),
  );
  const outside = (p: Point): boolean => {
    if (outlines.some((loops) => countCrossings(loops, p) % 2 === 1)) return false;
    return seats.every((seat) =>
      [...edgesOf(map, seat)].every((edge) => nearestOnEdge(map, edge, p).distance > ALONG_THE_EDGE),
    );
  };
  return loopPoints(map, map.regions[region].loops[0], FLATNESS).find(outside) ?? null;
}
