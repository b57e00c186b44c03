import type { Relief } from '../relief/relief.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { namesOf, placeOf } from './words.js';

/**
 * An opening that cuts a piece in two: it lies between regions that one shape of the drawing numbers, or that
 * one name holds together. Page: docs/checks/opening-splits-piece.md.
 */
export const openingSplitsPiece = defineRule<'opening-splits-piece', NoOptions>({
  id: 'opening-splits-piece',
  group: 'build',
  level: 'warning',
  summary: 'an opening cuts its host in two',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    for (const { regions, host, around } of relief.clusters) {
      const openings = regions.filter((region) => relief.regions[region].role === 'void');
      if (host !== null || openings.length === 0) continue;
      const parts = partsOfOneShape(relief, around);
      if (parts.length < 2) continue;
      found.push({
        message: `The opening ${namesOf(relief, openings)} cuts one shape into ${parts.length} pieces: ${namesOf(relief, parts)}.`,
        at: placeOf(relief, openings[0]),
        regions: [...openings, ...parts],
        fix: 'Leave a bridge of wood across it, or number the parts on their own if they are meant to be apart.',
      });
    }
    return found;
  },
});

/**
 * The largest set of the regions that one shape covers and that are not joined through one another. Filled or
 * not, a shape holds together what its outline holds.
 */
function partsOfOneShape(relief: Relief, around: readonly number[]): number[] {
  const byShape = new Map<number, number[]>();
  for (const region of around) {
    for (const shape of relief.map.regions[region].shapes) {
      if (relief.map.shapes[shape].depth === null) continue;
      byShape.set(shape, [...(byShape.get(shape) ?? []), region]);
      break;
    }
  }
  let best: number[] = [];
  for (const parts of byShape.values()) {
    const apart = parts.filter((part) => !bordersOnAny(relief, part, parts));
    if (apart.length > best.length) best = apart;
  }
  return best;
}

function bordersOnAny(relief: Relief, region: number, others: readonly number[]): boolean {
  return relief.map.regions[region].neighbours.some((n) => n.region < region && others.includes(n.region));
}
