import { writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DEFAULT_READ_LIMITS, DEFAULT_READ_OPTIONS, MAP_DEFAULTS } from '../../src/index.js';
import { schemaFaults } from '../output/schemas.js';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

describe('a stack in words', () => {
  const words = '6 mm walnut, 3x 3 mm birch';
  const sheetsOf = async (...more: string[]): Promise<unknown> => {
    const { code, out, err } = await bench.run(['plan', 'pond.svg', '--format', 'json', ...more]);
    expect(code, err).toBeLessThan(2);
    return (JSON.parse(out) as { stack: unknown }).stack;
  };

  it('is read alike on the command line, in a stack file, in settings and in a sidecar', async () => {
    const wanted = await sheetsOf('--stack', words);
    expect(wanted).toHaveLength(4);
    writeFileSync(bench.path('stack.json'), JSON.stringify(words));
    expect(await sheetsOf('--stack', 'stack.json')).toEqual(wanted);
    const sidecar = JSON.parse(bench.text('pond.plystep.json')) as object;
    writeFileSync(bench.path('pond.plystep.json'), JSON.stringify({ ...sidecar, stack: words }));
    expect(await sheetsOf()).toEqual(wanted);
    writeFileSync(bench.path('pond.plystep.json'), JSON.stringify({ ...sidecar, stack: [] }));
    writeFileSync(bench.path('house.json'), JSON.stringify({ schemaVersion: '1.0', stack: words }));
    expect(await sheetsOf('--config', 'house.json')).toEqual(wanted);
  });

  it.each([
    ['3,2 mm birch', /3\.2 mm birch/],
    ['6 mm walnut, thick oak', /"thick oak" is no sheet/],
    ['', /The stack is empty/],
    [['6 mm walnut'], /Sheet 1 is not an object.*one text/],
    [7, /A stack is a list of sheets.*or one text/],
  ])('has the same errors everywhere: %j', async (stack, expected) => {
    const sidecar = JSON.parse(bench.text('pond.plystep.json')) as object;
    writeFileSync(bench.path('stack.json'), JSON.stringify(stack));
    const inFile = await bench.run(['plan', 'pond.svg', '--stack', 'stack.json']);
    writeFileSync(bench.path('house.json'), JSON.stringify({ schemaVersion: '1.0', stack }));
    const inConfig = await bench.run(['plan', 'pond.svg', '--config', 'house.json']);
    writeFileSync(bench.path('pond.plystep.json'), JSON.stringify({ ...sidecar, stack }));
    const inSidecar = await bench.run(['plan', 'pond.svg']);
    for (const [{ code, err }, file, place] of [
      [inFile, 'stack.json', 'the top of the file'],
      [inConfig, 'house.json', '/stack'],
      [inSidecar, 'pond.plystep.json', '/stack'],
    ] as const) {
      expect(code).toBe(2);
      expect(err).toMatch(expected);
      expect(err).toMatch(
        new RegExp(`^plystep: ${file.replaceAll('.', '\\.')}: .*\\(at ${place}(, character \\d+)?\\)`),
      );
      expect(err).toContain('--stack "6 mm walnut');
    }
  });

  it('is allowed by the schemas', () => {
    const file = { schemaVersion: '1.0', stack: words };
    expect(schemaFaults('config', file)).toEqual([]);
    expect(schemaFaults('sidecar', file)).toEqual([]);
  });
});

it('knows in its schema the settings of reading that the reader knows', () => {
  const read = { ...DEFAULT_READ_OPTIONS, limits: DEFAULT_READ_LIMITS };
  expect(schemaFaults('config', { schemaVersion: '1.0', read, map: MAP_DEFAULTS })).toEqual([]);
  expect(schemaFaults('config', { schemaVersion: '1.0', read: { dashd: 'cut' } })).toHaveLength(1);
});
