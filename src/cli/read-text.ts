import { readFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { decodeDrawing, PlystepError } from '../index.js';
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
 * The text of a file, or of standard input for `-`. Gzip (.svgz) is unpacked; the encoding is found as
 * `decodeDrawing` does.
 * @throws PlystepError `file`, `not-xml`
 */
export async function readText(file: string, io: CommandIo): Promise<string> {
  const bytes = unpack(await readBytes(file, io), file);
  try {
    return decodeDrawing(bytes);
  } catch (error) {
    if (error instanceof PlystepError)
      throw new PlystepError(error.code, error.message, { file: shownName(file) });
    throw error;
  }
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
