import type { Finding, FindingLevel } from '../finding.js';
import { distance } from '../geometry/point.js';
import { regionAt } from '../plane/region-at.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { DEFAULT_WORKSHOP } from '../workshop/default-workshop.js';
import { type CheckOptions, EXCEPTION_REACH, type RuleException, type RuleLevel } from './check-options.js';
import { readCheckOptions } from './read-check-options.js';
import type { CheckInput, Rule, RuleFinding } from './rule.js';
import { RULES, type RuleId } from './rules.js';

/** Errors first, since they stop the job. */
const LEVEL_ORDER: readonly FindingLevel[] = ['error', 'warning', 'note'];

/**
 * Everything that would go wrong with a relief at the saw or at the glue-up: the findings of mapping, of the
 * relief and of the plan, and those of all rules, errors first and in each level in the order of the rules.
 * Without a plan the rules that look at cuts and bridges find nothing. docs/checks.md lists the rules.
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
): Finding[] {
  const { rules = {}, exceptions = [], groups } = readCheckOptions(options);
  const input: CheckInput = { relief, plan, workshop: plan?.workshop ?? DEFAULT_WORKSHOP };
  const found: Finding[] =
    groups === undefined ? [...relief.map.findings, ...relief.findings, ...(plan?.findings ?? [])] : [];
  for (const rule of RULES) {
    if (groups === undefined || groups.includes(rule.group))
      found.push(...runRule(rule, rules[rule.id], input));
  }
  const excepted =
    exceptions.length === 0 ? found : found.map((f) => applyExceptions(f, exceptions, relief.map));
  return LEVEL_ORDER.flatMap((level) => excepted.filter((finding) => finding.level === level));
}

function runRule(
  rule: Rule<RuleId>,
  setting: NonNullable<CheckOptions['rules']>[RuleId],
  input: CheckInput,
): Finding[] {
  const { level, reason, ...options } = typeof setting === 'string' ? { level: setting } : (setting ?? {});
  if (level === 'off') return reason === undefined ? [] : [switchedOff(rule, reason)];
  return rule
    .find(input, { ...rule.defaults, ...options })
    .map((found) => complete(rule, found, level, reason, input.relief.map));
}

function complete(
  rule: Rule,
  found: RuleFinding,
  level: RuleLevel | undefined,
  reason: string | undefined,
  map: RegionMap,
): Finding {
  const { measured, source } = found;
  return {
    rule: rule.id,
    level: level === undefined || level === 'off' ? (found.level ?? rule.level) : level,
    message: found.message,
    at: found.at,
    regions: found.regions.map((region) => map.regions[region].id),
    ...(source === undefined ? {} : { source }),
    fix: found.fix,
    ...(measured === undefined ? {} : { measured }),
    ...(measured === undefined || rule.model === null ? {} : { model: rule.model }),
    ...(reason === undefined ? {} : { reason }),
  };
}

function switchedOff(rule: Rule, reason: string): Finding {
  return {
    rule: rule.id,
    level: 'note',
    message: `Switched off: ${rule.summary}.`,
    at: null,
    regions: [],
    reason,
  };
}

/** The finding with the level and the reason of the first exception that it falls under. */
function applyExceptions(finding: Finding, exceptions: readonly RuleException[], map: RegionMap): Finding {
  const exception = exceptions.find((each) => each.rule === finding.rule && fallsUnder(finding, each, map));
  if (exception === undefined) return finding;
  const { level, reason } = exception;
  return { ...finding, level: level === 'off' ? 'note' : level, reason };
}

function fallsUnder(finding: Finding, { region, at }: RuleException, map: RegionMap): boolean {
  if (region !== undefined) return finding.regions.includes(region);
  if (finding.regions.length === 0) {
    return finding.at !== null && distance(finding.at, at!) <= EXCEPTION_REACH;
  }
  const index = regionAt(map, at!);
  return index >= 0 && finding.regions.includes(map.regions[index].id);
}
