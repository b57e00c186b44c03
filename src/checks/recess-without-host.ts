import { defineRule, type NoOptions } from './rule.js';
import { namesOf, placeOf } from './words.js';

/** A recess with no piece around it. Page: docs/checks/recess-without-host.md. */
export const recessWithoutHost = defineRule<'recess-without-host', NoOptions>({
  id: 'recess-without-host',
  group: 'build',
  level: 'error',
  summary: 'a recess has no piece around it',
  model: null,
  defaults: {},
  find: ({ relief }) =>
    relief.clusters
      .filter(({ around }) => around.length === 0)
      .map(({ regions }) => regions.filter((region) => relief.regions[region].mark?.kind === 'recess'))
      .filter((recesses) => recesses.length > 0)
      .map((recesses) => ({
        message: `No piece surrounds the recess ${namesOf(relief, recesses)}, so it has no face to go down from.`,
        at: placeOf(relief, recesses[0]),
        regions: recesses,
        fix: 'Number a region that borders on it as a piece (1 or more), or number the recess itself as a piece.',
      })),
});
