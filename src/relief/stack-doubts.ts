import { PlystepError } from '../error.js';

/** One part of a stack in one line: the text between two commas, and its column, from 1. */
export interface StackPart {
  readonly text: string;
  readonly column: number;
}

const UNIT = String.raw`(?:mm|cm|in|inch|inches)\b|["\u2033]`;
const WHOLE = /^(?:\d+\s*[x\u00d7]\s*)?\d+$/i;
const AFTER_COMMA = /^\d+(?![\d./]|\s*[x\u00d7])/i;
const WITH_UNIT = new RegExp(String.raw`^\d+\s*(?:${UNIT})`, 'i');

/**
 * `3,2 mm birch`: a sheet that is but a whole number without a unit, before one that starts with a whole number.
 * @throws PlystepError 'bad-stack'
 */
export function refuseDecimalComma(part: StackPart, next: StackPart | undefined): void {
  if (next === undefined || !WHOLE.test(part.text) || !AFTER_COMMA.test(next.text)) return;
  const together = next.column === part.column + part.text.length + 1;
  if (!together && !WITH_UNIT.test(next.text)) return;
  refuse(
    `"${part.text}, ${next.text}" reads as two sheets, the first of ${part.text} mm. For a decimal write a point: "${part.text}.${next.text}"; for two sheets give the first its unit: "${part.text} mm, ${next.text}".`,
    part.column,
  );
}

/** Words for lengths that are no unit of a stack, and slips of those that are. */
const OTHER_UNITS = new Set(
  'm meter meters metre metres millimeter millimeters millimetre millimetres centimeter centimeters centimetre centimetres dm km um nm micron microns mil mils thou mile miles ft foot feet yd yard yards furlong furlongs rod chain line lines pt point points px pixel pixels pica pc em zoll mms cms ins inchs'.split(
    ' ',
  ),
);

/**
 * A first word of a material that can only be a unit, where no unit was read: a known word for a length, one or two
 * letters before another word, or a sign.
 * @throws PlystepError 'bad-stack'
 */
export function refuseUnknownUnit(part: StackPart, number: string, material: string): void {
  const [first = '', second] = material.split(/\s+/);
  const unit =
    OTHER_UNITS.has(first.toLowerCase()) ||
    (second !== undefined && /^\p{L}{1,2}$/u.test(first)) ||
    (first !== '' && !/^[\p{L}\d]/u.test(first));
  if (!unit) return;
  refuse(
    `"${part.text}" reads as a number ${number} with the unit "${first}", which is none of a stack. Write mm, cm or in, like "3.2 mm birch" or "1/8 in birch".`,
    part.column,
  );
}

const LENGTH_IN_WORDS = new RegExp(
  String.raw`(?:^|[\s;:+&/|])(?=[\d.]*\d)((?:\d+\s*[x\u00d7]\s*)?[\d./]+(?:[ -]\d+\/\d+)?\s*(?:${UNIT}|(?!ply\b|layer)\p{L}{3,}(?=\s|$)))`,
  'iu',
);

/**
 * `walnut 3 mm birch`, `walnut; 3 mm birch`: a material that holds another sheet. A number by itself (`birch 2`) and
 * a number of plies (`5 ply`, `3-ply`) are names.
 * @throws PlystepError 'bad-stack'
 */
export function refuseSheetInMaterial(part: StackPart, material: string): void {
  const found = LENGTH_IN_WORDS.exec(material);
  if (found === null && !material.includes(';')) return;
  const start = found === null ? material.indexOf(';') : found.index;
  const before = material.slice(0, start).replace(/[\s;:+&/|]+$/, '');
  const after = material.slice(start).replace(/^[\s;:+&/|]+/, '');
  const head = part.text.slice(0, part.text.indexOf(material)) + before;
  refuse(
    `"${part.text}" reads as one sheet of the material "${material}". Sheets have commas between them: "${head.trim()}, ${after}".`,
    part.column,
  );
}

function refuse(message: string, column: number): never {
  throw new PlystepError('bad-stack', message, { line: 1, column });
}
