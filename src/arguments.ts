import { PlystepError } from './error.js';
import { nearestName } from './nearest-name.js';

/** What the stages hand on to each other: what it is called, and which function makes it. */
const MADE_BY = {
  drawing: 'readDrawing',
  'region map': 'mapRegions',
  relief: 'buildRelief',
  plan: 'planCuts',
} as const;

/** What a stage of the job makes. */
export type StageResult = keyof typeof MADE_BY;

/** Refuses an argument of a public function. */
export function refuseArgument(call: string, what: string): never {
  throw new PlystepError('bad-option', `${call}: ${what}.`);
}

/** Demands the result of a certain stage. Its outer shape alone is looked at, so it costs nothing. */
export function demandStage(value: unknown, wanted: readonly StageResult[], call: string): void {
  const found = stageOf(value);
  if (found !== null && wanted.includes(found)) return;
  const names = wanted.map((stage) => `a ${stage} (from ${MADE_BY[stage]})`).join(' or ');
  refuseArgument(call, `${names} is needed, and ${kindOf(value)} was given`);
}

/** Demands something that carries a relief, as a plan does. */
export function demandRelief(value: unknown, call: string): void {
  if (isMembers(value) && stageOf(value.relief) === 'relief') return;
  refuseArgument(call, `a plan or { relief } is needed, and ${kindOf(value)} was given`);
}

/** Demands a text. @param name of the argument @param advice what to do with what else it might be */
export function demandText(value: unknown, call: string, name = 'text', advice = ''): void {
  if (typeof value === 'string') return;
  refuseArgument(call, `${name} must be a text, and ${kindOf(value)} was given${advice && `; ${advice}`}`);
}

/** Demands a list. */
export function demandList(value: unknown, call: string, name: string): void {
  if (!Array.isArray(value)) refuseArgument(call, `${name} must be a list, and ${kindOf(value)} was given`);
}

/** Demands a list of objects in which certain members are texts, such as findings. */
export function demandTexts(value: unknown, members: readonly string[], call: string, name: string): void {
  demandList(value, call, name);
  (value as readonly unknown[]).forEach((item, i) => {
    if (!isMembers(item))
      refuseArgument(call, `${name}[${i}] must be an object, and ${kindOf(item)} was given`);
    const wrong = members.find((member) => typeof item[member] !== 'string');
    if (wrong === undefined) return;
    refuseArgument(call, `${name}[${i}].${wrong} is ${shown(item[wrong])}; it must be a text`);
  });
}

/** Demands a list of findings. */
export function demandFindings(value: unknown, call: string, name = 'findings'): void {
  demandTexts(value, ['rule', 'level', 'message'], call, name);
}

/** Demands a point of finite coordinates. */
export function demandPoint(value: unknown, call: string, name = 'point'): void {
  if (Array.isArray(value) && Number.isFinite(value[0]) && Number.isFinite(value[1])) return;
  refuseArgument(call, `${name} must be [x, y] in mm, and ${listed(value)} was given`);
}

/** Demands a box, its smaller coordinates first. */
export function demandBox(value: unknown, call: string, name = 'box'): void {
  if (Array.isArray(value) && value.length === 4 && value.every(Number.isFinite)) {
    if (value[0] <= value[2] && value[1] <= value[3]) return;
  }
  refuseArgument(call, `${name} must be [minX, minY, maxX, maxY] in mm, and ${listed(value)} was given`);
}

/** Demands a place in a list. @param what is in the list, for the message */
export function demandIndex(value: unknown, count: number, call: string, what: string): void {
  if (Number.isInteger(value) && (value as number) >= 0 && (value as number) < count) return;
  const range = count === 0 ? `there is no ${what}` : `it must be a whole number from 0 to ${count - 1}`;
  refuseArgument(call, `${what} is ${shown(value)}; ${range}`);
}

/** Demands a number above 0. */
export function demandPositive(value: unknown, call: string, name: string): void {
  if (typeof value === 'number' && Number.isFinite(value) && value > 0) return;
  refuseArgument(call, `${name} is ${shown(value)}; it must be a number above 0`);
}

