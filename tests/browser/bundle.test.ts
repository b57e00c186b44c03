import { isBuiltin } from 'node:module';
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { beforeAll, expect, it } from 'vitest';
import * as plystep from '../../src/index.js';
import { ROOT, textOf } from '../structure/source-files.js';
import { bundleForBrowser, WHOLE_LINE } from './bundle.js';

const text = textOf('docs/examples/pond.svg');
const stack = '6 mm walnut, 3x 3 mm birch';

/** Most that the whole library may weigh, packed with gzip: a quarter above what docs/dependencies.md states. */
const MOST_PACKED = 257_000;

let bundle: Awaited<ReturnType<typeof bundleForBrowser>>;

beforeAll(async () => {
  bundle = await bundleForBrowser(ROOT);
});

it('bundles without any Node built-in', () => {
  expect(bundle.inputs.length).toBeGreaterThan(50);
  expect(bundle.inputs.filter((path) => path.startsWith('src/cli/'))).toEqual([]);
  expect(bundle.imports.filter((path) => isBuiltin(path))).toEqual([]);
  expect(gzipSync(bundle.code).length).toBeLessThan(MOST_PACKED);
});

it('runs where there is nothing but the language, with the same result as here', () => {
  const bare = createContext({ text, stack });
  runInContext(bundle.code, bare);
  const there: unknown = JSON.parse(runInContext(WHOLE_LINE, bare) as string);
  const here: unknown = JSON.parse(
    new Function('plystep', 'text', 'stack', `return ${WHOLE_LINE.trim()}`)(plystep, text, stack) as string,
  );
  expect(there).toEqual(here);
});
