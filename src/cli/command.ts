import type { Progress } from './progress.js';

/** 0: done and nothing wrong; 1: done, and something is wrong with the drawing; 2: could not be done. */
export type ExitCode = 0 | 1 | 2;

/** What a command may touch of the world besides files. */
export interface CommandIo {
  /** The folder that relative paths start from. */
  readonly cwd: string;
  readonly readStdin: () => Promise<Uint8Array>;
  readonly stdout: (text: string) => void;
  readonly stderr: (text: string) => void;
  /** Tells what long work is at; absent: nobody wants to know. */
  readonly progress?: Progress;
  /** Does work that a signal to end must not leave half-done; absent: it is just done. */
  readonly hold?: <T>(work: (signal: AbortSignal) => Promise<T>) => Promise<T>;
}

/** One option of a command. */
export interface OptionSpec {
  readonly name: string;
  readonly short?: string;
  /** What to write in place of the value in the help, for example `MM`; absent for a switch. */
  readonly value?: string;
  readonly help: string;
}

/** Options and file names as given, before they are checked. */
export interface CommandArguments {
  readonly files: readonly string[];
  /** The value of an option, or undefined. */
  readonly value: (name: string) => string | undefined;
  /** Whether a switch is set. */
  readonly flag: (name: string) => boolean;
}

/** One command. */
export interface Command {
  readonly name: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** What follows the command's name, for example `FILE`. */
  readonly operands: string;
  /** Whether more than one file may be given. */
  readonly manyFiles: boolean;
  /** Two or three sentences for the command's own help. */
  readonly about: string;
  readonly options: readonly OptionSpec[];
  /** Lines to try, each with what it does. */
  readonly examples: readonly (readonly [line: string, does: string])[];
  readonly run: (args: CommandArguments, io: CommandIo) => Promise<ExitCode>;
}

/** A command line that can't be understood: what is wrong and what to do, for a person. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}
