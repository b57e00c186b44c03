import { describe, expect, it } from 'vitest';
import * as plystep from '../src/index.js';
import { loadFixture, readFixture } from './fixtures/load-fixture.js';

const text = readFixture('small/window.svg');
const drawing = plystep.readDrawing(text);
const map = plystep.mapRegions(drawing);
const stack = plystep.parseStack('3x 3 mm birch');
const relief = plystep.buildRelief(map, { stack });
const plan = plystep.planCuts(relief);

/** Calls a function as a program without types would. */
function call(name: string, ...args: unknown[]): unknown {
  return (plystep as unknown as Record<string, (...given: unknown[]) => unknown>)[name](...args);
}

/** The error of a call, which must be one of plystep's own. */
function errorOf(name: string, ...args: unknown[]): plystep.PlystepError {
  try {
    call(name, ...args);
  } catch (error) {
    expect(error).toBeInstanceOf(plystep.PlystepError);
    return error as plystep.PlystepError;
  }
  throw new Error(`${name} took ${String(args)}`);
}

/** Each function with arguments that it takes. */
const GOOD: readonly (readonly [name: string, ...args: unknown[]])[] = [
  ['readDrawing', text, {}],
  ['mapRegions', drawing, {}],
  ['buildRelief', map, { stack }],
  ['renumber', relief, {}],
  ['planCuts', relief, {}],
  ['checkRelief', relief, plan, {}],
  ['writeSheets', plan, {}],
  ['writeOverview', plan, {}],
  ['writePlanHtml', plan, {}],
  ['writePlanText', plan, {}],
  ['writePlanMarkdown', plan, {}],
  ['planReport', plan, []],
  ['regionsReport', relief],
  ['writeDrawing', plan],
  ['parseStack', '3 mm birch'],
  ['parseSidecar', '{"schemaVersion":"1.0"}'],
  ['parseDepthMark', '3'],
  ['decodeDrawing', new TextEncoder().encode(text)],
  ['neededWidth', { material: 'birch', thickness: 3, heightSawn: 6, kerf: 0.3 }, {}],
];

const BAD = [undefined, null, 7, true, [], {}, () => 1, Promise.resolve(text), new Uint16Array(2)];

// A table of vitest would print the arguments, and a plan is long.
for (const [name, ...args] of GOOD)
  describe(name, () => {
    it('takes what it is meant for', () => {
      expect(() => call(name, ...args)).not.toThrow();
    });

    it('refuses another first argument with an error of its own', () => {
      const others = [drawing, map, relief, plan].filter((stage) => stage !== args[0]);
      for (const bad of BAD) expect(errorOf(name, bad, ...args.slice(1)).code).toMatch(/^bad-|not-xml/);
      const taken: Record<string, unknown[]> = {
        writeSheets: [plan],
        writeOverview: [map, relief],
        regionsReport: [map],
      };
      for (const bad of others) {
        if (taken[name]?.includes(bad)) continue;
        expect(errorOf(name, bad, ...args.slice(1)).message).toContain(`${name}: `);
      }
    });

    it('refuses options that are no object', () => {
      if (args.length < 2) return;
      for (const bad of [null, 7, 'x'])
        expect(errorOf(name, ...args.slice(0, -1), bad).code).toBe('bad-option');
    });
  });

it('says what was wanted, what came, and what to do', () => {
  expect(errorOf('readDrawing', new Uint8Array(3)).message).toBe(
    'readDrawing: text must be a text, and bytes was given; for bytes use decodeDrawing.',
  );
  expect(errorOf('planCuts', map).message).toBe(
    'planCuts: a relief (from buildRelief) is needed, and a region map was given.',
  );
  expect(errorOf('mapRegions', drawing, { wled: 1 }).message).toContain('Did you mean "weld"?');
  expect(errorOf('readDrawing', text, { limits: { dept: 1 } }).message).toContain('Did you mean "depth"?');
  expect(errorOf('readDrawing', text, { limits: null }).code).toBe('bad-option');
});

it('refuses asynchronous mapping by a rejected promise', async () => {
  const run = plystep.mapRegionsAsync as unknown as (...args: unknown[]) => Promise<unknown>;
  await expect(run(null)).rejects.toBeInstanceOf(plystep.PlystepError);
  await expect(run(drawing, null)).rejects.toMatchObject({ code: 'bad-option' });
  await expect(run(drawing, { slivr: 1 })).rejects.toMatchObject({ code: 'bad-option' });
});

