import { demandText } from '../arguments.js';
import { PlystepError } from '../error.js';
import { checkSheets } from './check-sheets.js';
import { parseThickness, readLengthAt } from './parse-thickness.js';
import type { Stack } from './stack.js';
import {
  refuseDecimalComma,
  refuseSheetInMaterial,
  refuseUnknownUnit,
  type StackPart,
} from './stack-doubts.js';

/**
 * Reads a stack written in one line, **front to back**: sheets with commas between them, each
 *
 *     [N x] thickness [material] [(detail; detail; …)]
 *
 * `6 mm walnut, 3x 1/8 in basswood (grain 90; board 300 x 200 mm)` is one sheet of walnut and three of
 * basswood behind it. Details: `grain DEGREES` or `no grain`, `board WIDTH x HEIGHT`, `boards COUNT`,
 * `color #rrggbb`, `face WORDS`, `id WORD` (not with `N x`). Lengths as for `parseThickness`.
 *
 * @throws PlystepError 'bad-stack' with the column of the faulty part.
 */
export function parseStack(text: string): Stack {
  demandText(text, 'parseStack', 'text', 'a stack as data goes to readStack');
  if (text.trim() === '') fail('The stack is empty; write for example "6 mm walnut, 3x 1/8 in basswood".', 1);
  const sheets: Record<string, unknown>[] = [];
  const parts = splitSheets(text);
  parts.forEach((part, index) => {
    refuseDecimalComma(part, parts[index + 1]);
    sheets.push(...readPart(part));
  });
  return checkSheets(sheets);
}

/** The parts between commas that stand outside brackets, trimmed. */
function splitSheets(text: string): StackPart[] {
  const parts: StackPart[] = [];
  let depth = 0;
  let start = 0;
  const take = (end: number): void => {
    const raw = text.slice(start, end);
    parts.push({ text: raw.trim(), column: start + 1 + (raw.length - raw.trimStart().length) });
    start = end + 1;
  };
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (c === '(') depth++;
    else if (c === ')') depth--;
    if (depth < 0 || depth > 1) fail('A bracket is out of place in the stack.', i + 1);
    if (c === ',' && depth === 0) take(i);
  }
  if (depth !== 0) fail('A bracket is not closed in the stack.', text.length);
  take(text.length);
  return parts;
}

const COUNT = /^(\d+)\s*[x\u00d7]\s*/i;
const TAIL = /^([^()]*)(?:\(([^()]*)\))?$/;

function readPart(part: StackPart): Record<string, unknown>[] {
  const { text, column } = part;
  if (text === '') fail('A sheet is missing between two commas of the stack.', column);
  if (/^[-\u2212]/.test(text)) fail(`"${text}" is below 0; a thickness is above 0, like 3 mm birch.`, column);
  const count = COUNT.exec(text);
  const copies = count === null ? 1 : Number(count[1]);
  if (copies < 1) fail(`"${text}" asks for ${copies} sheets; ask for at least one.`, column);
  const rest = text.slice(count?.[0].length ?? 0);
  const read = readLengthAt(rest);
  const tail = read === null ? null : TAIL.exec(rest.slice(read.end).trim());
  if (read === null || tail === null) {
    fail(
      `"${text}" is no sheet; write a thickness and a material, like 3.2 mm birch or 1/8 in birch.`,
      column,
    );
  }
  const material = tail[1].trim();
  const length = rest.slice(0, read.end).trim();
  if (/\d$/.test(length)) refuseUnknownUnit(part, length, material);
  refuseSheetInMaterial(part, material);
  const sheet: Record<string, unknown> = { thickness: read.mm };
  if (material !== '') sheet.material = material;
  for (const detail of (tail[2] ?? '').split(';')) {
    if (detail.trim() !== '') Object.assign(sheet, readDetail(detail.trim(), column));
  }
  if (copies > 1 && sheet.id !== undefined) fail(`"${text}" gives one id to ${copies} sheets.`, column);
  return Array.from({ length: Math.min(copies, 1000) }, () => sheet);
}

function readDetail(detail: string, column: number): Record<string, unknown> {
  if (/^no\s+grain$/i.test(detail)) return { grain: null };
  const [, word, value] = /^(\S+)\s+(.+)$/.exec(detail) ?? [];
  switch (word?.toLowerCase()) {
    case 'grain':
      return { grain: number(value!, detail, column) };
    case 'boards':
      return { count: number(value!, detail, column) };
    case 'color':
      return { color: value };
    case 'face':
      return { face: value };
    case 'id':
      return { id: value };
    case 'board':
      return board(value!, detail, column);
    default:
      return fail(
        `"${detail}" is no detail of a sheet; known are grain, board, boards, color, face, id.`,
        column,
      );
  }
}

/** `300 x 200 mm`: a unit on the second length alone counts for both. */
function board(value: string, detail: string, column: number): Record<string, unknown> {
  const [first, second, more] = value.split(/\s*[x\u00d7]\s*/i);
  const height = parseThickness(second ?? '');
  const unit = /[a-z"\u2033]+\s*$/i.exec(second ?? '')?.[0] ?? '';
  const width = parseThickness(/[a-z"\u2033]\s*$/i.test(first!) ? first! : `${first}${unit}`);
  if (width === null || height === null || more !== undefined) {
    fail(`"${detail}" is no size; write it like board 300 x 200 mm.`, column);
  }
  return { width, height };
}

function number(value: string, detail: string, column: number): number {
  const parsed = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(value.trim()) ? Number(value) : Number.NaN;
  if (Number.isNaN(parsed)) fail(`"${detail}" needs a number.`, column);
  return parsed;
}

function fail(message: string, column: number): never {
  throw new PlystepError('bad-stack', message, { line: 1, column });
}
