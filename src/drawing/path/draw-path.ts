import { type SVGCommand, SVGPathDataParser } from 'svg-pathdata';
import type { PathBuilder } from './path-builder.js';
import { PathInterpreter } from './path-interpreter.js';

/** Characters handed to the path parser at once, so that long data is never held as a list of commands. */
const SLICE = 1 << 16;

/**
 * Draws path data up to its first fault (SVG 2, error handling in path data).
 * @returns what is wrong with the rest, or null
 */
export function drawPath(data: string, builder: PathBuilder): string | null {
  const stray = strayNumber(data);
  const text = lenient(stray < 0 ? data : data.slice(0, stray));
  const parser = new SVGPathDataParser();
  const interpreter = new PathInterpreter(builder);
  for (let start = 0; start <= text.length; start += SLICE) {
    const commands: SVGCommand[] = [];
    let fault: string | null = null;
    try {
      parser.parse(text.length <= SLICE ? text : text.slice(start, start + SLICE), commands);
      if (start + SLICE >= text.length) parser.finish(commands);
    } catch (error) {
      if (!(error instanceof SyntaxError)) throw error;
      fault = faultText(error.message, start);
    }
    if (!interpreter.run(commands)) return 'it does not begin with a move (M)';
    if (fault !== null) return fault;
  }
  return stray < 0 ? null : `Number without a command at index ${stray}`;
}

const AT_START = /^\s*[\d.,+-]/;
const AFTER_CLOSE = /[zZ]\s*[\d.,+-]/;

/** Where a number stands in place of a command, which the parser lets pass: at the start, or after Z; -1 for nowhere. */
function strayNumber(data: string): number {
  if (AT_START.test(data)) return 0;
  const found = AFTER_CLOSE.exec(data);
  return found === null ? -1 : found.index + 1;
}

/** The parser's words, with positions counted from the start of the whole data. */
function faultText(message: string, start: number): string {
  return message
    .replace(/\.$/, '')
    .replace(/(index "?|ending at )(\d+)"?/, (_, before: string, index: string) => {
      return before.replace('"', '') + String(Number(index) + start);
    });
}

/** Two zeros where a number begins: `00`, `007`, or the two flags of an arc. */
const LEADING_ZEROS = /(?:^|[^\d.+\-eE])00/;
const ARC_RUN = /[aA](?:[^a-zA-Z]|[eE])*/g;
const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;
const RADII = new RegExp(
  String.raw`(${NUMBER})([\s,]*)(${NUMBER})([\s,]*${NUMBER}[\s,]*[01][\s,]*[01][\s,]*${NUMBER}[\s,]*${NUMBER}[\s,]*)`,
  'y',
);

/** Writes what SVG 2 allows and the path parser does not, in the same number of characters: negative radii, `00`. */
function lenient(data: string): string {
  let text = data;
  if (text.includes('\f')) text = text.replaceAll('\f', ' ');
  if (/[aA]/.test(text)) text = text.replace(ARC_RUN, (run) => (run.includes('-') ? plainRadii(run) : run));
  if (text.includes('00') && LEADING_ZEROS.test(text)) {
    text = text.replace(/([b-df-zB-DF-Z])([^a-df-zA-DF-Z]*)/g, (_, letter: string, run: string) => {
      return (
        letter +
        run.replace(/(^|[^\d.+\-eE])(0+)(?=\d)/g, (__, before: string, zeros: string) => {
          return before + ' '.repeat(zeros.length);
        })
      );
    });
  }
  return text;
}

function plainRadii(run: string): string {
  const parts = [run[0]];
  let end = 1;
  const lead = /[\s,]*/y;
  for (;;) {
    lead.lastIndex = end;
    const space = lead.exec(run)?.[0] ?? '';
    RADII.lastIndex = end + space.length;
    const found = RADII.exec(run);
    if (!found) break;
    parts.push(space, found[1].replace(/^-/, ' '), found[2], found[3].replace(/^-/, ' '), found[4]);
    end = RADII.lastIndex;
  }
  parts.push(run.slice(end));
  return parts.join('');
}
