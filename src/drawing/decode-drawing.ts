import { refuseArgument } from '../arguments.js';
import { PlystepError } from '../error.js';
import { refuseForeignFormat } from './foreign-format.js';

/** How far into a file an XML declaration is looked for, bytes. */
const DECLARATION_REACH = 200;

/**
 * The text of an SVG file from its bytes. A byte order mark decides; without one, zero bytes beside the first
 * characters show UTF-16; else bytes that are valid UTF-8 are UTF-8, whatever the file declares; only then the
 * declared encoding counts (ISO-8859-1, windows-1252 and the others that `TextDecoder` knows). For compressed
 * files (`.svgz`) unpack first; the command does.
 *
 * @throws PlystepError `not-svg` for a picture, a PDF or an archive, `not-xml` for bytes that fit no encoding that the file could mean
 */
export function decodeDrawing(bytes: Uint8Array): string {
  if (!(bytes instanceof Uint8Array)) {
    refuseArgument(
      'decodeDrawing',
      `the bytes of a file (Uint8Array) are needed; a text goes to readDrawing as it is`,
    );
  }
  refuseForeignFormat(bytes);
  const sure = sureEncoding(bytes);
  if (sure !== null) return decode(bytes, sure, false) ?? failed(sure);
  const utf8 = decode(bytes, 'utf-8', true);
  if (utf8 !== null) return utf8;
  const declared = declaredEncoding(bytes);
  if (declared === null || /^utf-?(8|16)/i.test(declared)) return failed('utf-8');
  return decode(bytes, declared, true) ?? failed(declared);
}

/** The encoding that the first bytes prove, or null. */
function sureEncoding(bytes: Uint8Array): string | null {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a !== 0 && b === 0) return 'utf-16le';
  if (a === 0 && b !== 0 && bytes.length > 1) return 'utf-16be';
  return null;
}

function decode(bytes: Uint8Array, encoding: string, strict: boolean): string | null {
  try {
    return new TextDecoder(encoding, { fatal: strict }).decode(bytes);
  } catch {
    // A RangeError for an unknown name, a TypeError for bytes that do not fit.
    return null;
  }
}

function declaredEncoding(bytes: Uint8Array): string | null {
  const head = String.fromCharCode(...bytes.subarray(0, DECLARATION_REACH));
  return /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([A-Za-z][\w.:-]*)["']/.exec(head)?.[1] ?? null;
}

function failed(encoding: string): never {
  throw new PlystepError(
    'not-xml',
    `The file is no text in ${encoding.slice(0, 40)}, nor in another encoding that it declares. Save it again as UTF-8.`,
  );
}
