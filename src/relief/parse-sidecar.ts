import { demandText, shownJson } from '../arguments.js';
import { PlystepError } from '../error.js';
import type { Point } from '../geometry/point.js';
import { readStack } from './read-stack.js';
import type { Frame, Joint, RegionNumber } from './relief.js';
import { failSidecar, isDepthText, SIDECAR_VERSION, type Sidecar } from './sidecar.js';
import type { Stack } from './stack.js';

type Members = Readonly<Record<string, unknown>>;

const TOP = [
  '$schema',
  'schemaVersion',
  'drawing',
  'stack',
  'frame',
  'joint',
  'numbers',
  'checks',
  'note',
  'seal',
];
const ENTRY = ['at', 'region', 'depth', 'name', 'face', 'substitute', 'extra', 'id', 'note'];

/**
 * Reads a sidecar file. An empty or absent stack gives null; entries whose `depth` is null are still to be
 * filled in and are only counted.
 *
 * @throws PlystepError `bad-sidecar` (what is wrong, with a JSON pointer to the place, or line and column where
 *   the text is no JSON), `bad-stack`.
 */
export function parseSidecar(text: string): Sidecar {
  demandText(text, 'parseSidecar');
  const top = asMembers(parseJson(text), '', TOP);
  const version = top.schemaVersion;
  if (typeof version !== 'string' || version.split('.')[0] !== SIDECAR_VERSION.split('.')[0]) {
    failSidecar(
      '/schemaVersion',
      `schemaVersion is ${shownJson(version)}; this version reads "${SIDECAR_VERSION}"`,
    );
  }
  const numbers = top.numbers ?? [];
  if (!Array.isArray(numbers)) failSidecar('/numbers', `numbers is ${shownJson(numbers)}; it must be a list`);
  const entries = numbers.map((entry: unknown, index) => readEntry(entry, `/numbers/${index}`));
  const filled = entries.filter((entry) => entry !== null);
  return {
    drawing: readDrawingReference(top.drawing),
    stack: readStackMember(top.stack),
    frame: oneOf<Frame>(top.frame, '/frame', ['cut', 'board-edge']),
    joint: oneOf<Joint>(top.joint, '/joint', ['pieces', 'continuous']),
    numbers: filled,
    open: entries.length - filled.length,
    ...(top.checks === undefined ? {} : { checks: top.checks }),
  };
}

function readDrawingReference(value: unknown): Sidecar['drawing'] {
  if (value === undefined) return { file: null, digest: null };
  const members = asMembers(value, '/drawing', ['file', 'digest']);
  return {
    file: optionalText(members, 'file', '/drawing'),
    digest: optionalText(members, 'digest', '/drawing'),
  };
}

function readStackMember(value: unknown): Stack | null {
  if (value === undefined || value === null || (Array.isArray(value) && value.length === 0)) return null;
  return readStack(value, '/stack');
}

function readEntry(value: unknown, pointer: string): RegionNumber | null {
  const members = asMembers(value, pointer, ENTRY);
  const { at, region, depth } = members;
  if (depth === null || depth === '') return null;
  if ((typeof depth !== 'string' && typeof depth !== 'number') || !isDepthText(depth)) {
    failSidecar(
      `${pointer}/depth`,
      `depth is ${shownJson(depth)}; write a number such as 3, "0", "-1" or "+"`,
    );
  }
  if (at === undefined && region === undefined)
    failSidecar(pointer, 'the entry has no point "at": [x, y] in mm');
  if (region !== undefined && typeof region !== 'string')
    failSidecar(`${pointer}/region`, 'region must be an id');
  const name = optionalText(members, 'name', pointer);
  return {
    depth,
    ...(at === undefined ? {} : { at: readPoint(at, `${pointer}/at`) }),
    ...(region === undefined ? {} : { region }),
    ...(members.face === undefined ? {} : { face: readFace(members.face, `${pointer}/face`) }),
    ...(members.substitute === undefined
      ? {}
      : { substitute: readSubstitutes(members.substitute, `${pointer}/substitute`) }),
    ...(members.extra === undefined ? {} : { extra: readIds(members.extra, `${pointer}/extra`) }),
    ...(name === null ? {} : { name }),
  };
}

function readPoint(value: unknown, pointer: string): Point {
  const numbers = Array.isArray(value) && value.length === 2 && value.every((n) => Number.isFinite(n));
  if (!numbers) failSidecar(pointer, `the point is ${shownJson(value)}; write [x, y] in mm`);
  return [value[0], value[1]];
}

function readFace(value: unknown, pointer: string): string | readonly string[] {
  return typeof value === 'string' ? value : readIds(value, pointer);
}

function readIds(value: unknown, pointer: string): readonly string[] {
  if (Array.isArray(value) && value.every((id) => typeof id === 'string')) return value as string[];
  return failSidecar(pointer, `${shownJson(value)} is no list of sheet ids`);
}

function readSubstitutes(value: unknown, pointer: string): Readonly<Record<string, string>> {
  const pairs =
    typeof value === 'object' && value !== null && !Array.isArray(value) ? Object.entries(value) : [];
  if (pairs.length === 0 || pairs.some(([, id]) => typeof id !== 'string')) {
    failSidecar(pointer, `${shownJson(value)} must pair sheet ids, like { "s1": "s3" }`);
  }
  return Object.fromEntries(pairs);
}

function asMembers(value: unknown, pointer: string, known: readonly string[]): Members {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    failSidecar(pointer, `an object in braces is needed here, and this is ${shownJson(value)}`);
  }
  for (const key of Object.keys(value)) {
    if (!known.includes(key)) {
      failSidecar(`${pointer}/${pointerToken(key)}`, `"${key}" is not known; known are ${known.join(', ')}`);
    }
  }
  return value as Members;
}

function optionalText(members: Members, key: string, pointer: string): string | null {
  const value = members[key];
  if (value === undefined || value === null) return null;
  if (typeof value !== 'string')
    failSidecar(`${pointer}/${key}`, `${key} is ${shownJson(value)}; it must be text`);
  return value;
}

function oneOf<T extends string>(value: unknown, pointer: string, allowed: readonly T[]): T | null {
  if (value === undefined || value === null) return null;
  const found = allowed.find((each) => each === value);
  return found ?? failSidecar(pointer, `${shownJson(value)} is not one of ${allowed.join(', ')}`);
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error);
    const at =
      /position (\d+)/.exec(message)?.[1] ?? (/end of JSON/i.test(message) ? text.trimEnd().length : null);
    const place = at === null ? {} : placeOf(text, Number(at));
    throw new PlystepError(
      'bad-sidecar',
      'the sidecar is no valid JSON: look for a missing comma, quote or bracket.',
      place,
    );
  }
}

function placeOf(text: string, offset: number): { line: number; column: number } {
  const lines = text.slice(0, offset).split('\n');
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}

const pointerToken = (key: string): string => key.replaceAll('~', '~0').replaceAll('/', '~1');
