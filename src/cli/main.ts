#!/usr/bin/env node
import { runCommandLine } from './run.js';

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // The reader of a pipe has seen enough (`plystep … | head`).
  if (error.code === 'EPIPE') process.exit(0);
});

async function readStdin(): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Uint8Array);
  return Buffer.concat(chunks);
}

process.exitCode = await runCommandLine(process.argv.slice(2), {
  cwd: process.cwd(),
  readStdin,
  stdout: (text) => process.stdout.write(text),
  stderr: (text) => process.stderr.write(text),
});
