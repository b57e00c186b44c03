import { rmSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { regionAt } from '../../src/plane/region-at.js';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

interface Entry {
  at?: [number, number];
  region?: string;
  depth: string | null;
  id?: string;
}
interface File {
  numbers: Entry[];
  [key: string]: unknown;
}

const read = (name: string): File => JSON.parse(bench.text(name)) as File;
const write = (name: string, value: unknown): void =>
  writeFileSync(bench.path(name), JSON.stringify(value, null, 2));

const drawing = (lines: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g fill="none" stroke="#000">${lines}</g></svg>`;
const RECT = '<rect x="10" y="10" width="80" height="80"/>';
const addOn = (r: number, cx = 50): string => `<circle data-depth="+" cx="${cx}" cy="50" r="${r}"/>`;

async function roundTrip(lines: string): Promise<{ svg: string; entries: Entry[]; checked: string }> {
  const svg = drawing(lines);
  writeFileSync(bench.path('a.svg'), svg);
  rmSync(bench.path('a.plystep.json'), { force: true });
  expect((await bench.run(['overview', 'a.svg', '--sidecar', '--stack', '2x 3 mm birch'])).code).toBe(0);
  const made = read('a.plystep.json');
  const numbers = made.numbers.map((entry) => ({ ...entry, depth: entry.depth ?? '1' }));
  write('a.plystep.json', { ...made, numbers });
  const checked = await bench.run(['check', 'a.svg']);
  expect(checked.code, checked.out).toBe(0);
  return { svg, entries: made.numbers, checked: checked.out };
}

it.each([
  ['in the middle of a region', RECT + addOn(20)],
  ['that leaves a rim alone', RECT + addOn(39.5)],
  ['that leaves the corners alone', RECT + addOn(50)],
  ['over the border of two regions', `${RECT}<path d="M50 10V90"/>${addOn(34)}`],
  ['twice', RECT + addOn(12, 50) + addOn(12, 20)],
])('writes points that are read back where they belong: an add-on %s', async (_, lines) => {
  const { svg, entries, checked } = await roundTrip(lines);
  const map = mapRegions(readDrawing(svg));
  expect(entries.map((entry) => map.regions[regionAt(map, entry.at!)].id)).toEqual(
    map.regions.map(({ id }) => id),
  );
  expect(checked).toContain(' 0 errors');
  expect(checked).not.toMatch(/number-(conflict|missing|unplaced)|add-on-number/);
});

it('names a region that add-ons cover wholly by its id, which is read too', async () => {
  const inner = '<rect x="40" y="40" width="20" height="20"/>';
  const { entries, checked } = await roundTrip(RECT + inner + addOn(30));
  expect(entries.filter((entry) => entry.at === undefined)).toHaveLength(1);
  expect(checked).not.toMatch(/number-(conflict|missing|unplaced)|add-on-number/);
});

it('adds no finding to the drawing of the guide', async () => {
  const before = await bench.run(['check', 'pond.svg']);
  expect((await bench.run(['overview', 'pond.svg', '--sidecar', '--force'])).code).toBe(0);
  expect(await bench.run(['check', 'pond.svg'])).toEqual(before);
});

it('keeps notes and settings of the checks, and refuses where an entry holds more than a number', async () => {
  const old = read('pond.plystep.json');
  const own = { note: ['oiled'], checks: { rules: { 'small-piece': { level: 'note', reason: 'taped' } } } };
  write('pond.plystep.json', { ...old, ...own });
  expect((await bench.run(['overview', 'pond.svg', '--sidecar', '--force'])).code).toBe(0);
  expect(read('pond.plystep.json')).toMatchObject(own);
  expect((await bench.run(['check', 'pond.svg'])).code).toBe(0);
  for (const more of [{ name: 'sky' }, { note: 'later' }, { extra: ['s4'] }]) {
    write('pond.plystep.json', { ...old, numbers: [{ at: [74, 20], depth: null, ...more }] });
    const before = bench.text('pond.plystep.json');
    const refused = await bench.run(['overview', 'pond.svg', '--sidecar', '--force']);
    expect(refused.code).toBe(2);
    expect(refused.err).toContain(`holds a "${Object.keys(more)[0]}"`);
    expect(bench.text('pond.plystep.json')).toBe(before);
  }
});
