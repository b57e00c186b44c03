import type { Finding } from '../finding.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { checkAgain } from './check-again.js';
import type { CheckOptions } from './check-options.js';

/**
 * Everything that would go wrong with a relief at the saw or at the glue-up: the findings of mapping, of the
 * relief and of the plan, and those of all rules, errors first and in each level in the order of the rules.
 * Without a plan bridges are looked for in the finished pieces only, and rules that look at cuts find nothing.
 * docs/checks.md lists the rules.
 *
 * A rule that is switched off with a reason leaves one note with that reason; a finding that an exception
 * switches off stays as a note.
 *
 * Cost: linear in regions and borders for the rules on numbers and build.
 *
 * @throws PlystepError 'bad-option' for settings that make no sense, with a suggestion for a mistyped rule.
 */
export function checkRelief(
  relief: Relief,
  plan: CutPlan | null = null,
  options: CheckOptions = {},
): readonly Finding[] {
  return checkAgain(relief, plan, options).findings;
}
