import type { Relief } from '../relief/relief.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { namesOf, placeOf } from './words.js';

/**
 * An opening that cuts a piece in two: it lies between regions that one shape of the drawing numbers, and that hang
 * together nowhere else. Page: docs/checks/opening-splits-piece.md.
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
 * One region of each part of the shape that the opening cuts into most parts. Regions of a shape that border on each
 * other, anywhere, are one part of it.
 */
function partsOfOneShape(relief: Relief, around: readonly number[]): number[] {
  const byShape = new Map<number, number[]>();
  for (const region of around) {
    const shape = shapeThatNumbers(relief, region);
    if (shape >= 0) byShape.set(shape, [...(byShape.get(shape) ?? []), region]);
  }
  let best: number[] = [];
  for (const [shape, regions] of byShape) {
    const seen = new Set<number>();
    const parts = regions.filter((region) => {
      if (seen.has(region)) return false;
      spread(relief, shape, region, seen);
      return true;
    });
    if (parts.length > best.length) best = parts;
  }
  return best;
}

/** The shape whose attribute, or whose fill by the legend, numbers a region; -1 where none does. */
function shapeThatNumbers({ map, regions }: Relief, region: number): number {
  const { shapes, fillShape } = map.regions[region];
  const source = regions[region].claims[0]?.source;
  if (source === 'legend') return fillShape;
  return source === 'attribute' ? (shapes.find((shape) => map.shapes[shape].depth !== null) ?? -1) : -1;
}

/** Marks all regions that hang together with one by regions that the same shape numbers. */
function spread(relief: Relief, shape: number, start: number, seen: Set<number>): void {
  const reached = [start];
  seen.add(start);
  for (const at of reached) {
    for (const { region } of relief.map.regions[at].neighbours) {
      if (seen.has(region) || shapeThatNumbers(relief, region) !== shape) continue;
      seen.add(region);
      reached.push(region);
    }
  }
}
