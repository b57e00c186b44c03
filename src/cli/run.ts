import { nearestName, VERSION } from '../index.js';
import { type Command, type CommandIo, type ExitCode, UsageError } from './command.js';
import { checkCommand } from './commands/check.js';
import { jobCommand } from './commands/job.js';
import { overviewCommand } from './commands/overview.js';
import { planCommand } from './commands/plan.js';
import { regionsCommand } from './commands/regions.js';
import { sheetsCommand } from './commands/sheets.js';
import { describeError } from './describe-error.js';
import { commandHelp, programHelp } from './help.js';
import { parseArguments } from './parse-arguments.js';

/** All commands, in the order in which a job uses them. */
export const COMMANDS: readonly Command[] = [
  overviewCommand,
  regionsCommand,
  checkCommand,
  planCommand,
  sheetsCommand,
  jobCommand,
];

/** Runs one command line (without the program's own name) and returns its exit code; it never throws. */
export async function runCommandLine(argv: readonly string[], io: CommandIo): Promise<ExitCode> {
  try {
    return await dispatch(argv, io);
  } catch (error) {
    io.stderr(`${describeError(error)}\n`);
    return 2;
  }
}

async function dispatch(argv: readonly string[], io: CommandIo): Promise<ExitCode> {
  const [first, ...rest] = argv;
  if (first === undefined) {
    io.stderr(programHelp(COMMANDS));
    return 2;
  }
  if (first === '--help' || first === '-h' || first === 'help') {
    const about = first === 'help' ? rest[0] : undefined;
    io.stdout(about === undefined ? programHelp(COMMANDS) : commandHelp(commandNamed(about)));
    return 0;
  }
  if (first === '--version' || first === '-v') {
    io.stdout(`${VERSION}\n`);
    return 0;
  }
  const command = commandNamed(first);
  const args = parseArguments(command, rest);
  if (args.flag('help')) {
    io.stdout(commandHelp(command));
    return 0;
  }
  return command.run(args, io);
}

function commandNamed(name: string): Command {
  const found = COMMANDS.find((each) => each.name === name);
  if (found !== undefined) return found;
  const names = COMMANDS.map((command) => command.name);
  const near = nearestName(name, names);
  const hint = near === null ? `The commands are ${names.join(', ')}.` : `Did you mean ${near}?`;
  throw new UsageError(`there is no command "${name}". ${hint}`);
}
