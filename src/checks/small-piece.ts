import { type Bounds, EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import { defineRule, type RuleFinding } from './rule.js';
import { woodParts } from './wood-parts.js';
import { enough, nameOf, placeOf, round2 } from './words.js';

export interface SmallPieceOptions {
  /** Longest side of the box around the smallest piece that a hand holds safely, mm. */
  readonly smallest?: number;
}

/** A piece too small to be held safely near the blade or while sanding. Page: docs/checks/small-piece.md. */
export const smallPiece = defineRule<'small-piece', SmallPieceOptions>({
  id: 'small-piece',
  group: 'strength',
  level: 'warning',
  summary: 'a piece is too small to hold safely',
  model: 'longest side of the box around the piece',
  // Narrower than a finger tip; common practice, no source.
  defaults: { smallest: 8 },
  find: ({ relief }, { smallest }) => {
    const found: RuleFinding[] = [];
    const addOns = relief.addOns.map(({ region }) => ({ name: nameOf(relief, region), regions: [region] }));
    for (const { name, regions } of [...woodParts(relief), ...addOns]) {
      const [x0, y0, x1, y1] = regions.reduce<Bounds>(
        (box, region) => joinBounds(box, relief.map.regions[region].bounds),
        EMPTY_BOUNDS,
      );
      const longest = Math.max(x1 - x0, y1 - y0);
      if (longest >= smallest) continue;
      found.push({
        message: `${name} is ${round2(longest)} mm long; a hand can't hold it safely.`,
        at: placeOf(relief, regions[0]),
        regions,
        measured: { value: longest, needed: smallest, unit: 'mm' },
        fix: `Draw it ${enough(smallest)} mm long or join it to a neighbour; else leave it tied to waste until it is sanded, and hold it with a clamp or tape.`,
      });
    }
    return found;
  },
});
