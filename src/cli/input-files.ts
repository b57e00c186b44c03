import type { CommandArguments } from './command.js';
import { sidecarName } from './pipeline.js';
import { STDIN } from './read-text.js';

/**
 * The files that a command reads or would read: the drawings, the sidecar beside each (there already or not), and what
 * was named for the stack and the settings. None of them is ever written over by a document.
 */
export function inputFiles(args: CommandArguments): string[] {
  const drawings = args.files.filter((file) => file !== STDIN);
  const stack = args.value('stack');
  const named = [
    args.value('sidecar'),
    args.value('config'),
    /\.json$/i.test(stack ?? '') ? stack : undefined,
  ];
  return [
    ...drawings,
    ...drawings.map(sidecarName),
    ...named.filter((file) => file !== undefined && file !== STDIN),
  ] as string[];
}
