import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf, round2 } from './words.js';

/** A cutout narrower than the blade is thick. Page: docs/checks/narrow-slot.md. */
export const narrowSlot = defineRule<'narrow-slot', NoOptions>({
  id: 'narrow-slot',
  group: 'strength',
  level: 'warning',
  summary: 'a cutout is narrower than the kerf',
  model: 'diameter of the largest circle in the cutout, against the thickness of the blade',
  defaults: {},
  find: ({ relief, workshop }) => {
    const kerf = workshop.blade.thickness;
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ role }, region) => {
      if (role !== 'opening' && role !== 'recess' && role !== 'void') return;
      const widest = 2 * relief.map.regions[region].labelRoom;
      if (widest >= kerf) return;
      found.push({
        message: `${nameOf(relief, region)} is ${round2(widest)} mm wide, and the blade takes ${round2(kerf)} mm.`,
        at: placeOf(relief, region),
        regions: [region],
        measured: { value: widest, needed: kerf, unit: 'mm' },
        fix: 'Draw it as one vein line, widen it, or use a thinner blade.',
      });
    });
    return found;
  },
});
