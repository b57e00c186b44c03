import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top folder of the package. */
export const ROOT = fileURLToPath(new URL('../..', import.meta.url));

/** Paths of all files below a folder of the package, relative to its top, sorted. */
export function filesBelow(folder: string, ending: RegExp): string[] {
  return readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name).slice(ROOT.length))
    .sort();
}

/** The text of a file of the package. */
export function textOf(path: string): string {
  return readFileSync(join(ROOT, path), 'utf8');
}

/** What a TypeScript file imports when it runs: without `import type` and `export type`. */
export function runtimeImportsOf(path: string): string[] {
  const typeOnly = /^\s*(?:import|export)\s+type\b[^'"]*?from\s*['"][^'"]+['"];/gms;
  return importsIn(textOf(path).replace(typeOnly, ''));
}

/** What a TypeScript file imports or re-exports from, types included. */
export function importsOf(path: string): string[] {
  return importsIn(textOf(path));
}

function importsIn(text: string): string[] {
  const from = /^\s*(?:import|export)\b[^'"]*?from\s*['"]([^'"]+)['"]/gms;
  const bare = /^\s*import\s*['"]([^'"]+)['"]/gm;
  const dynamic = /\bimport\(\s*['"]([^'"]+)['"]/g;
  return [from, bare, dynamic].flatMap((pattern) => [...text.matchAll(pattern)].map((match) => match[1]));
}
