import { completeMapOptions, type MapOptions, PlystepError, parseThickness } from '../index.js';
import { type CommandArguments, type OptionSpec, UsageError } from './command.js';

/** Options that say how a drawing is read and mapped. */
export const MAP_OPTIONS: readonly OptionSpec[] = [
  { name: 'weld', value: 'MM', help: 'a line end this near to a line is on it (0.02)' },
  { name: 'gap', value: 'MM', help: 'open ends this far apart are joined and reported; 0 joins none (0.5)' },
  { name: 'sliver', value: 'MM', help: 'regions narrower than this are merged into a neighbour (0.05)' },
  { name: 'tolerance', value: 'MM', help: 'how close chords follow curves while regions are found (0.005)' },
  {
    name: 'hidden-lines',
    value: 'drop|keep',
    help: 'drop: what an opaque fill hides is no cut line; keep: all lines count (drop)',
  },
  { name: 'config', value: 'FILE', help: 'a JSON file with settings for many drawings' },
];

/** Options that say what the numbers mean. */
export const RELIEF_OPTIONS: readonly OptionSpec[] = [
  {
    name: 'stack',
    value: 'SHEETS',
    help: 'the sheets front to back, such as "6 mm walnut, 3x 1/8 in birch", or a JSON file with them',
  },
  {
    name: 'joint',
    value: 'pieces|continuous',
    help: 'every region a piece, or every level one sheet (pieces)',
  },
  {
    name: 'frame',
    value: 'cut|board-edge',
    help: 'is the outermost line sawn, or the edge of the board (cut)',
  },
  {
    name: 'sidecar',
    value: 'FILE',
    help: 'the file with stack and numbers; without this, NAME.plystep.json beside the drawing is taken if it is there',
  },
];

export const OUT_FILE: OptionSpec = {
  name: 'out',
  short: 'o',
  value: 'FILE',
  help: 'write to this file, not to the terminal',
};
export const FORCE: OptionSpec = {
  name: 'force',
  help: "overwrite files that are not plystep's own unchanged output",
};

/** The tolerances given on the command line; only those that were given. */
export function mapOptionsOf(args: CommandArguments): MapOptions {
  const lengths = (['weld', 'gap', 'sliver', 'tolerance'] as const).flatMap((name) => {
    const text = args.value(name);
    return text === undefined ? [] : [[name, lengthOf(name, text)] as const];
  });
  const hiddenLines = choiceOf(args, 'hidden-lines', ['drop', 'keep'] as const);
  const options = { ...Object.fromEntries(lengths), ...(hiddenLines === undefined ? {} : { hiddenLines }) };
  try {
    completeMapOptions(options);
  } catch (error) {
    throw error instanceof PlystepError ? new UsageError(`--${error.message}.`) : error;
  }
  return options;
}

function lengthOf(name: string, text: string): number {
  const length = parseThickness(text);
  if (length === null) {
    throw new UsageError(
      `--${name} is "${text}"; write a length in mm of 0 or more, for example --${name} 0.1`,
    );
  }
  return length;
}

/** The value of an option that has a few allowed words. */
export function choiceOf<T extends string>(
  args: CommandArguments,
  name: string,
  allowed: readonly T[],
): T | undefined {
  const text = args.value(name);
  if (text === undefined) return undefined;
  const found = allowed.find((each) => each === text);
  if (found === undefined) throw new UsageError(`--${name} is "${text}"; it can be ${allowed.join(', ')}.`);
  return found;
}
