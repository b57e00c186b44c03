import { expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { Relief } from '../../src/relief/relief.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { loadFixture, readFixture } from '../fixtures/load-fixture.js';

const SMALL = ['gap', 'lantern', 'railing', 'ring', 'vein', 'window'];

/** Plain data of equal numbers gives an equal plan, whichever points of it are one object. */
function expectSamePlan(relief: Relief): void {
  const again = JSON.parse(JSON.stringify(relief)) as Relief;
  expect(again).toEqual(relief);
  expect(JSON.stringify(planCuts(again))).toBe(JSON.stringify(planCuts(relief)));
}

it.each(['fretwork', 'harbour', 'owl'])('plans %s alike from its text in JSON', (name) => {
  expectSamePlan(loadFixture(name).relief);
});

it('plans the harbour alike with other sheets', () => {
  const { map, sidecar } = loadFixture('harbour');
  const stack = parseStack('6 mm walnut, 3x 3 mm birch');
  expectSamePlan(buildRelief(map, { stack }));
  expectSamePlan(buildRelief(map, { stack, sidecar: sidecar.numbers, joint: 'continuous' }));
});

it.each(SMALL)('plans the drawing %s alike from its text in JSON', (name) => {
  const map = mapRegions(readDrawing(readFixture(`small/${name}.svg`)));
  expectSamePlan(buildRelief(map, { stack: parseStack('4x 3 mm birch') }));
});
