import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { posix } from 'node:path';
import { gzipSync } from 'node:zlib';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/run.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { schemaFaults } from '../output/schemas.js';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

const regionCount = (svg: string): number => mapRegions(readDrawing(svg)).regions.length;

it('explains itself, as a whole and for each command', async () => {
  const whole = await bench.run(['--help']);
  expect(whole.code).toBe(0);
  for (const { name } of COMMANDS) {
    expect(whole.out).toContain(`\n  ${name} `);
    const own = await bench.run([name, '--help']);
    expect(own).toEqual({ ...(await bench.run(['help', name])), code: 0 });
    expect(own.out).toMatch(/^Usage: plystep /);
  }
  for (const text of [
    whole.out,
    ...(await Promise.all(COMMANDS.map(({ name }) => bench.run([name, '--help'])))).map((r) => r.out),
  ]) {
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  }
  expect((await bench.run([])).code).toBe(2);
  expect(await bench.run(['-v'])).toEqual(await bench.run(['--version']));
});

it('lists regions as a table and as JSON that fits its schema', async () => {
  const table = await bench.run(['regions', 'pond.svg']);
  const json = await bench.run(['regions', 'pond.svg', '--format', 'json']);
  expect([table.code, json.code]).toEqual([0, 0]);
  const report = JSON.parse(json.out) as { regions: unknown[] };
  expect(schemaFaults('regions', report)).toEqual([]);
  expect(report.regions.length).toBe(regionCount(bench.text('pond.svg')));
  expect(table.out).toContain(`${report.regions.length} regions`);
});

it('reads standard input, packed drawings and UTF-16 like the file', async () => {
  const expected = (await bench.run(['regions', 'pond.svg', '--format', 'json'])).out;
  const svg = bench.text('pond.svg');
  rmSync(bench.path('pond.plystep.json'));
  writeFileSync(bench.path('packed.svgz'), gzipSync(svg));
  writeFileSync(bench.path('wide.svg'), Buffer.from(`\ufeff${svg}`, 'utf16le'));
  const count = (text: string): number => (JSON.parse(text) as { regions: unknown[] }).regions.length;
  for (const [args, stdin] of [
    [['-'], svg],
    [['packed.svgz'], ''],
    [['wide.svg'], ''],
  ] as const) {
    const result = await bench.run(['regions', ...args, '--format', 'json'], stdin);
    expect(result.code, result.err).toBe(0);
    expect(count(result.out)).toBe(count(expected));
  }
});

it('checks many files, and goes on after one that cannot be read', async () => {
  writeFileSync(bench.path('bare.svg'), bench.text('pond.svg').replace(/<text[^>]*>.*?<\/text>/g, ''));
  const result = await bench.run(['check', 'none.svg', 'pond.svg', 'bare.svg', '--format', 'json']);
  expect(result.code).toBe(2);
  expect(result.err).toContain('none.svg');
  const report = JSON.parse(result.out) as {
    files: { file: string; findings: unknown[] }[];
    summary: { files: number; errors: number };
  };
  expect(schemaFaults('check', report)).toEqual([]);
  expect(report.files.map((file) => file.file)).toEqual(['pond.svg', 'bare.svg']);
  expect(report.summary.errors).toBeGreaterThan(0);
});

it('fails on the level that is asked for', async () => {
  writeFileSync(bench.path('bare.svg'), bench.text('pond.svg').replace(/<text[^>]*>.*?<\/text>/g, ''));
  const code = async (...args: string[]) => (await bench.run(['check', ...args])).code;
  expect(await code('pond.svg')).toBe(0);
  expect(await code('bare.svg')).toBe(1);
  expect(await code('bare.svg', '--fail-on', 'never')).toBe(0);
  expect(await code('pond.svg', '--fail-on', 'warning')).toBe(1);
});

it('writes the plan in the form that the name asks for', async () => {
  for (const name of ['plan.txt', 'plan.json', 'plan.md', 'plan.html']) {
    expect((await bench.run(['plan', 'pond.svg', '--out', name])).code).toBe(0);
  }
  expect(bench.text('plan.html')).toMatch(/^<!doctype html>/i);
  expect(schemaFaults('plan', withoutSeal(bench.text('plan.json')))).toEqual([]);
  expect((await bench.run(['plan', 'pond.svg'])).out).toContain('Setting 1 of ');
});

it('writes sheets in both joints, and removes outdated ones of its own only', async () => {
  await bench.run(['sheets', 'pond.svg', '--out', 'cut']);
  writeFileSync(bench.path('cut/sheet-3.svg'), `${bench.text('cut/sheet-3.svg')}<!-- mine -->`);
  writeFileSync(bench.path('cut/sheet-99.svg'), '<svg/>');
  const result = await bench.run(['sheets', 'pond.svg', '--out', 'cut', '--joint', 'continuous']);
  expect(result.code, result.err).toBe(0);
  expect(readdirSync(bench.path('cut')).sort()).toEqual([
    'add-ons.svg',
    'drawing.svg',
    'index.html',
    'index.json',
    'level-1.svg',
    'level-2.svg',
    'level-3.svg',
    'level-4.svg',
    'sheet-3.svg',
    'sheet-99.svg',
  ]);
});

it('writes a sidecar that reads back as the same job', async () => {
  rmSync(bench.path('pond.plystep.json'));
  const stack = ['--stack', '6 mm walnut, 3x 1/8 in birch'];
  const before = await bench.run(['regions', 'pond.svg', '--format', 'json', ...stack]);
  const made = await bench.run(['overview', 'pond.svg', '--sidecar', ...stack]);
  expect([made.code, made.out]).toEqual([0, '']);
  expect(schemaFaults('sidecar', JSON.parse(bench.text('pond.plystep.json')))).toEqual([]);
  const after = await bench.run(['regions', 'pond.svg', '--format', 'json']);
  const essence = (text: string) => {
    const { regions } = JSON.parse(text) as { regions: { id: string; depth: number; height: number }[] };
    return regions.map(({ id, depth, height }) => [id, depth, height]);
  };
  expect(essence(after.out)).toEqual(essence(before.out));
});

