import type { Point } from '../geometry/point.js';
import { regionAt } from '../plane/region-at.js';
import type { Relief } from '../relief/relief.js';
import { loopPoints } from './edge-points.js';
import { woodHeights } from './material.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf } from './words.js';

/** Distance between an add-on's outline and the chords on which its edge is looked at, mm. */
const FLATNESS = 0.1;

/** An add-on that is larger than what it rests on. Page: docs/checks/add-on-overhang.md. */
export const addOnOverhang = defineRule<'add-on-overhang', NoOptions>({
  id: 'add-on-overhang',
  group: 'build',
  level: 'warning',
  summary: 'an add-on is larger than its seat',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const heights = woodHeights(relief);
    const found: RuleFinding[] = [];
    for (const { region, seats, shared } of relief.addOns) {
      const open = seats.find((seat) => heights[seat] === 0);
      const over = shared || open !== undefined ? null : overhangingPoint(relief, region);
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

/** A point of the outline that lies outside the drawing; null where there is none. */
function overhangingPoint(relief: Relief, region: number): Point | null {
  const { map } = relief;
  const outline = map.regions[region].loops[0];
  const below = { ...map, regions: map.regions.filter(({ addOn }) => !addOn) };
  return loopPoints(map, outline, FLATNESS).find((at) => regionAt(below, at) < 0) ?? null;
}
