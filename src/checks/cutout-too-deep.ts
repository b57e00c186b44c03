import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { countOf, nameOf, placeOf } from './words.js';

/** A recess deeper than the piece that it is cut into. Page: docs/checks/cutout-too-deep.md. */
export const cutoutTooDeep = defineRule<'cutout-too-deep', NoOptions>({
  id: 'cutout-too-deep',
  group: 'build',
  level: 'error',
  summary: 'a cutout goes deeper than what surrounds it',
  model: 'sheets that the cutout asks for, nested ones added up, against the sheets of its host',
  defaults: {},
  find: ({ relief }) => {
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ mark, asked, body, role }, region) => {
      if (mark?.kind !== 'recess') return;
      if (asked === null) {
        // A recess in a void has no host, which rules of their own report.
        if (role !== 'opening') return;
        found.push({
          at: placeOf(relief, region),
          regions: [region],
          message: `${nameOf(relief, region)} is a recess that lies in an opening: there is nothing left to cut into.`,
          fix: 'Take its number away with its line, or number what surrounds it as a recess.',
        });
        return;
      }
      const host = body === null ? null : relief.bodies[body];
      if (host === null || asked <= host.order.length) return;
      found.push({
        at: placeOf(relief, region),
        regions: [region],
        message: `${nameOf(relief, region)} goes down ${countOf(asked, 'sheet')}, and ${nameOf(relief, host.region)} around it has ${host.order.length}.`,
        measured: { value: asked, needed: host.order.length, unit: 'sheets' },
        fix: `Number it 0 for an opening, or let it go down at most ${host.order.length - 1} in all.`,
      });
    });
    return found;
  },
});