it('does not touch a sidecar that a person has filled in', async () => {
  const mine = bench.text('pond.plystep.json');
  const result = await bench.run(['overview', 'pond.svg', '--sidecar']);
  expect(result.code).toBe(2);
  expect(bench.text('pond.plystep.json')).toBe(mine);
});

it('does the whole job into a folder, twice the same', async () => {
  const first = await bench.run(['job', 'pond.svg', '--out', 'work']);
  expect(first.code, first.err).toBe(0);
  const files = readdirSync(bench.path('work'), { recursive: true }).map(String).sort();
  for (const name of [
    'overview.svg',
    'plan.html',
    'plan.json',
    'plan.txt',
    'regions.json',
    'findings.txt',
    'sheets/sheet-4.svg',
    'sheets/drawing.svg',
    'sheets/index.html',
  ]) {
    expect(files).toContain(name);
    expect(existsSync(bench.path(`work/${name}`))).toBe(true);
  }
  const bytes = (): string[] =>
    files.filter((name) => /\./.test(name)).map((name) => bench.text(`work/${name}`));
  const before = bytes();
  const second = await bench.run(['job', 'pond.svg', '--out', 'work']);
  expect(second).toEqual(first);
  expect(bytes()).toEqual(before);
  expect(first.out).toContain('work/plan.html');
});

it('lists all that a job writes in both indices', async () => {
  await bench.run(['job', 'pond.svg', '--out', 'listed']);
  const written = readdirSync(bench.path('listed'), { recursive: true })
    .map(String)
    .filter((name) => statSync(bench.path(`listed/${name}`)).isFile())
    .sort();
  const isIndex = (name: string): boolean => name.startsWith('sheets/index.');
  const html = bench.text('listed/sheets/index.html');
  const linked = new Set([...html.matchAll(/ href="([^"]*)"/g)].map(([, file]) => file));
  const index = withoutSeal(bench.text('listed/sheets/index.json')) as {
    sheets: { file: string }[];
    files: { file: string }[];
  };
  const named = [...index.sheets, ...index.files].map(({ file }) => file);
  for (const files of [[...linked], named]) {
    const all = files.map((file) => posix.join('sheets', file)).sort();
    expect(all).toEqual(written.filter((name) => !isIndex(name)));
  }
});

it('says so where the stack is only assumed, and gives no heights then', async () => {
  const svg = bench.text('pond.svg');
  const checked = await bench.run(['check', '-', '--format', 'json'], svg);
  expect(checked.out).toContain('stack-assumed');
  const listed = await bench.run(['regions', '-', '--format', 'json'], svg);
  const { regions } = JSON.parse(listed.out) as {
    regions: { height: number | null; depth: number | null }[];
  };
  expect(regions.every((region) => region.height === null)).toBe(true);
  expect(regions.some((region) => region.depth === 4)).toBe(true);
});

it('takes settings from a config, weaker than the sidecar and the command line', async () => {
  rmSync(bench.path('pond.plystep.json'));
  const config = {
    schemaVersion: '1.0',
    joint: 'continuous',
    stack: [{ thickness: 3 }, { thickness: '1/8 in' }, { thickness: 3 }, { thickness: 3 }],
  };
  writeFileSync(bench.path('house.json'), JSON.stringify(config));
  expect(schemaFaults('config', config)).toEqual([]);
  await bench.run(['sheets', 'pond.svg', '--config', 'house.json', '--out', 'a']);
  await bench.run(['sheets', 'pond.svg', '--config', 'house.json', '--joint', 'pieces', '--out', 'b']);
  expect(existsSync(bench.path('a/level-4.svg'))).toBe(true);
  expect(existsSync(bench.path('b/sheet-4.svg'))).toBe(true);
});

it('takes settings of the checks from the config for all drawings, and from a sidecar for its own', async () => {
  const levels = async (): Promise<string[]> => {
    const { out } = await bench.run(['check', 'pond.svg', '--config', 'house.json', '--format', 'json']);
    const { files } = JSON.parse(out) as { files: { findings: { rule: string; level: string }[] }[] };
    return files[0].findings.map(({ rule, level }) => `${rule} ${level}`);
  };
  const write = (name: string, value: unknown): void =>
    writeFileSync(bench.path(name), JSON.stringify(value));
  const piece = { 'small-piece': { level: 'error', smallest: 60 } };
  write('house.json', { schemaVersion: '1.0', checks: { rules: piece } });
  expect(await levels()).toContain('small-piece error');
  const sidecar = JSON.parse(bench.text('pond.plystep.json')) as object;
  const checks = { rules: { 'small-piece': { level: 'note', smallest: 60, reason: 'held with tape' } } };
  write('pond.plystep.json', { ...sidecar, checks });
  expect(schemaFaults('sidecar', { ...sidecar, checks })).toEqual([]);
  const found = await levels();
  expect(found).toContain('small-piece note');
  expect(found).not.toContain('small-piece error');
  write('pond.plystep.json', { ...sidecar, checks: { rules: { 'small-peice': 'off' } } });
  const { code, err, out } = await bench.run(['check', 'pond.svg']);
  expect(code).toBe(2);
  expect(err + out).toContain('pond.plystep.json');
  expect(err + out).toContain('Did you mean "small-piece"?');
});

function withoutSeal(text: string): unknown {
  const { seal: _, ...rest } = JSON.parse(text) as Record<string, unknown>;
  return rest;
}
