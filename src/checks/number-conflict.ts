import { formatDepthMark } from '../relief/depth-mark.js';
import type { NumberClaim, NumberSource } from '../relief/relief.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { nameOf, placeOf } from './words.js';

const CALLED: Readonly<Record<NumberSource, string>> = {
  caller: 'the caller',
  sidecar: 'the sidecar',
  attribute: 'its data-depth',
  label: 'its label',
  legend: 'the colour legend',
};

/** Two sources give one region different numbers; the strongest counts. Page: docs/checks/number-conflict.md. */
export const numberConflict = defineRule<'number-conflict', NoOptions>({
  id: 'number-conflict',
  group: 'numbers',
  level: 'warning',
  summary: 'two sources give a region different numbers',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ claims }, region) => {
      const readable = claims.filter((claim) => claim.mark !== null && claim.inherited !== true);
      const [first, ...others] = readable;
      const other = others.find((claim) => differs(claim, first));
      if (first === undefined || other === undefined) return;
      found.push({
        message: `${nameOf(relief, region)} is ${first.text} by ${CALLED[first.source]} and ${other.text} by ${CALLED[other.source]}; ${first.text} counts.`,
        at: first.at ?? other.at ?? placeOf(relief, region),
        regions: [region],
        ...(other.place === undefined ? {} : { source: other.place }),
        fix: `Make both say the same, or take away the number of ${CALLED[other.source]}.`,
      });
    });
    return found;
  },
});

/** Whether two claims say different things; two labels in one region have a rule of their own. */
function differs(a: NumberClaim, b: NumberClaim): boolean {
  if (a.source === 'label' && b.source === 'label') return false;
  return formatDepthMark(a.mark!) !== formatDepthMark(b.mark!);
}
