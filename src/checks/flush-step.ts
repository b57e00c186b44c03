import { forEachStep } from './height-order.js';
import { HEIGHT_ROUNDING } from './material.js';
import { defineRule, type RuleFinding } from './rule.js';
import { edgePlace, nameOf, round2 } from './words.js';

export interface FlushStepOptions {
  /** The smallest step that can be seen, mm. */
  readonly smallest?: number;
}

/** A step that comes out flush, or too low to be seen. Page: docs/checks/flush-step.md. */
export const flushStep = defineRule<'flush-step', FlushStepOptions>({
  id: 'flush-step',
  group: 'build',
  level: 'warning',
  summary: 'a step comes out flush, or too low to be seen',
  model: 'difference of the heights of what shows on both sides',
  // Sanding and finish level out less than this; common practice, no source.
  defaults: { smallest: 0.5 },
  find: ({ relief }, { smallest }) => {
    const found: RuleFinding[] = [];
    forEachStep(relief, ({ high, low, rise, edges }) => {
      if (rise <= -HEIGHT_ROUNDING || rise >= smallest - HEIGHT_ROUNDING) return;
      const names = `${nameOf(relief, high)} and ${nameOf(relief, low)}`;
      found.push({
        message:
          Math.abs(rise) < HEIGHT_ROUNDING
            ? `${names} are meant as a step and come out flush.`
            : `The step between ${names} is ${round2(rise)} mm; below ${smallest} mm it is hard to see.`,
        at: edgePlace(relief.map, edges),
        regions: [high, low],
        measured: { value: round2(Math.max(0, rise)), needed: smallest, unit: 'mm' },
        fix: 'Change the order or the choice of sheets of one of the two, or set their numbers further apart.',
      });
    });
    return found;
  },
});
