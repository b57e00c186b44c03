import { type CommandArguments, UsageError } from './command.js';
import { choiceOf } from './common-options.js';

/** The endings of each form in which a document can be written, the usual one first. */
const ENDINGS = {
  text: ['txt'],
  json: ['json'],
  markdown: ['md', 'markdown'],
  html: ['html', 'htm'],
  svg: ['svg'],
} as const;
type Format = keyof typeof ENDINGS;

/**
 * The format asked for by `--format`, else by the ending of `--out`, else the first of the list.
 * @throws UsageError for an ending that the command has no form for, and where ending and `--format` differ.
 */
export function formatOf<T extends Format>(args: CommandArguments, allowed: readonly [T, ...T[]]): T {
  const asked = choiceOf(args, 'format', allowed);
  const out = args.value('out') ?? '';
  const ending = /[^/\\]\.([a-z0-9]+)$/i.exec(out)?.[1]?.toLowerCase();
  if (ending === undefined) return asked ?? allowed[0];
  const meant = (Object.keys(ENDINGS) as Format[]).find((format) =>
    (ENDINGS[format] as readonly string[]).includes(ending),
  );
  const found = allowed.find((format) => format === meant);
  if (asked !== undefined && (meant === undefined || meant === asked)) return asked;
  if (asked === undefined && found !== undefined) return found;
  if (asked !== undefined) {
    throw new UsageError(
      `--out is "${out}", a name for ${meant}, and --format asks for ${asked}. Leave out --format, or let the name end in .${ENDINGS[asked][0]}.`,
    );
  }
  const forms = allowed.map((format) => `.${ENDINGS[format][0]}`).join(', ');
  const only = allowed.length === 1 ? `it can end in ${forms}` : `its ending can be one of ${forms}`;
  throw new UsageError(`--out is "${out}", and this command writes nothing of that kind; ${only}.`);
}
