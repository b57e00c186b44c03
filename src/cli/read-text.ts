import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { PlystepError } from '../index.js';
import type { CommandIo } from './command.js';
import { asFileError } from './file-error.js';

/** Standard input, where a file name is asked for. */
export const STDIN = '-';

/** Largest size of an unpacked .svgz, bytes: far above any pattern, far below the memory of a computer. */
const MAX_UNPACKED = 512 * 1024 * 1024;

/** A file name as messages show it. */
export function shownName(file: string): string {
  return file === STDIN ? 'standard input' : file;
}

/**
 * The text of a file, or of standard input for `-`. Gzip (.svgz) is unpacked; UTF-8 and UTF-16 are told
 * apart by the byte order mark, or by the zero byte beside a first `<`.
 * @throws PlystepError `file`
 */
export async function readText(file: string, io: CommandIo): Promise<string> {
  const bytes = await readBytes(file, io);
  return decode(unpack(bytes, file), file);
}

async function readBytes(file: string, io: CommandIo): Promise<Uint8Array> {
  if (file === STDIN) return io.readStdin();
  try {
    return await readFile(resolve(io.cwd, file));
  } catch (error) {
    throw asFileError(error, file, 'read');
  }
}

function unpack(bytes: Uint8Array, file: string): Uint8Array {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  try {
    return gunzipSync(bytes, { maxOutputLength: MAX_UNPACKED });
  } catch {
    throw new PlystepError(
      'file',
      'this packed drawing (gzip) is damaged or too large. Save it again unpacked, as .svg.',
      {
        file: shownName(file),
      },
    );
  }
}

function decode(bytes: Uint8Array, file: string): string {
  const [a, b] = bytes;
  const little = (a === 0xff && b === 0xfe) || (a === 0x3c && b === 0);
  const big = (a === 0xfe && b === 0xff) || (a === 0 && b === 0x3c);
  const encoding = little ? 'utf-16le' : big ? 'utf-16be' : 'utf-8';
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return decodeDeclared(bytes, file);
  }
}

/** Bytes that are not UTF-8: the encoding that the XML declaration names, if it names one. */
function decodeDeclared(bytes: Uint8Array, file: string): string {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  const declared = /^<\?xml[^>]*encoding=["']([A-Za-z0-9._-]+)["']/.exec(head)?.[1];
  try {
    if (declared !== undefined) return new TextDecoder(declared, { fatal: true }).decode(bytes);
  } catch {
    // Falls through to the one message below.
  }
  throw new PlystepError(
    'file',
    'this is no text in UTF-8 or UTF-16. Is it an SVG? Save the drawing again as SVG in UTF-8.',
    {
      file: shownName(file),
    },
  );
}
