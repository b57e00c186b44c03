import {
  type CheckOptions,
  type Frame,
  type Joint,
  type MapOptions,
  nearestName,
  PlystepError,
  type ReadOptions,
  readCheckOptions,
  readStack,
  type Stack,
  type Workshop,
} from '../index.js';
import type { CommandIo } from './command.js';
import { InputError } from './describe-error.js';
import { readText } from './read-text.js';

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
    return configOf(JSON.parse(text));
  } catch (error) {
    if (error instanceof PlystepError) throw new InputError(file, text, error);
    const fault = new PlystepError(
      'bad-option',
      'this settings file is no valid JSON: look for a missing comma, quote or bracket.',
    );
    throw new InputError(file, text, fault);
  }
}

function configOf(value: unknown): Config {
  const members = objectAt(value, 'the file');
  for (const key of Object.keys(members)) {
    if (KNOWN.includes(key)) continue;
    const near = nearestName(key, KNOWN);
    throw bad(
      `"${key}" is no setting. ${near === null ? `Known are ${KNOWN.join(', ')}.` : `Did you mean "${near}"?`}`,
    );
  }
  const version = members.schemaVersion;
  if (typeof version !== 'string' || !version.startsWith('1.')) {
    throw bad(`schemaVersion is ${JSON.stringify(version) ?? 'missing'}; write "schemaVersion": "1.0".`);
  }
  return {
    read: objectAt(members.read ?? {}, 'read'),
    map: objectAt(members.map ?? {}, 'map'),
    stack: members.stack === undefined ? null : readStack(members.stack),
    joint: wordAt<Joint>(members.joint, 'joint', ['pieces', 'continuous']),
    frame: wordAt<Frame>(members.frame, 'frame', ['cut', 'board-edge']),
    legend:
      members.legend === undefined ? null : (objectAt(members.legend, 'legend') as Record<string, string>),
    workshop: objectAt(members.workshop ?? {}, 'workshop'),
    checks: readCheckOptions(members.checks ?? {}),
  };
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

const bad = (message: string): PlystepError => new PlystepError('bad-option', message);
