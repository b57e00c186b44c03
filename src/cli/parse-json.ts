import { PlystepError, type PlystepErrorCode } from '../index.js';

/**
 * The value of a JSON text; a fault in it is told with its line and column where the engine says where it is.
 * @param what the file is called in the message, for example `settings file`
 */
export function parseJson(text: string, what: string, code: PlystepErrorCode): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const message = error instanceof Error ? error.message : '';
    const position = /position (\d+)/.exec(message)?.[1];
    const offset = position === undefined ? null : Number(position);
    const end = /end of JSON/i.test(message) ? text.trimEnd().length : null;
    throw new PlystepError(
      code,
      text.trim() === ''
        ? `this ${what} is empty.`
        : `this ${what} is no valid JSON: look for a missing comma, quote or bracket.`,
      offset === null && end === null ? {} : placeAt(text, offset ?? end ?? 0),
    );
  }
}

function placeAt(text: string, offset: number): { line: number; column: number } {
  const lines = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: lines.length, column: (lines.at(-1)?.length ?? 0) + 1 };
}
