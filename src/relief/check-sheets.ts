import { shownJson } from '../arguments.js';
import { PlystepError } from '../error.js';
import { parseThickness } from './parse-thickness.js';
import type { Sheet, Stack } from './stack.js';

/** The highest stack and the largest number of sheets that are taken for meant, not mistyped. */
export const STACK_LIMITS = { sheets: 64, thickness: 200 } as const;

const COLOR = /^#[0-9a-f]{6}$/;

/**
 * Checks a list of sheets and fills in what may be left out: ids (`s1`, `s2`, … from the front) and thicknesses as
 * text (`"1/8 in"`). Lengths in mm.
 *
 * @throws PlystepError 'bad-stack' naming the sheet and what is wrong with it.
 */
export function checkSheets(list: readonly unknown[]): Stack {
  if (list.length === 0) fail('The stack has no sheets; give at least one, for example "3 mm basswood".');
  if (list.length > STACK_LIMITS.sheets) {
    fail(`The stack has ${list.length} sheets; more than ${STACK_LIMITS.sheets} can't be sawn.`);
  }
  const sheets = list.map((item: unknown, index: number) => readSheet(item, index));
  const seen = new Set<string>();
  for (const sheet of sheets) {
    if (seen.has(sheet.id)) fail(`Two sheets have the id "${sheet.id}"; each sheet needs its own.`);
    seen.add(sheet.id);
  }
  return { sheets };
}

function readSheet(item: unknown, index: number): Sheet {
  const name = `Sheet ${index + 1}`;
  if (typeof item !== 'object' || item === null) {
    const words = typeof item === 'string' ? ' A stack in words is one text, not a list of texts.' : '';
    fail(`${name} is not an object with a thickness.${words}`);
  }
  const given = item as Record<string, unknown>;
  const id = text(given, 'id', name) ?? `s${index + 1}`;
  const color = text(given, 'color', name)?.toLowerCase();
  if (color !== undefined && !COLOR.test(color))
    fail(`${name} has the color "${color}"; write it as #rrggbb.`);
  const face = text(given, 'face', name);
  const grain = given.grain;
  if (grain !== undefined && grain !== null && !isFiniteNumber(grain)) {
    fail(`${name} has the grain ${shownJson(grain)}; give degrees, or null for none.`);
  }
  const count = given.count;
  if (count !== undefined && !(Number.isInteger(count) && (count as number) >= 1)) {
    fail(`${name} has the count ${shownJson(count)}; give a whole number of boards from 1.`);
  }
  const width = length(given, 'width', name);
  const height = length(given, 'height', name);
  return {
    id,
    thickness: thickness(given.thickness, name),
    material: text(given, 'material', name) ?? 'wood',
    ...(face === undefined ? {} : { face }),
    ...(color === undefined ? {} : { color }),
    ...(grain === undefined ? {} : { grain: grain as number | null }),
    ...(width === undefined ? {} : { width }),
    ...(height === undefined ? {} : { height }),
    ...(count === undefined ? {} : { count: count as number }),
  };
}

function thickness(value: unknown, name: string): number {
  const mm = typeof value === 'string' ? parseThickness(value) : value;
  if (!isFiniteNumber(mm)) {
    fail(`${name} has the thickness ${shownJson(value)}; write it like 3.2 mm, 1/8 in or 1/4".`);
  }
  if (mm <= 0) fail(`${name} has the thickness ${mm} mm; it must be above 0.`);
  if (mm > STACK_LIMITS.thickness) {
    fail(`${name} has the thickness ${mm} mm; above ${STACK_LIMITS.thickness} mm it is no sheet.`);
  }
  return mm;
}

function length(given: Record<string, unknown>, key: string, name: string): number | undefined {
  const value = given[key];
  if (value === undefined) return undefined;
  const mm = typeof value === 'string' ? parseThickness(value) : value;
  if (!isFiniteNumber(mm) || mm <= 0)
    fail(`${name} has the ${key} ${shownJson(value)}; give a size above 0 mm.`);
  return mm;
}

function text(given: Record<string, unknown>, key: string, name: string): string | undefined {
  const value = given[key];
  if (value === undefined) return undefined;
  if (typeof value !== 'string' || value.trim() === '') {
    fail(`${name} has the ${key} ${shownJson(value)}; give a text.`);
  }
  return value.trim();
}

function isFiniteNumber(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value);
}

function fail(message: string): never {
  throw new PlystepError('bad-stack', message);
}
