import { parseArgs } from 'node:util';
import { nearestName } from '../index.js';
import { type Command, type CommandArguments, type OptionSpec, UsageError } from './command.js';

const HELP: OptionSpec = { name: 'help', short: 'h', help: 'show this help' };

/** All options of a command, `--help` included. */
export function optionsOf(command: Command): readonly OptionSpec[] {
  return [...command.options, HELP];
}

/**
 * Reads the arguments that follow a command's name. Options and files may come in any order; `--` ends the
 * options.
 * @throws UsageError for an unknown option, a missing value, no file or too many files.
 */
export function parseArguments(command: Command, argv: readonly string[]): CommandArguments {
  const specs = optionsOf(command);
  refuseUnknown(command, argv);
  const parsed = parseStrictly(command, specs, withValues(specs, argv));
  const values = parsed.values as Readonly<Record<string, string | boolean | undefined>>;
  for (const { name, value } of specs) {
    // What an empty stack should have been is said where stacks are read.
    if (values[name] === '' && name !== 'stack')
      throw new UsageError(`--${name} is empty; write --${name} ${value}.`);
  }
  const files = parsed.positionals;
  if (values.help !== true) checkFiles(command, files);
  return {
    files,
    value: (name) => {
      const value = values[name];
      return typeof value === 'string' ? value : undefined;
    },
    flag: (name) => values[name] === true,
  };
}

function parseStrictly(command: Command, specs: readonly OptionSpec[], argv: readonly string[]) {
  const options = Object.fromEntries(
    specs.map((spec) => [
      spec.name,
      {
        type: spec.value === undefined ? ('boolean' as const) : ('string' as const),
        ...(spec.short === undefined ? {} : { short: spec.short }),
      },
    ]),
  );
  try {
    return parseArgs({ args: [...argv], options, allowPositionals: true, strict: true });
  } catch (error) {
    const first = error instanceof Error ? error.message.split('\n')[0] : String(error);
    throw new UsageError(`${first} Try: plystep ${command.name} --help`);
  }
}

/**
 * Joins options to values that start with a dash, as in `--weld -1`: a negative number is told better where the value
 * is read. Another option in the place of a value is refused.
 */
function withValues(specs: readonly OptionSpec[], argv: readonly string[]): string[] {
  const joined: string[] = [];
  for (let i = 0; i < argv.length; i++) {
    const arg = argv[i];
    if (arg === '--') return [...joined, ...argv.slice(i)];
    const spec = specs.find(({ name, short }) => arg === `--${name}` || arg === `-${short}`);
    const next = argv[i + 1];
    if (spec?.value === undefined || (next !== undefined && !/^-./.test(next))) {
      joined.push(arg);
      // The value of an option is no option, whatever it looks like.
      if (spec?.value !== undefined) joined.push(argv[++i]);
    } else if (next !== undefined && /^-[\d.]/.test(next)) {
      joined.push(`--${spec.name}=${next}`);
      i++;
    } else {
      throw new UsageError(`${arg} needs a value: ${arg} ${spec.value}.`);
    }
  }
  return joined;
}

function refuseUnknown(command: Command, argv: readonly string[]): void {
  const names = optionsOf(command).map((spec) => spec.name);
  const letters = optionsOf(command).map((spec) => spec.short);
  for (const arg of argv) {
    if (arg === '--') return;
    if (/^-[a-z]/i.test(arg) && !letters.includes(arg[1]))
      throw new UsageError(
        `plystep ${command.name} has no option ${arg.slice(0, 2)}. Try: plystep ${command.name} --help`,
      );
    const name = /^--([^=]+)/.exec(arg)?.[1];
    if (name === undefined || names.includes(name)) continue;
    const near = nearestName(name, names);
    const hint = near === null ? `Try: plystep ${command.name} --help` : `Did you mean --${near}?`;
    throw new UsageError(`plystep ${command.name} has no option --${name}. ${hint}`);
  }
}

function checkFiles(command: Command, files: readonly string[]): void {
  if (files.length === 0) {
    throw new UsageError(
      `no drawing given. Write: plystep ${command.name} ${command.operands} (- reads standard input)`,
    );
  }
  if (files.length > 1 && !command.manyFiles) {
    throw new UsageError(
      `plystep ${command.name} takes one drawing, but got ${files.length}: ${files.join(', ')}`,
    );
  }
}
