#!/usr/bin/env node
import { describeError } from './describe-error.js';
import { asFileError } from './file-error.js';
import { holdSignals } from './hold-signals.js';
import { createProgress } from './progress.js';
import { runCommandLine } from './run.js';

/** Whether a document could not be written out; then the command has failed, whatever it found. */
let failed = false;

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe has seen enough (`plystep … | head`): no fault, and the command's own code stands.
  if (failed || error.code === 'EPIPE') return;
  failed = true;
  process.exitCode = 2;
  process.stderr.write(`${describeError(asFileError(error, 'standard output', 'write'))}\n`);
});
// Nobody is left to be told.
process.stderr.on('error', () => undefined);

async function readStdin(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Uint8Array);
  return Buffer.concat(chunks);
}

const progress = createProgress({
  write: (text) => process.stderr.write(text),
  isTerminal: process.stderr.isTTY === true && process.env.TERM !== 'dumb',
  now: () => performance.now(),
});

/** Writes below the line of progress, not into it. */
const writer =
  (stream: NodeJS.WriteStream) =>
  (text: string): void => {
    progress.clear();
    stream.write(text);
  };

const code = await runCommandLine(process.argv.slice(2), {
  cwd: process.cwd(),
  readStdin,
  stdout: writer(process.stdout),
  stderr: writer(process.stderr),
  progress,
  hold: holdSignals,
});
progress.clear();
process.exitCode = failed ? 2 : code;