/** Demands an object with certain members that are lists, packed or not. @param what it is, and where it is from */
export function demandMembers(value: unknown, members: readonly string[], call: string, what: string): void {
  const isList = (member: unknown): boolean => Array.isArray(member) || ArrayBuffer.isView(member);
  if (isMembers(value) && members.every((name) => isList(value[name]))) return;
  refuseArgument(call, `${what} is needed, and ${kindOf(value)} was given`);
}

/** Demands one of some words. */
export function demandOneOf(value: unknown, words: readonly string[], call: string, name: string): void {
  if (words.some((word) => word === value)) return;
  refuseArgument(call, `${name} is ${shown(value)}; it can be ${words.join(' or ')}`);
}

/**
 * Demands options as an object, with no members but the known ones where these are given: a mistyped one is
 * refused, with a suggestion.
 */
export function demandOptions(
  value: unknown,
  call: string,
  known: readonly string[] | null,
  name = 'options',
): void {
  if (!isMembers(value)) refuseArgument(call, `${name} must be an object, and ${kindOf(value)} was given`);
  if (known === null) return;
  const unknown = Object.keys(value).find((key) => !known.includes(key));
  if (unknown === undefined) return;
  const near = nearestName(unknown, known);
  const hint = near === null ? `Known are ${known.join(', ')}.` : `Did you mean "${near}"?`;
  throw new PlystepError('bad-option', `${call}: there is no "${unknown}" in its ${name}. ${hint}`);
}

/** Demands that given options have the type of their defaults. */
export function demandTypes(given: object, defaults: object, call: string): void {
  const values = given as Readonly<Record<string, unknown>>;
  for (const [name, example] of Object.entries(defaults)) {
    const value = values[name];
    if (value === undefined || typeof value === typeof example) continue;
    const wanted = { boolean: 'true or false', string: 'a text' }[typeof example as string] ?? 'a number';
    refuseArgument(call, `${name} is ${shown(value)}; it must be ${wanted}`);
  }
}

/** Whether a value is an object with members, and no list. */
export function isMembers(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A value of a settings file as a message may show it: as JSON, cut where it is long. */
export function shownJson(value: unknown): string {
  if (value === undefined) return 'missing';
  // JSON has no words for a few kinds of values.
  if (['bigint', 'symbol', 'function'].includes(typeof value)) return `a ${typeof value}`;
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** A value as a message may show it. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return JSON.stringify(value.slice(0, 40));
  return typeof value === 'number' || typeof value === 'boolean' ? String(value) : kindOf(value);
}

function stageOf(value: unknown): StageResult | null {
  if (!isMembers(value)) return null;
  const lists = (...names: string[]): boolean => names.every((name) => Array.isArray(value[name]));
  if (lists('passes', 'pieces')) return stageOf(value.relief) === 'relief' ? 'plan' : null;
  if (lists('bodies', 'regions')) return stageOf(value.map) === 'region map' ? 'relief' : null;
  if (lists('edges', 'nodes', 'regions')) return 'region map';
  return lists('shapes', 'labels', 'findings') ? 'drawing' : null;
}

/** A short list in full, anything else by its kind. */
function listed(value: unknown): string {
  return Array.isArray(value) && value.length <= 4 ? `[${value.map(shown).join(', ')}]` : kindOf(value);
}

/** What kind of thing a value is, in words. */
function kindOf(value: unknown): string {
  const stage = stageOf(value);
  if (stage !== null) return `a ${stage}`;
  if (value === null || value === undefined) return value === null ? 'null' : 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (ArrayBuffer.isView(value) || value instanceof ArrayBuffer) return 'bytes';
  if (value instanceof Promise) return 'a promise (await it first)';
  if (typeof value === 'number') return `the number ${value}`;
  return (
    { string: 'a text', boolean: `${String(value)}`, function: 'a function' }[typeof value as string] ??
    'an object'
  );
}
