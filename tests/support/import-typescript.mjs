import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/**
 * Bundles a TypeScript module of the tests and imports it. Packages stay outside the bundle, so it is written
 * into the checkout, where they are found, and removed again.
 */
export async function importTypeScript(url) {
  const inside = fileURLToPath(new URL('../../node_modules/.cache/', import.meta.url));
  mkdirSync(inside, { recursive: true });
  const folder = mkdtempSync(join(inside, 'plystep-'));
  const outfile = join(folder, 'bundle.mjs');
  try {
    await build({
      entryPoints: [fileURLToPath(url)],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      packages: 'external',
      sourcemap: 'inline',
      logLevel: 'error',
    });
    return await import(pathToFileURL(outfile).href);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
