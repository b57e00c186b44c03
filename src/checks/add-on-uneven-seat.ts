import { woodHeights } from './material.js';
import { defineRule, type RuleFinding } from './rule.js';
import { nameOf, namesOf, placeOf, round2 } from './words.js';

export interface AddOnUnevenSeatOptions {
  /** Heights that differ by no more than this, mm, still glue up flat. */
  readonly flat?: number;
}

/** An add-on that lies over two heights. Page: docs/checks/add-on-uneven-seat.md. */
export const addOnUnevenSeat = defineRule<'add-on-uneven-seat', AddOnUnevenSeatOptions>({
  id: 'add-on-uneven-seat',
  group: 'build',
  level: 'error',
  summary: 'an add-on lies over two heights',
  model: 'difference between the highest and the lowest place that it rests on',
  // A thin glue line fills no more; common practice, no source.
  defaults: { flat: 0.1 },
  find: ({ relief }, { flat }) => {
    if (relief.addOns.length === 0) return [];
    const heights = woodHeights(relief);
    const found: RuleFinding[] = [];
    for (const { region, seats } of relief.addOns) {
      const wood = seats.filter((seat) => heights[seat] > 0);
      const sorted = [...wood].sort((a, b) => heights[a] - heights[b]);
      const uneven = sorted.length < 2 ? 0 : heights[sorted[sorted.length - 1]] - heights[sorted[0]];
      if (uneven <= flat) continue;
      found.push({
        message: `${nameOf(relief, region)} rests on ${namesOf(relief, wood)}, whose heights differ by ${round2(uneven)} mm.`,
        at: placeOf(relief, region),
        regions: [region, ...wood],
        measured: { value: round2(uneven), needed: flat, unit: 'mm' },
        fix: 'Move it onto one of them, or cut it in two add-ons along the step.',
      });
    }
    return found;
  },
});
