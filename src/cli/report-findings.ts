import type { Finding } from '../index.js';
import type { CommandIo, ExitCode } from './command.js';
import { describeFindings, reaches } from './describe-findings.js';
import { shownName } from './read-text.js';

/** So many findings are shown by commands that check on the way. */
const SHOWN = 12;

/**
 * For commands that check on the way: prints the findings of a level and graver ones to the error stream, and
 * gives the exit code.
 */
export function reportFindings(
  file: string,
  findings: readonly Finding[],
  io: CommandIo,
  from: 'error' | 'warning' = 'warning',
): ExitCode {
  const grave = findings.filter((finding) => reaches([finding], from));
  io.stderr(describeFindings(shownName(file), grave.slice(0, SHOWN)));
  if (grave.length > SHOWN) io.stderr(`and ${grave.length - SHOWN} more: plystep check ${file} shows all.\n`);
  return reaches(findings, 'error') ? 1 : 0;
}
