import { expect, it } from 'vitest';
import * as plystep from '../src/index.js';
import { readFixture } from './fixtures/load-fixture.js';

const text = readFixture('small/window.svg');
const drawing = plystep.readDrawing(text);
const map = plystep.mapRegions(drawing);
const index = plystep.indexRegions(map);
const stack = plystep.parseStack('3x 3 mm birch');
const relief = plystep.buildRelief(map, { stack });
const plan = plystep.planCuts(relief);
const lines = plystep.packLines([
  [
    [0, 0],
    [9, 9],
  ],
]);
const arrangement = plystep.arrangeLines(lines);
const sidecar = plystep.parseSidecar('{"schemaVersion":"1.0"}');
const sheets = plystep.writeSheets(plan);
const width = { material: 'birch', thickness: 3, heightSawn: 6, kerf: 0.3 };

/** Each public function, with arguments that it takes. */
const CALLS: Readonly<Record<string, readonly unknown[]>> = {
  arrangeLines: [lines, {}],
  arrangeLinesAsync: [lines, {}],
  borderBetween: [map, 0, 1],
  buildRelief: [map, { stack }],
  checkAgain: [relief, plan, {}],
  checkRelief: [relief, plan, {}],
  checkReport: [[]],
  completeMapOptions: [{}],
  completeWorkshop: [{}],
  copiesAtOnce: [plan, 2],
  decodeDrawing: [new TextEncoder().encode(text)],
  edgeCurves: [map, map.edges[0]],
  findRegionAt: [map, index, [1, 1]],
  findRegionsIn: [map, index, [0, 0, 9, 9]],
  formatDepthMark: [{ kind: 'opening' }],
  formatSidecar: [map, 'window.svg', [], {}],
  indexRegions: [map],
  loopCurves: [map, map.regions[0].loops[0]],
  mapRegions: [drawing, {}],
  mapRegionsAsync: [drawing, {}],
  mergeCheckOptions: [{}, {}],
  nearestName: ['wled', ['weld']],
  neededWidth: [width, {}],
  nestingLevel: [map, 0],
  packLines: [[]],
  parseDepthMark: ['3'],
  parseSidecar: ['{"schemaVersion":"1.0"}'],
  parseStack: ['3 mm birch'],
  parseThickness: ['3 mm'],
  pathOut: [map, 0],
  planAgain: [relief, {}],
  planCuts: [relief, {}],
  planReport: [plan, []],
  readCheckOptions: [{}],
  readDrawing: [text, {}],
  readStack: [[{ thickness: 3 }]],
  regionAt: [map, [1, 1]],
  regionFeatures: [map, 0.1],
  regionRings: [map, 0, 0.1],
  regionsAround: [map, 0],
  regionsReport: [relief, []],
  renumber: [relief, {}],
  resolveReadOptions: [{}],
  sheetIndex: [plan, sheets, []],
  sheetIndexHtml: [plan, sheets, 'window', []],
  staleSidecar: [sidecar, 'abc'],
  verifyArrangement: [arrangement],
  verifyRegionMap: [map],
  visibleText: ['<b>words</b>'],
  walkAround: [map, 0],
  writeDrawing: [plan, 'window'],
  writeOverview: [plan, {}],
  writePlanHtml: [plan, {}],
  writePlanMarkdown: [plan, {}],
  writePlanText: [plan, {}],
  writeSheets: [plan, {}],
};

const JUNK: readonly unknown[] = [
  ...[undefined, null, 7, -2, 0.5, Number.NaN, true, '', 'x', Symbol('s'), 9n],
  ...[[], [null], [[]], [[null]], ['x'], [Number.NaN, 1], [0, 0, 0], {}, { kind: 'x' }, { edges: [] }],
  ...[() => 1, new Date(0), new Map(), new Uint8Array(2), drawing, map, relief, plan, index, arrangement],
];

const publicFunctions = Object.entries(plystep).filter(
  ([name, value]) => typeof value === 'function' && name !== 'PlystepError',
) as [string, (...args: unknown[]) => unknown][];

/** What a call threw that is none of plystep's own errors; null where it did not. */
async function foreignError(call: () => unknown): Promise<string | null> {
  try {
    await call();
    return null;
  } catch (error) {
    return error instanceof plystep.PlystepError ? null : String(error);
  }
}

it('knows every public function', () => {
  expect(Object.keys(CALLS).sort()).toEqual(publicFunctions.map(([name]) => name).sort());
});

it.each(publicFunctions)('%s takes what it is meant for', async (name, call) => {
  await call(...CALLS[name]);
});

it.each(publicFunctions)('%s meets junk with an error of its own, or takes it', async (name, call) => {
  expect(await foreignError(() => call())).toBeNull();
  for (const [place] of CALLS[name].entries()) {
    for (const [kind, junk] of JUNK.entries()) {
      const args = CALLS[name].map((good, i) => (i === place ? junk : good));
      const found = await foreignError(() => call(...args));
      expect(found === null ? null : `argument ${place}, junk ${kind}: ${found}`).toBeNull();
    }
  }
});
