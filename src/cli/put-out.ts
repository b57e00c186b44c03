import type { CommandArguments, CommandIo } from './command.js';
import { inputFiles } from './input-files.js';
import { shownPath, writeFiles } from './write-files.js';

/** Writes one document to `--out`, or to the terminal where no file is asked for. */
export async function putOut(args: CommandArguments, io: CommandIo, text: string): Promise<void> {
  const out = args.value('out');
  if (out === undefined || out === '-') {
    io.stdout(text);
    return;
  }
  await writeFiles([{ name: out, text }], io, { force: args.flag('force'), keep: inputFiles(args) });
  io.stderr(`Wrote ${shownPath(out, io)}\n`);
}
