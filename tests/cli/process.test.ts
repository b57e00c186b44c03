import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../structure/source-files.js';
import { Bench } from './run-here.js';

const bench = new Bench();
const main = bench.path('plystep.mjs');

beforeAll(() => bundle('src/cli/main.ts', main));
afterAll(() => bench.clear());

const bundle = (entry: string, outfile: string): void => {
  buildSync({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    nodePaths: [join(ROOT, 'node_modules')],
    logLevel: 'silent',
  });
};

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

it.each(['SIGINT', 'SIGTERM'] as const)(
  'ends work that must not be left half-done before it obeys %s',
  (name) => {
    bundle('src/cli/hold-signals.ts', bench.path('hold.mjs'));
    const script = `
    import { holdSignals } from './hold.mjs';
    const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
    await holdSignals(async (signal) => {
      process.kill(process.pid, '${name}');
      while (!signal.aborted) await wait(5);
      console.log('cleaned up');
    });
    await wait(1000);
    console.log('went on');`;
    const result = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
      cwd: bench.folder,
      encoding: 'utf8',
    });
    expect(result.signal).toBe(name);
    expect(result.stdout).toBe('cleaned up\n');
  },
);

it('refuses millions of crossings soon, and says what to do', () => {
  const places = Array.from({ length: 2_000 }, (_, i) => ((i + 0.5) / 10).toFixed(2));
  const lines = places.map((at) => `M0 ${at}H200M${at} 0V200`).join('');
  writeFileSync(
    bench.path('mesh.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 200 200"><path d="${lines}" stroke="red" fill="none"/></svg>`,
  );
  const result = start(['job', 'mesh.svg', '--stack', '3 mm birch']);
  expect(result.status).toBe(2);
  expect(result.stderr).toMatch(/^plystep: mesh\.svg: .* about 8,000,000 pieces of line .*edgeLimit/);
  expect(result.stderr).toContain('{"schemaVersion":"1.0","map":{"edgeLimit":8800000}}');
  expect(readdirSync(bench.folder)).not.toContain('mesh-job');
});
