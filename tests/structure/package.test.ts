import { spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { VERSION } from '../../src/version.js';
import { ROOT, textOf } from './source-files.js';

const TIME = 180_000;
const TSC = join(ROOT, 'node_modules/typescript/bin/tsc');
const work = mkdtempSync(join(tmpdir(), 'plystep-package-'));
const consumer = join(work, 'consumer');
let packed: string[] = [];

/** Builds and packs the package, and lays it out in a consumer's node_modules as an install would. */
beforeAll(() => {
  const made = join(work, 'made');
  mkdirSync(made);
  // Types are checked by `npm run typecheck`; here only the output counts.
  run(process.execPath, [TSC, '-p', 'tsconfig.json', '--noCheck', '--outDir', join(made, 'dist')], ROOT);
  for (const name of ['package.json', 'README.md', 'LICENSE', 'CHANGELOG.md', 'docs', 'shared']) {
    cpSync(join(ROOT, name), join(made, name), { recursive: true });
  }
  const [report] = JSON.parse(
    run('npm', ['pack', '--json', '--pack-destination', work], made),
  ) as PackReport[];
  packed = report.files.map((file) => file.path);
  const modules = join(consumer, 'node_modules');
  mkdirSync(modules, { recursive: true });
  run('tar', ['-xzf', join(work, report.filename), '-C', modules], work);
  renameSync(join(modules, 'package'), join(modules, 'plystep'));
  for (const name of readdirSync(join(ROOT, 'node_modules'))) {
    if (name.startsWith('.')) continue;
    symlinkSync(join(ROOT, 'node_modules', name), join(modules, name));
  }
  writeFileSync(join(consumer, 'package.json'), '{"type":"module"}');
}, TIME);

afterAll(() => rmSync(work, { recursive: true, force: true }));

interface PackReport {
  readonly filename: string;
  readonly files: readonly { readonly path: string }[];
}

function run(command: string, args: string[], cwd: string): string {
  const result = spawnSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
  if (result.status !== 0) throw new Error(`${command} ${args.join(' ')}\n${result.stdout}${result.stderr}`);
  return result.stdout;
}

it('packs what a user needs and nothing else', () => {
  for (const path of [
    'dist/src/index.js',
    'dist/src/index.d.ts',
    'dist/src/cli/main.js',
    'README.md',
    'LICENSE',
    'CHANGELOG.md',
    'shared/schema/sidecar.json',
  ]) {
    expect(packed).toContain(path);
  }
  const odd = packed.filter(
    (path) => !/^(dist\/(src|shared)\/|shared\/|docs\/|README|LICENSE|CHANGELOG|package\.json)/.test(path),
  );
  expect(odd).toEqual([]);
  expect(packed.filter((path) => /\.map$|\.test\./.test(path))).toEqual([]);
});

it('can be imported after installing', () => {
  const script = "import * as p from 'plystep'; console.log(Object.keys(p).length > 20, p.VERSION)";
  expect(run(process.execPath, ['--input-type=module', '-e', script], consumer).trim()).toBe(
    `true ${VERSION}`,
  );
  const schema = "import s from 'plystep/schema/regions.json' with { type: 'json' }; console.log(s.type)";
  const args = ['--no-warnings', '--input-type=module', '-e', schema];
  expect(run(process.execPath, args, consumer).trim()).toBe('object');
});

it('has a command that runs', () => {
  const { bin } = JSON.parse(textOf('package.json')) as { bin: { plystep: string } };
  const main = join(consumer, 'node_modules/plystep', bin.plystep);
  expect(existsSync(main)).toBe(true);
  expect(run(process.execPath, [main, '--version'], consumer).trim()).toBe(VERSION);
});

it('has types that hold without our settings', { timeout: TIME }, () => {
  const source = `
    import { mapRegions, type Finding, readDrawing, type RegionMap } from 'plystep';
    const map: RegionMap = mapRegions(readDrawing('<svg xmlns="http://www.w3.org/2000/svg"/>'));
    const levels: readonly Finding['level'][] = map.findings.map((finding) => finding.level);
    // @ts-expect-error an id is text
    const wrong: number = map.regions[0]!.id;
    console.log(levels, wrong);
  `;
  writeFileSync(join(consumer, 'use.ts'), source);
  const compilerOptions = {
    noEmit: true,
    strict: true,
    exactOptionalPropertyTypes: true,
    noUncheckedIndexedAccess: true,
    target: 'es2022',
    module: 'nodenext',
    lib: ['es2023', 'dom'],
    types: [],
  };
  writeFileSync(join(consumer, 'tsconfig.json'), JSON.stringify({ compilerOptions, files: ['use.ts'] }));
  expect(run(process.execPath, [TSC, '-p', '.'], consumer)).toBe('');
});
