import { demandOptions } from '../arguments.js';
import type { CheckOptions } from './check-options.js';

/**
 * Settings for many drawings with those for one of them: where both set a rule, a stage or the groups, the one counts;
 * exceptions add up, those for the one first.
 */
export function mergeCheckOptions(many: CheckOptions, one: CheckOptions): CheckOptions {
  for (const options of [many, one]) demandOptions(options, 'mergeCheckOptions', null);
  const groups = one.groups ?? many.groups;
  return {
    rules: { ...many.rules, ...one.rules },
    stages: { ...many.stages, ...one.stages },
    exceptions: [...(one.exceptions ?? []), ...(many.exceptions ?? [])],
    ...(groups === undefined ? {} : { groups }),
  };
}
