import { demandStage } from '../arguments.js';
import type { Finding, FindingLevel } from '../finding.js';
import { distance } from '../geometry/point.js';
import { regionAt } from '../plane/region-at.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { DEFAULT_WORKSHOP } from '../workshop/default-workshop.js';
import { type CheckOptions, EXCEPTION_REACH, type RuleException, type RuleLevel } from './check-options.js';
import { readCheckOptions } from './read-check-options.js';
import type { CheckInput, Rule, RuleFinding, RuleUnit } from './rule.js';
import { RULES, type RuleId } from './rules.js';

/** What the costly rules found, by rule and unit; to be handed to the next call for the same map. */
export interface CheckMemo {
  readonly map: RegionMap;
  readonly units: ReadonlyMap<string, readonly RuleFinding[]>;
}

/** The findings, and what may be reused after a change. */
export interface CheckedRelief {
  readonly findings: readonly Finding[];
  readonly memo: CheckMemo;
  /** Units of costly rules that were worked out now, and that were taken from before. */
  readonly fresh: number;
  readonly reused: number;
}

/** Errors first, since they stop the job. */
const LEVEL_ORDER: readonly FindingLevel[] = ['error', 'warning', 'note'];

/**
 * `checkRelief` for interactive use: what the costly rules found on bodies that did not change since `before` is
 * taken over. The findings are the same as those of `checkRelief`.
 *
 * @throws PlystepError 'bad-option'
 */
export function checkAgain(
  relief: Relief,
  plan: CutPlan | null = null,
  options: CheckOptions = {},
  before: CheckMemo | null = null,
): CheckedRelief {
  demandStage(relief, ['relief'], 'checkRelief');
  if (plan !== null) demandStage(plan, ['plan'], 'checkRelief');
  const { rules = {}, stages = {}, exceptions = [], groups } = readCheckOptions(options);
  const { map } = relief;
  const input: CheckInput = { relief, plan, workshop: plan?.workshop ?? DEFAULT_WORKSHOP };
  const ledger = new Ledger(before?.map === map ? before.units : new Map());
  const earlier = [...map.findings, ...relief.findings, ...(plan?.findings ?? [])];
  const found =
    groups === undefined ? earlier.flatMap((finding) => atLevel(finding, stages[finding.rule])) : [];
  for (const rule of RULES) {
    if (groups !== undefined && !groups.includes(rule.group)) continue;
    found.push(...runRule(rule, rules[rule.id], input, ledger));
  }
  const excepted = exceptions.length === 0 ? found : found.map((f) => applyExceptions(f, exceptions, map));
  const findings = LEVEL_ORDER.flatMap((level) => excepted.filter((finding) => finding.level === level));
  const { fresh, reused } = ledger;
  return { findings, memo: { map, units: ledger.next }, fresh, reused };
}

/** The finding of an earlier step with the level that the settings give it. */
function atLevel(finding: Finding, level: RuleLevel | undefined): Finding[] {
  if (level === undefined) return [finding];
  return level === 'off' ? [] : [{ ...finding, level }];
}

/** Keeps what units found during one call. */
class Ledger {
  readonly next = new Map<string, readonly RuleFinding[]>();
  fresh = 0;
  reused = 0;

  constructor(private readonly before: ReadonlyMap<string, readonly RuleFinding[]>) {}

  findings(rule: Rule, { key, find }: RuleUnit): readonly RuleFinding[] {
    const full = `${rule.id} ${key}`;
    const known = this.before.get(full);
    if (known === undefined) this.fresh++;
    else this.reused++;
    const found = known ?? find();
    this.next.set(full, found);
    return found;
  }
}

function runRule(
  rule: Rule<RuleId>,
  setting: NonNullable<CheckOptions['rules']>[RuleId],
  input: CheckInput,
  ledger: Ledger,
): Finding[] {
  const { level, reason, ...given } = typeof setting === 'string' ? { level: setting } : (setting ?? {});
  if (level === 'off') return reason === undefined ? [] : [switchedOff(rule, reason)];
  const options = { ...rule.defaults, ...given };
  const units = rule.units?.(input, options) ?? null;
  const found =
    units === null ? rule.find(input, options) : units.flatMap((unit) => ledger.findings(rule, unit));
  return found.map((each) => complete(rule, each, level, reason, input.relief.map));
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
