import { createHash } from 'node:crypto';

/**
 * A seal tells plystep's own unchanged output from anything else: `plystep:` and 16 hex digits of the
 * SHA-256 of the document with those digits as zeros. A file whose seal holds may be overwritten; one that a
 * person has changed since, or that another program wrote, may not.
 */
const SEAL = /plystep:([0-9a-f]{16})(?![0-9a-f])/;
const OPEN_SEAL = 'plystep:0000000000000000';

/** How a format carries a seal without harm. */
export type SealedFormat = 'svg' | 'html' | 'markdown' | 'json' | 'text';

/** The format that a file name's ending asks for. */
export function formatOfName(name: string): SealedFormat {
  const ending = /\.([a-z]+)$/i.exec(name)?.[1]?.toLowerCase() ?? '';
  const known: Readonly<Record<string, SealedFormat>> = {
    svg: 'svg',
    html: 'html',
    htm: 'html',
    md: 'markdown',
    json: 'json',
  };
  return known[ending] ?? 'text';
}

/** The document with a seal at its end (for JSON: as the last member, `seal`). */
export function seal(text: string, format: SealedFormat): string {
  const body = text.replace(/\n*$/, '');
  const open = withOpenSeal(body, format);
  const at = open.lastIndexOf(OPEN_SEAL);
  return `${open.slice(0, at)}plystep:${digest(open)}${open.slice(at + OPEN_SEAL.length)}`;
}

/** Whether the text is a document of plystep, unchanged since. */
export function isSealed(text: string): boolean {
  const all = [...text.matchAll(new RegExp(SEAL, 'g'))];
  const last = all.at(-1);
  if (last === undefined) return false;
  const open = text.slice(0, last.index) + OPEN_SEAL + text.slice(last.index + OPEN_SEAL.length);
  return digest(open) === last[1];
}

function withOpenSeal(body: string, format: SealedFormat): string {
  switch (format) {
    case 'svg':
    case 'html':
    case 'markdown':
      return `${body}\n<!-- ${OPEN_SEAL} -->\n`;
    case 'json': {
      const members = body.replace(/\s*\}$/, '');
      return `${members}${members.endsWith('{') ? '' : ','}\n  "seal": "${OPEN_SEAL}"\n}\n`;
    }
    case 'text':
      return `${body}\n\n${OPEN_SEAL}\n`;
  }
}

function digest(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex').slice(0, 16);
}
