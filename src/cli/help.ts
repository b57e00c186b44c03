import { VERSION } from '../index.js';
import type { Command, OptionSpec } from './command.js';
import { optionsOf } from './parse-arguments.js';

/** Characters a line of help may hold: the usual terminal. */
const WIDTH = 80;

/** Help for the whole program: what it is, the commands, a first line to try. */
export function programHelp(commands: readonly Command[]): string {
  const rows = commands.map((command) => [command.name, command.summary] as const);
  return [
    `plystep ${VERSION}: from one line drawing to a checked cutting job for a`,
    'layered wooden picture.',
    '',
    'Usage: plystep COMMAND FILE [options]',
    '',
    'Commands',
    ...twoColumns(rows),
    '',
    'Start here',
    ...twoColumns([
      ['plystep overview pattern.svg --out overview.svg', 'see the regions found, each with its id'],
      ['plystep overview pattern.svg --sidecar', 'write a file to fill in with depth numbers'],
      ['plystep job pattern.svg', 'everything for the saw, in one folder'],
    ]),
    '',
    'plystep COMMAND --help tells more about one command. FILE may be - for',
    'standard input. All lengths are in mm.',
    'Exit code: 0 all well; 1 the drawing has errors; 2 could not run.',
    '',
  ].join('\n');
}

/** Help for one command. */
export function commandHelp(command: Command): string {
  const options = optionsOf(command).map((spec) => [optionLeft(spec), spec.help] as const);
  return [
    `Usage: plystep ${command.name} ${command.operands} [options]`,
    '',
    ...wrap(command.about, WIDTH),
    '',
    'Options',
    ...twoColumns(options),
    '',
    'Examples',
    ...twoColumns(command.examples),
    '',
  ].join('\n');
}

function optionLeft(spec: OptionSpec): string {
  const short = spec.short === undefined ? '' : `-${spec.short}, `;
  return `${short}--${spec.name}${spec.value === undefined ? '' : ` ${spec.value}`}`;
}

function twoColumns(rows: readonly (readonly [string, string])[]): string[] {
  const longest = Math.max(...rows.map(([left]) => left.length));
  const indent = 2 + Math.min(longest, 24) + 2;
  return rows.flatMap(([left, right]) => {
    const lines = wrap(right, WIDTH - indent);
    const fits = left.length + 4 <= indent;
    const head = fits
      ? [`  ${left.padEnd(indent - 2)}${lines[0]}`]
      : [`  ${left}`, ' '.repeat(indent) + lines[0]];
    return [...head, ...lines.slice(1).map((line) => ' '.repeat(indent) + line)];
  });
}

function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}
