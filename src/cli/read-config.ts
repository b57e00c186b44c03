import {
  type CheckOptions,
  completeMapOptions,
  completeWorkshop,
  DEFAULT_READ_LIMITS,
  DEFAULT_READ_OPTIONS,
  type Frame,
  type Joint,
  MAP_DEFAULTS,
  type MapOptions,
  nearestName,
  PlystepError,
  parseDepthMark,
  type ReadOptions,
  readCheckOptions,
  readStack,
  resolveReadOptions,
  type Stack,
  type Workshop,
} from '../index.js';
import type { CommandIo } from './command.js';
import { InputError } from './describe-error.js';
import { parseJson } from './parse-json.js';
import { readText, shownName } from './read-text.js';

/** Settings for many drawings, from a file given with `--config`; shared/schema/config.json describes it. */
export interface Config {
  readonly read: ReadOptions;
  readonly map: MapOptions;
  readonly stack: Stack | null;
  readonly joint: Joint | null;
  readonly frame: Frame | null;
  readonly legend: Readonly<Record<string, string>> | null;
  readonly workshop: Partial<Workshop>;
  readonly checks: CheckOptions;
}

export const EMPTY_CONFIG: Config = {
  read: {},
  map: {},
  stack: null,
  joint: null,
  frame: null,
  legend: null,
  workshop: {},
  checks: {},
};

const KNOWN = [
  '$schema',
  'schemaVersion',
  'read',
  'map',
  'stack',
  'joint',
  'frame',
  'legend',
  'workshop',
  'checks',
  'note',
];

/** @throws InputError, PlystepError `file` */
export async function readConfig(file: string | undefined, io: CommandIo): Promise<Config> {
  if (file === undefined) return EMPTY_CONFIG;
  const text = await readText(file, io);
  try {
    return configOf(parseJson(text, 'settings file', 'bad-option'));
  } catch (error) {
    throw error instanceof PlystepError ? new InputError(shownName(file), text, error) : error;
  }
}

function configOf(value: unknown): Config {
  const members = objectAt(value, 'the file');
  refuseUnknown(members, KNOWN, '');
  const version = members.schemaVersion;
  if (typeof version !== 'string' || !version.startsWith('1.')) {
    throw bad(`schemaVersion is ${JSON.stringify(version) ?? 'missing'}; write "schemaVersion": "1.0".`);
  }
  return {
    read: readingAt(members.read ?? {}),
    map: mappingAt(members.map ?? {}),
    stack: stackAt(members.stack),
    joint: wordAt<Joint>(members.joint, 'joint', ['pieces', 'continuous']),
    frame: wordAt<Frame>(members.frame, 'frame', ['cut', 'board-edge']),
    legend: members.legend === undefined ? null : legendAt(members.legend),
    workshop: workshopAt(members.workshop ?? {}),
    checks: readCheckOptions(members.checks ?? {}),
  };
}

function refuseUnknown(members: object, known: readonly string[], place: string): void {
  const key = Object.keys(members).find((name) => !known.includes(name));
  if (key === undefined) return;
  const near = nearestName(key, known);
  const hint = near === null ? `Known are ${known.join(', ')}.` : `Did you mean "${place}${near}"?`;
  throw bad(`"${place}${key}" is no setting. ${hint}`);
}

function readingAt(value: unknown): ReadOptions {
  const members = objectAt(value, 'read');
  refuseUnknown(members, Object.keys(DEFAULT_READ_OPTIONS), 'read.');
  const limits = objectAt(members.limits ?? {}, 'read.limits');
  refuseUnknown(limits, Object.keys(DEFAULT_READ_LIMITS), 'read.limits.');
  try {
    resolveReadOptions(members);
  } catch (error) {
    throw named(error, /^The reading option "([\w.]+)"|^readDrawing: (\w+)/, 'read.$1$2');
  }
  return members;
}

function mappingAt(value: unknown): MapOptions {
  const members = objectAt(value, 'map');
  refuseUnknown(members, Object.keys(MAP_DEFAULTS), 'map.');
  for (const [name, given] of Object.entries(members)) {
    if (name === 'hiddenLines') wordAt(given, 'map.hiddenLines', ['drop', 'keep']);
    else if (name === 'edgeLimit') {
      if (typeof given !== 'number' || !(given > 0))
        throw bad(`map.edgeLimit is ${JSON.stringify(given)}; write a number above 0.`);
    } else if (typeof given !== 'number' || !(given >= 0))
      throw bad(`map.${name} is ${JSON.stringify(given)}; write a number of mm, 0 or more.`);
  }
  try {
    completeMapOptions(members);
  } catch (error) {
    throw named(error, /^(\w+):/, 'map.$1:');
  }
  return members;
}

function stackAt(value: unknown): Stack | null {
  if (value === undefined) return null;
  return readStack(value, '/stack');
}

function legendAt(value: unknown): Readonly<Record<string, string>> {
  const members = objectAt(value, 'legend');
  for (const [color, depth] of Object.entries(members)) {
    if (!/^#[0-9a-f]{6}$/i.test(color))
      throw bad(`legend has the colour "${color}"; write it as #rrggbb, for example "#aa3311".`);
    if (typeof depth !== 'string' || parseDepthMark(depth) === null)
      throw bad(`legend gives ${color} the number ${JSON.stringify(depth)}; write "3", "0", "-1" or "+".`);
  }
  return members as Record<string, string>;
}

/** Mistakes are told here, with the file that they are in. */
function workshopAt(value: unknown): Partial<Workshop> {
  const members: Partial<Workshop> = objectAt(value, 'workshop');
  completeWorkshop(members);
  return members;
}

function objectAt(value: unknown, name: string): Record<string, unknown> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return value as Record<string, unknown>;
  throw bad(`${name} must be an object in braces.`);
}

function wordAt<T extends string>(value: unknown, name: string, allowed: readonly T[]): T | null {
  if (value === undefined) return null;
  const found = allowed.find((each) => each === value);
  if (found === undefined) throw bad(`${name} is ${JSON.stringify(value)}; it can be ${allowed.join(', ')}.`);
  return found;
}

/** A mistake that a step of the library found, told by its place in the file. */
function named(error: unknown, pattern: RegExp, place: string): unknown {
  return error instanceof PlystepError ? bad(error.message.replace(pattern, place)) : error;
}

const bad = (message: string): PlystepError => new PlystepError('bad-option', message);
