import { DEFAULT_READ_LIMITS, PlystepError, type PlystepErrorCode, type ReadLimits } from '../index.js';
import { UsageError } from './command.js';

/** A fault in a file that was read: the fault, the file's name as given, and its text for the caret. */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly file: string;
  readonly text: string;
  readonly fault: PlystepError;

  constructor(file: string, text: string, fault: PlystepError) {
    super(fault.message);
    this.file = file;
    this.text = text;
    this.fault = fault;
  }
}

/** What to do about each kind of error, where the message itself does not say it. */
const ADVICE: Readonly<Partial<Record<PlystepErrorCode, string>>> = {
  'bad-stack': 'List the sheets front to back, for example --stack "6 mm walnut, 3x 1/8 in birch".',
  'bad-sidecar': 'plystep overview FILE --sidecar writes a correct one to compare with.',
};

/** Longest part of a source line that is shown around the caret, characters. */
const SHOWN = 76;

/** An error as lines for a person: what, where, a caret where it helps, what to do. Never a stack trace. */
export function describeError(error: unknown): string {
  if (error instanceof InputError) return describeFault(error.fault, error.file, error.text);
  if (error instanceof PlystepError) return describeFault(error, error.place.file, undefined);
  if (error instanceof UsageError) return `plystep: ${error.message}`;
  const what = error instanceof Error ? error.message : String(error);
  return `plystep: a fault in plystep itself: ${what}\n  Please report it with the drawing and the command line.`;
}

function describeFault(fault: PlystepError, file: string | undefined, text: string | undefined): string {
  const { line, column } = fault.place;
  const place = [file, line, line === undefined ? undefined : column].filter((part) => part !== undefined);
  const lines = [`plystep: ${place.length === 0 ? '' : `${place.join(':')}: `}${fault.message}`];
  if (text !== undefined && line !== undefined) lines.push(...caret(text, line, column));
  const advice = fault.code === 'limit' ? limitAdvice(fault.message) : ADVICE[fault.code];
  if (advice !== undefined) lines.push(`  ${advice}`);
  return lines.join('\n');
}

/** Where the command takes a higher limit from: the settings file, under the name that the message gives. */
function limitAdvice(message: string): string {
  const simplify = 'Simplify the drawing, or split it, so that it stays under the limit';
  const name = /the limit "(\w+)"/.exec(message)?.[1];
  if (name === 'edgeLimit') {
    // So many pieces are there, and so many would have to be allowed.
    const found = Number(/about ([\d,]+) pieces/.exec(message)?.[1].replaceAll(',', ''));
    const settings = { schemaVersion: '1.0', map: { edgeLimit: Math.ceil(1.1 * found) } };
    return `${simplify}; or raise it in a file given with --config:\n    ${JSON.stringify(settings)}`;
  }
  const limit = name === undefined ? undefined : DEFAULT_READ_LIMITS[name as keyof ReadLimits];
  if (limit === undefined) return `${simplify}.`;
  const settings = `{ "schemaVersion": "1.0", "read": { "limits": { "${name}": ${2 * limit} } } }`;
  return `${simplify}; or raise it in a file given with --config:\n    ${settings}`;
}

/** The source line with a caret under the column; a long line is cut around it. */
function caret(text: string, line: number, column: number | undefined): string[] {
  const source = text.split(/\r\n|\n|\r/, line)[line - 1];
  if (source === undefined || source.trim() === '') return [];
  const at = Math.min((column ?? 1) - 1, source.length);
  const start = Math.max(0, Math.min(at - SHOWN / 2, source.length - SHOWN));
  // Control characters could move the cursor of a terminal.
  const shown = source.slice(start, start + SHOWN).replace(/[\p{Cc}\p{Cf}]/gu, ' ');
  const gutter = `${line} | `;
  const under = `${' '.repeat(gutter.length - 2)}| ${' '.repeat(at - start)}`;
  return column === undefined ? [`  ${gutter}${shown}`] : [`  ${gutter}${shown}`, `  ${under}^`];
}
