import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { PlystepError } from '../../src/error.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { NEEDED_WIDTH_DEFAULTS } from '../../src/workshop/needed-width.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { describePair, fixtureOf, foundBy, textAt } from '../support/check-pair.js';

describePair('thin-bridge');

const { svg } = fixtureOf('thin-bridge', 'bad');

describe('thin-bridge', () => {
  it('lists the numbers of the model with their defaults on its page', () => {
    const rows = [...textAt('docs/checks/thin-bridge.md').matchAll(/^\| ([a-z]\w+) \| ([\d.]+) \|/gm)];
    expect(Object.fromEntries(rows.map(([, name, value]) => [name, Number(value)]))).toEqual(
      NEEDED_WIDTH_DEFAULTS,
    );
  });

  it('passes a railing in one sheet and fails it in a stack of four', () => {
    const railing = svg.replace('x="29.5"', 'x="31.6"').replace('>4<', '>N<');
    const found = (sheets: number) =>
      foundBy('thin-bridge', railing.replace('>N<', `>${sheets}<`), { stack: `${sheets}x 3 mm poplar` });
    expect(found(1)).toEqual([]);
    expect(found(4).length).toBeGreaterThan(0);
  });

  it('asks for more where the grain is short, and for less in plywood', () => {
    const needed = (stack: string) => foundBy('thin-bridge', svg, { stack })[0].measured!.needed;
    const unknown = needed('4x 3 mm poplar');
    // The bar between the two openings stands upright.
    expect(needed('4x 3 mm poplar (grain 0)')).toBeGreaterThan(unknown);
    expect(needed('4x 3 mm poplar (grain 90)')).toBeLessThan(unknown);
    expect(needed('4x 3 mm birch plywood')).toBeLessThan(unknown);
  });

  it('takes numbers from the workshop, and a function in the place of the model', () => {
    const stack = parseStack('4x 3 mm poplar');
    const relief = buildRelief(mapRegions(readDrawing(svg)), { stack });
    const least = (options: Parameters<typeof planCuts>[1]) => planCuts(relief, options).bridges[0]?.needed;
    expect(least({ bridges: { perThickness: 2 } })).toBeCloseTo(least({})! + 3, 9);
    expect(planCuts(relief, {}, () => 1).bridges).toEqual([]);
    expect(planCuts(relief, {}, () => 1.6).bridges.map(({ needed }) => needed)).toContain(1.6);
  });

  it.each([{ drift: -1 }, { drift: Number.NaN }, { drifts: 1 }])('refuses %j', (bridges) => {
    const relief = buildRelief(mapRegions(readDrawing(svg)), { stack: parseStack('3 mm oak') });
    expect(() => planCuts(relief, { bridges })).toThrow(PlystepError);
  });
});
