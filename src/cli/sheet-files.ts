import { readdir, readFile, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import {
  type CutPlan,
  DRAWING_FILE,
  type IndexedFile,
  type SheetDrawing,
  sheetIndex,
  sheetIndexHtml,
  writeDrawing,
  writeSheets,
} from '../index.js';
import type { CommandIo } from './command.js';
import { isSealed } from './seal.js';
import type { OutputFile } from './write-files.js';

const DRAWING: IndexedFile = {
  file: DRAWING_FILE,
  what: 'the drawing with all lines and holes, to stick on the front',
};

/**
 * The sheets of a plan, the drawing and their index, as files in `folder`.
 * @param others what else is written, as seen from there
 */
export function sheetFiles(
  plan: CutPlan,
  title: string,
  folder: string,
  others: readonly IndexedFile[] = [],
): OutputFile[] {
  const sheets = writeSheets(plan, { title });
  const files = [DRAWING, ...others];
  const index = sheetIndex(plan, sheets, files);
  const file = (name: string, text: string): OutputFile => ({ name: join(folder, name), text });
  return [
    ...sheets.map((sheet: SheetDrawing) => file(`${sheet.name}.svg`, sheet.svg)),
    file(DRAWING_FILE, writeDrawing(plan, title)),
    file('index.json', `${JSON.stringify(index, null, 2)}\n`),
    file('index.html', sheetIndexHtml(plan, sheets, title, files)),
  ];
}

const SHEET_NAME = /^(sheet-\d+|level-\d+|add-ons)\.svg$/;

/**
 * Removes sheets that an earlier run wrote to the folder and that this one does not have (the stack has fewer
 * sheets now), as long as they are unchanged: an outdated sheet would be cut by mistake.
 */
export async function removeOutdatedSheets(
  folder: string,
  files: readonly OutputFile[],
  io: CommandIo,
): Promise<void> {
  const current = new Set(files.map((file) => resolve(io.cwd, file.name)));
  for (const name of await readdir(resolve(io.cwd, folder))) {
    const path = resolve(io.cwd, folder, name);
    if (!SHEET_NAME.test(name) || current.has(path)) continue;
    if (isSealed(await readFile(path, 'utf8'))) await rm(path);
  }
}
