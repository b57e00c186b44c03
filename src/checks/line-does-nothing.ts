import type { Relief } from '../relief/relief.js';
import { forEachPair } from './material.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { edgePlace, nameOf, round2 } from './words.js';

/** A cut line between two areas that end up the same. Page: docs/checks/line-does-nothing.md. */
export const lineDoesNothing = defineRule<'line-does-nothing', NoOptions>({
  id: 'line-does-nothing',
  group: 'lines',
  level: 'note',
  summary: 'a line lies between two areas that end up the same',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    forEachPair(relief, ({ a, b, length, edges }) => {
      const what = sameThing(relief, a, b);
      if (what === null) return;
      found.push({
        message: `The line of ${round2(length)} mm between ${nameOf(relief, a)} and ${nameOf(relief, b)} does nothing: both are ${what}.`,
        at: edgePlace(relief.map, edges),
        regions: [a, b],
        fix: 'Take the line out, or give the two areas different numbers.',
      });
    });
    return found;
  },
});

/** What both regions are, where the line between them is not sawn or separates nothing; else null. */
function sameThing(relief: Relief, a: number, b: number): string | null {
  const [one, other] = [relief.regions[a], relief.regions[b]];
  const gone = (role: string | null): boolean => role === 'opening' || role === 'void';
  if (gone(one.role) && gone(other.role)) return 'open';
  if (one.role === 'recess' && other.role === 'recess') {
    return one.body !== null && one.body === other.body && one.down === other.down
      ? `recesses ${one.down} down in one piece`
      : null;
  }
  const pieces = one.role === 'piece' && other.role === 'piece';
  return pieces && relief.joint === 'continuous' && one.depth === other.depth
    ? `of level ${one.depth}, which is one sheet`
    : null;
}
