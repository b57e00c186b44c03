import { BLADES } from '../../shared/tables/blades.js';
import { demandOptions } from '../arguments.js';
import { PlystepError } from '../error.js';
import type { Workshop } from './cut-plan.js';
import { DEFAULT_WORKSHOP } from './default-workshop.js';
import { NEEDED_WIDTH_DEFAULTS } from './needed-width.js';

const POSITIVE = ['maxHeight', 'feed', 'easyHeight'] as const;
const NOT_NEGATIVE = [
  'drillMargin',
  'threadMinutes',
  'bladeClearance',
  'drillMinutes',
  'cornerMinutes',
  'moveMinutes',
  'setupMinutes',
] as const;

const CLAMP_SIDES: readonly string[] = ['top', 'right', 'bottom', 'left'];

/**
 * Fills a workshop up with the defaults; bits come out in ascending order. The easy height is that of the blade
 * where the table has it. What is given may come from a file, so its shape is looked at too.
 *
 * @throws PlystepError 'bad-option' for an unknown name, or a value that makes no sense.
 */
export function completeWorkshop(given: Partial<Workshop> = {}): Workshop {
  demandOptions(given, 'planCuts', null, 'workshop');
  const known = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
  refuseUnknown(known, [...Object.keys(DEFAULT_WORKSHOP), 'bridges'], '');
  const packet = BLADES.find((b) => b.name === given.blade?.name);
  const byBlade = packet === undefined ? {} : { easyHeight: packet.height[1] };
  const workshop: Workshop = { ...DEFAULT_WORKSHOP, ...byBlade, ...known };
  for (const name of POSITIVE) demandNumber(workshop[name], name, 'above 0');
  for (const name of NOT_NEGATIVE) demandNumber(workshop[name], name, '0 or more');
  checkBlade(workshop.blade);
  checkBits(workshop.bits);
  checkKnownJob(workshop.knownJob);
  checkBridges(workshop.bridges);
  if (!CLAMP_SIDES.includes(workshop.clampSide)) {
    refuse(`clampSide is ${shown(workshop.clampSide)}; it can be ${CLAMP_SIDES.join(', ')}`);
  }
  return { ...workshop, bits: [...workshop.bits].sort((a, b) => a.diameter - b.diameter) };
}

function checkBlade(blade: unknown): void {
  const { width, thickness } = objectOf(blade, 'blade');
  demandNumber(width, 'blade.width', 'above 0');
  demandNumber(thickness, 'blade.thickness', 'above 0');
}

function checkBits(bits: unknown): void {
  if (!Array.isArray(bits)) refuse(`bits is ${shown(bits)}; it must be a list of { name, diameter }`);
  for (const [i, bit] of (bits as unknown[]).entries()) {
    const { name, diameter } = objectOf(bit, `bits[${i}]`);
    if (typeof name !== 'string') refuse(`bits[${i}].name is ${shown(name)}; it must be a text`);
    demandNumber(diameter, `bit ${String(name)}`, 'above 0');
  }
}

function checkKnownJob(job: unknown): void {
  if (job === null) return;
  const values = objectOf(job, 'knownJob');
  for (const name of ['length', 'height', 'minutes'])
    demandNumber(values[name], `knownJob.${name}`, 'above 0');
  for (const name of ['threadings', 'corners'])
    demandNumber(values[name] ?? 0, `knownJob.${name}`, '0 or more');
}

function checkBridges(bridges: unknown): void {
  if (bridges === undefined) return;
  const values = objectOf(bridges, 'bridges');
  refuseUnknown(values, Object.keys(NEEDED_WIDTH_DEFAULTS), 'bridges.');
  for (const [name, value] of Object.entries(values)) {
    if (value !== undefined) demandNumber(value, `bridges.${name}`, '0 or more');
  }
}

function demandNumber(value: unknown, name: string, wanted: 'above 0' | '0 or more'): void {
  const fine =
    typeof value === 'number' && Number.isFinite(value) && (wanted === 'above 0' ? value > 0 : value >= 0);
  if (!fine) refuse(`${name} is ${shown(value)}; it must be a number ${wanted}`);
}

function objectOf(value: unknown, name: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    refuse(`${name} is ${shown(value)}; it must be an object`);
  }
  return value as Readonly<Record<string, unknown>>;
}

function refuseUnknown(values: object, names: readonly string[], place: string): void {
  const unknown = Object.keys(values).find((name) => !names.includes(name));
  if (unknown !== undefined) refuse(`there is no ${place}${unknown}; known are ${names.join(', ')}`);
}

function shown(value: unknown): string {
  return typeof value === 'string' ? JSON.stringify(value) : String(value);
}

function refuse(what: string): never {
  throw new PlystepError('bad-option', `Workshop: ${what}.`);
}
