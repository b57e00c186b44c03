import { mkdir, readFile, rename, rm, rmdir, stat, writeFile } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { PlystepError } from '../index.js';
import type { CommandIo } from './command.js';
import { asFileError } from './file-error.js';
import { formatOfName, isSealed, seal } from './seal.js';

/** A document to write; `name` is a path relative to the folder of the whole set, or to where the command runs. */
export interface OutputFile {
  readonly name: string;
  readonly text: string;
}

export interface WriteOptions {
  /** Overwrite what is there, whoever wrote it. */
  readonly force: boolean;
  /** Files that are never overwritten: those that were read. */
  readonly keep: readonly string[];
}

/**
 * Writes all files or none: each goes to a temporary name first, and all are renamed at the end. A file that
 * is there already is only overwritten if plystep wrote it and nobody changed it since, or with `force`.
 * @throws PlystepError `file`
 */
export async function writeFiles(
  files: readonly OutputFile[],
  io: CommandIo,
  { force, keep }: WriteOptions,
): Promise<void> {
  const targets = files.map((file) => ({ ...file, path: resolve(io.cwd, file.name) }));
  refuseInputs(targets, new Set(keep.map((file) => resolve(io.cwd, file))));
  await refuseOthers(targets);
  if (!force) await refuseForeign(targets);
  const write = (signal?: AbortSignal): Promise<void> => writeAll(targets, signal);
  await (io.hold === undefined ? write() : io.hold(write));
}

/** Writes all under temporary names, then renames all; on the way to that a signal, or a fault, leaves nothing. */
async function writeAll(targets: readonly Target[], signal?: AbortSignal): Promise<void> {
  const written: string[] = [];
  const made: string[] = [];
  let done = false;
  try {
    for (const target of targets) {
      const temporary = temporaryName(target.path);
      await orFileError(target.name, async () => {
        await makeFolder(dirname(target.path), made);
        written.push(temporary);
        await writeFile(temporary, seal(target.text, formatOfName(target.name)));
      });
      if (signal?.aborted) throw new PlystepError('aborted', 'stopped by a signal; nothing was written.');
    }
    for (const target of targets) {
      await orFileError(target.name, () => rename(temporaryName(target.path), target.path));
    }
    done = true;
  } finally {
    for (const temporary of written) await rm(temporary, { force: true });
    // A folder that another program has used meanwhile is not empty, and stays.
    if (!done) for (const folder of made.reverse()) await rmdir(folder).catch(() => undefined);
  }
}

/**
 * Makes a folder and those around it, one by one: where the system says that a folder is not there and cannot be
 * made either (as under /proc), Node's own recursive way tries for ever. `made` collects what was made.
 */
async function makeFolder(path: string, made: string[]): Promise<void> {
  const missing: string[] = [];
  let at = path;
  while (!(await isFolder(at)) && dirname(at) !== at) {
    missing.unshift(at);
    at = dirname(at);
  }
  for (const folder of missing) {
    try {
      await mkdir(folder);
      made.push(folder);
    } catch (error) {
      // Another command may have made it meanwhile.
      if (!(await isFolder(folder))) throw error;
    }
  }
}

const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );

/** A path as messages show it: relative to where the command runs, if that is shorter. */
export function shownPath(path: string, io: CommandIo): string {
  const absolute = resolve(io.cwd, path);
  const short = relative(io.cwd, absolute);
  return short !== '' && short.length < absolute.length ? short : absolute;
}

const temporaryName = (path: string): string => `${path}.${process.pid}.part`;

async function orFileError(name: string, act: () => Promise<void>): Promise<void> {
  try {
    await act();
  } catch (error) {
    throw asFileError(error, name, 'write');
  }
}

interface Target extends OutputFile {
  readonly path: string;
}

function refuseInputs(targets: readonly Target[], inputs: ReadonlySet<string>): void {
  for (const { name, path } of targets) {
    if (!inputs.has(path)) continue;
    throw new PlystepError(
      'file',
      'this is the drawing itself, or its sidecar, stack or settings. Choose another name with --out.',
      {
        file: name,
      },
    );
  }
}

/** A folder under the name of a file would stop the renaming half-way; a device would be replaced by a file. */
async function refuseOthers(targets: readonly Target[]): Promise<void> {
  for (const { name, path } of targets) {
    const found = await stat(path).catch(() => null);
    if (found === null || found.isFile()) continue;
    const [what, advice] = found.isDirectory()
      ? [
          'a folder, and a file is to be written under its name',
          'Give a name in it, or choose another one with --out',
        ]
      : ['a device or a pipe, no plain file', 'Leave --out away, or write --out -, for standard output'];
    throw new PlystepError('file', `this is ${what}. Nothing was written. ${advice}.`, { file: name });
  }
}

async function refuseForeign(targets: readonly Target[]): Promise<void> {
  for (const target of targets) {
    const text = await textIfThere(target.path, target.name);
    if (text === null || isSealed(text)) continue;
    throw new PlystepError(
      'file',
      'this file is there already, and was changed since plystep wrote it or is not from plystep. Nothing was written. Move it, choose another place with --out, or add --force to overwrite.',
      { file: target.name },
    );
  }
}

async function textIfThere(path: string, name: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR'))
      return null;
    throw asFileError(error, name, 'write');
  }
}
