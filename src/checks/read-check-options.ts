import { shownJson } from '../arguments.js';
import { PlystepError } from '../error.js';
import { nearestName } from '../nearest-name.js';
import type { CheckOptions, RuleException, RuleLevel } from './check-options.js';
import type { Rule, RuleGroup } from './rule.js';
import { RULES } from './rules.js';
import { STAGE_RULES } from './stage-rules.js';

const LEVELS: readonly RuleLevel[] = ['off', 'note', 'warning', 'error'];
const RULE_IDS: readonly string[] = RULES.map((rule) => rule.id);
const STAGE_IDS: readonly string[] = STAGE_RULES.map((rule) => rule.id);
const GROUPS: readonly RuleGroup[] = ['numbers', 'build', 'lines', 'strength'];

/**
 * Checks the settings of `checkRelief`, as a program or a settings file gives them: rule names, levels, and
 * each rule's own options.
 *
 * @throws PlystepError 'bad-option' naming what is wrong, with a suggestion for a mistyped name.
 */
export function readCheckOptions(value: unknown): CheckOptions {
  const given = membersOf(value, 'checks');
  for (const key of Object.keys(given))
    known(key, ['rules', 'stages', 'exceptions', 'groups'], 'checks', 'setting');
  const rules = given.rules === undefined ? {} : membersOf(given.rules, 'checks.rules');
  for (const [id, setting] of Object.entries(rules)) {
    readSetting(ruleNamed(id, 'checks.rules'), setting);
  }
  const stages = given.stages === undefined ? {} : membersOf(given.stages, 'checks.stages');
  for (const [id, level] of Object.entries(stages)) {
    known(id, STAGE_IDS, 'checks.stages', 'rule');
    oneOf(level, LEVELS, `checks.stages.${id}`);
  }
  const exceptions = listOf(given.exceptions, 'checks.exceptions').map(readException);
  const groups = listOf(given.groups, 'checks.groups').map((group, index) => {
    return oneOf(group, GROUPS, `checks.groups[${index}]`);
  });
  return {
    rules,
    stages: stages as Record<string, RuleLevel>,
    exceptions,
    ...(given.groups === undefined ? {} : { groups }),
  };
}

function readSetting(rule: Rule, setting: unknown): void {
  const where = `checks.rules.${rule.id}`;
  if (typeof setting === 'string') {
    oneOf(setting, LEVELS, where);
    return;
  }
  const members = membersOf(setting, where);
  const defaults = rule.defaults as Readonly<Record<string, unknown>>;
  for (const [key, value] of Object.entries(members)) {
    known(key, ['level', 'reason', ...Object.keys(defaults)], where, 'option');
    if (key === 'level') oneOf(value, LEVELS, `${where}.level`);
    else if (key === 'reason') textAt(value, `${where}.reason`);
    else readOption(value, defaults[key], `${where}.${key}`);
  }
}

/** An option has the type of its default; numbers are finite and not negative. */
function readOption(value: unknown, example: unknown, where: string): void {
  if (typeof example === 'boolean' && typeof value !== 'boolean')
    fail(`${where} is ${shownJson(value)}; it must be true or false.`);
  if (typeof example !== 'number') return;
  if (typeof value !== 'number' || !Number.isFinite(value) || value < 0) {
    fail(`${where} is ${shownJson(value)}; it must be a number, 0 or more.`);
  }
}

function readException(value: unknown, index: number): RuleException {
  const where = `checks.exceptions[${index}]`;
  const members = membersOf(value, where);
  for (const key of Object.keys(members)) {
    known(key, ['rule', 'region', 'at', 'level', 'reason'], where, 'member');
  }
  const { rule, region, at, level, reason } = members;
  const id = textAt(rule, `${where}.rule`);
  known(id, [...RULE_IDS, ...STAGE_IDS], where, 'rule');
  if (region === undefined && at === undefined) fail(`${where} names neither a region nor a point "at".`);
  if (at !== undefined && !isPoint(at)) fail(`${where}.at is ${shownJson(at)}; write [x, y] in mm.`);
  return {
    rule: id,
    level: oneOf(level, LEVELS, `${where}.level`),
    reason: textAt(reason, `${where}.reason`),
    ...(region === undefined ? {} : { region: textAt(region, `${where}.region`) }),
    ...(at === undefined ? {} : { at: at as [number, number] }),
  };
}

function ruleNamed(id: string, where: string): Rule {
  known(id, RULE_IDS, where, 'rule');
  return RULES.find((rule) => rule.id === id)!;
}

function known(name: string, names: readonly string[], where: string, what: string): void {
  if (names.includes(name)) return;
  const near = nearestName(name, names);
  const hint = near === null ? `Known are ${names.join(', ')}.` : `Did you mean "${near}"?`;
  fail(`"${name}" in ${where} is no ${what}. ${hint}`);
}

function membersOf(value: unknown, where: string): Readonly<Record<string, unknown>> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
    return value as Readonly<Record<string, unknown>>;
  }
  return fail(`${where} is ${shownJson(value)}; it must be an object in braces.`);
}

function listOf(value: unknown, where: string): readonly unknown[] {
  if (value === undefined) return [];
  return Array.isArray(value) ? value : fail(`${where} is ${shownJson(value)}; it must be a list.`);
}

function textAt(value: unknown, where: string): string {
  if (typeof value === 'string' && value.trim() !== '') return value;
  return fail(`${where} is ${shownJson(value)}; it must be a text.`);
}

function oneOf<T extends string>(value: unknown, allowed: readonly T[], where: string): T {
  return (
    allowed.find((each) => each === value) ??
    fail(`${where} is ${shownJson(value)}; it can be ${allowed.join(', ')}.`)
  );
}

function isPoint(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every((n) => Number.isFinite(n));
}

function fail(message: string): never {
  throw new PlystepError('bad-option', message);
}
