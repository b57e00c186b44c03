import { isMembers, shown } from '../arguments.js';
import { PlystepError } from '../error.js';
import type { RegionNumber } from './relief.js';

/**
 * Checks the shape of numbers that a program gives. What a depth says is not looked at: a text that is no number
 * becomes a finding of `checkRelief`, like one on a drawing.
 *
 * @param name what the list is called in messages: `numbers` or `sidecar`
 * @throws PlystepError 'bad-number' naming the entry and what is wrong with it.
 */
export function readNumbers(value: unknown, name: string): readonly RegionNumber[] {
  if (value === undefined) return [];
  if (!Array.isArray(value))
    fail(`${name} is ${shown(value)}; it must be a list of { region or at, depth }.`);
  value.forEach((entry: unknown, index) => {
    readEntry(entry, `Entry ${index + 1} of the ${name}`);
  });
  return value as readonly RegionNumber[];
}

function readEntry(entry: unknown, where: string): void {
  if (!isMembers(entry)) fail(`${where} is ${shown(entry)}; it must be an object with a depth.`);
  const { region, at, depth, face, substitute, extra, name } = entry;
  if (region === undefined && at === undefined) fail(`${where} names neither a region nor a point "at".`);
  if (region !== undefined && typeof region !== 'string')
    fail(`${where} has the region ${shown(region)}; give its id, a text like "r3".`);
  if (at !== undefined && !isPoint(at))
    fail(`${where} has no point at "at"; give [x, y], two numbers in mm.`);
  if (typeof depth !== 'string' && !(typeof depth === 'number' && Number.isFinite(depth)))
    fail(`${where} has the depth ${shown(depth)}; give a number like 3 or a text like "-1".`);
  if (name !== undefined && typeof name !== 'string') fail(`${where} has a name that is no text.`);
  if (face !== undefined && typeof face !== 'string' && !isTexts(face))
    fail(`${where} has the face ${shown(face)}; give a sheet id, or a list of them.`);
  if (extra !== undefined && !isTexts(extra)) fail(`${where} has an "extra" that is no list of sheet ids.`);
  if (substitute !== undefined && !(isMembers(substitute) && isTexts(Object.values(substitute))))
    fail(`${where} has a "substitute" that is no object from sheet id to sheet id.`);
}

function isPoint(value: unknown): boolean {
  return Array.isArray(value) && value.length === 2 && value.every((n) => Number.isFinite(n));
}

function isTexts(value: unknown): boolean {
  return Array.isArray(value) && value.every((each) => typeof each === 'string');
}

function fail(message: string): never {
  throw new PlystepError('bad-number', message);
}