it.each([Number.NaN, -50, Number.POSITIVE_INFINITY, '5'])('refuses the margin %s', (margin) => {
  expect(errorOf('writeSheets', plan, { margin }).code).toBe('bad-option');
});

describe.each(['sheetIndex', 'sheetIndexHtml'])('%s', (name) => {
  const sheets = plystep.writeSheets(plan);
  const title = name === 'sheetIndexHtml' ? ['x'] : [];

  it('takes sheets of its relief, and files', () => {
    expect(() => call(name, plan, sheets, ...title)).not.toThrow();
    expect(() => call(name, plan, sheets, ...title, [{ file: 'a', what: 'b' }])).not.toThrow();
  });

  it('refuses everything else with an error of its own', () => {
    for (const bad of [...BAD, drawing, map, relief]) {
      expect(errorOf(name, bad, sheets, ...title).message).toContain(`${name}: `);
    }
    for (const bad of [null, 7, 'x', {}, [null], [7], [{}], [{ name: 'a', title: 'b', sheet: 's9' }]]) {
      expect(errorOf(name, plan, bad, ...title).code).toBe('bad-option');
    }
    for (const bad of [null, 7, 'x', {}, [null], ['x'], [{ file: 'a' }]]) {
      expect(errorOf(name, plan, sheets, ...title, bad).code).toBe('bad-option');
    }
  });
});

it('refuses titles that are no text', () => {
  for (const bad of [null, 7, {}, ['x']]) {
    expect(errorOf('writeDrawing', plan, bad).code).toBe('bad-option');
    expect(errorOf('sheetIndexHtml', plan, [], bad).code).toBe('bad-option');
  }
});

it.each([[[null]], [[7]], [['x']], [[{}]], [[{ rule: 'a', level: 'note' }]]])(
  'refuses the findings %j',
  (findings) => {
    for (const name of ['writePlanHtml', 'writePlanText', 'writePlanMarkdown']) {
      expect(errorOf(name, plan, { findings }).code).toBe('bad-option');
    }
    expect(errorOf('planReport', plan, findings).code).toBe('bad-option');
    expect(errorOf('regionsReport', map, findings).code).toBe('bad-option');
    expect(errorOf('checkReport', [{ file: 'a', regions: 1, findings }]).code).toBe('bad-option');
  },
);

it('refuses words that joint and frame do not know', () => {
  expect(errorOf('buildRelief', map, { stack, joint: 'x' }).message).toContain('pieces or continuous');
  expect(errorOf('buildRelief', map, { stack, frame: 'y' }).message).toContain('cut or board-edge');
  expect(errorOf('renumber', relief, { joint: 'x' }).code).toBe('bad-option');
});

it.each([
  [{}],
  [[null]],
  [[7]],
  [[{ region: 99, depth: 1 }]],
  [[{ at: [Number.NaN, 1], depth: 1 }]],
  [[{ at: 'here', depth: 1 }]],
  [[{ region: 'r1' }]],
  [[{ region: 'r1', depth: Number.NaN }]],
  [[{ region: 'r1', depth: 1, face: 3 }]],
  [[{ region: 'r1', depth: 1, extra: 's1' }]],
  [[{ region: 'r1', depth: 1, substitute: ['s1'] }]],
])('refuses the numbers %j', (numbers) => {
  expect(errorOf('buildRelief', map, { stack, numbers }).code).toBe('bad-number');
  expect(errorOf('buildRelief', map, { stack, sidecar: numbers }).code).toBe('bad-number');
  expect(errorOf('renumber', relief, { numbers }).code).toBe('bad-number');
});

it.each(['x', 1.5])('finds the depth %s, which is no number of sheets', (depth) => {
  const wrong = plystep.buildRelief(map, { stack, numbers: [{ region: 'r1', depth }] });
  expect(plystep.checkRelief(wrong).map(({ rule }) => rule)).toContain('number-unreadable');
});

it('takes all that the fixtures give', () => {
  expect(loadFixture('harbour').relief.regions.length).toBeGreaterThan(100);
});

it('refuses a sliver tolerance that would take whole regions for slivers', () => {
  expect(errorOf('mapRegions', drawing, { sliver: 1000 }).message).toContain('from 0 to 10');
});
