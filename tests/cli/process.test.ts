import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../structure/source-files.js';
import { Bench } from './run-here.js';

const bench = new Bench();
const main = bench.path('plystep.mjs');

beforeAll(() => {
  buildSync({
    absWorkingDir: ROOT,
    entryPoints: ['src/cli/main.ts'],
    outfile: main,
    bundle: true,
    platform: 'node',
    format: 'esm',
    nodePaths: [join(ROOT, 'node_modules')],
    logLevel: 'silent',
  });
});
afterAll(() => bench.clear());

const start = (args: string[], input?: string) =>
  spawnSync(process.execPath, [main, ...args], {
    cwd: bench.folder,
    encoding: 'utf8',
    ...(input === undefined ? {} : { input }),
  });

it('works as a program: arguments, standard input and output, exit code', () => {
  const result = start(['regions', '-', '--format', 'json'], bench.text('pond.svg'));
  expect(result.status, result.stderr).toBe(0);
  const { regions } = JSON.parse(result.stdout) as { regions: unknown[] };
  expect(regions.length).toBeGreaterThan(10);
  expect(start(['regions', 'none.svg']).status).toBe(2);
});

it('writes large documents to a pipe whole', () => {
  const direct = start(['regions', 'pond.svg', '--format', 'json']);
  expect(direct.stdout.trimEnd().endsWith('}')).toBe(true);
});

it('ends quietly when the reader of its pipe has seen enough', () => {
  const line = `"${process.execPath}" "${main}" overview pond.svg | head -c 10`;
  const result = spawnSync('sh', ['-c', line], { cwd: bench.folder, encoding: 'utf8' });
  expect(result.stdout).toHaveLength(10);
  expect(result.stderr).not.toMatch(/EPIPE|Error/);
});

it('says so and fails where standard output cannot be written', () => {
  const line = `"${process.execPath}" "${main}" overview pond.svg > /dev/full`;
  const result = spawnSync('sh', ['-c', line], { cwd: bench.folder, encoding: 'utf8' });
  expect(result.status).toBe(2);
  expect(result.stderr).toMatch(/^plystep: standard output: could not write it: the disk is full/);
  expect(result.stderr.trim().split('\n')).toHaveLength(1);
});

it("keeps the command's own exit code where nobody reads its pipe", () => {
  writeFileSync(bench.path('bare.svg'), bench.text('pond.svg').replace(/<text[^>]*>.*?<\/text>/g, ''));
  const line = `{ "${process.execPath}" "${main}" check bare.svg; echo "code $?" >&2; } | true`;
  const result = spawnSync('sh', ['-c', line], { cwd: bench.folder, encoding: 'utf8' });
  expect(result.stderr).toBe('code 1\n');
});
