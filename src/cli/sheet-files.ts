import { readdir, readFile, rm } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import {
  type CutPlan,
  DRAWING_FILE,
  type SheetDrawing,
  sheetIndex,
  sheetIndexHtml,
  writeDrawing,
  writeSheets,
} from '../index.js';
import type { CommandIo } from './command.js';
import { isSealed } from './seal.js';
import type { OutputFile } from './write-files.js';

/** The sheets of a plan and their index, as files in `folder`. */
export function sheetFiles(plan: CutPlan, title: string, folder: string): OutputFile[] {
  const sheets = writeSheets(plan, { title });
  const index = sheetIndex(plan, sheets);
  const file = (name: string, text: string): OutputFile => ({ name: join(folder, name), text });
  return [
    ...sheets.map((sheet: SheetDrawing) => file(`${sheet.name}.svg`, sheet.svg)),
    file(DRAWING_FILE, writeDrawing(plan, title)),
    file('index.json', `${JSON.stringify(index, null, 2)}\n`),
    file('index.html', sheetIndexHtml(plan, sheets, title, DRAWING_FILE)),
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
