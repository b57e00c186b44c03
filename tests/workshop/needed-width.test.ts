import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NEEDED_WIDTH_DEFAULTS, neededWidth, strengthAt } from '../../src/workshop/needed-width.js';
import { textOf } from '../structure/source-files.js';

const one = { material: 'poplar', thickness: 3, heightSawn: 3, kerf: 0.4 };

describe('neededWidth', () => {
  it('is the thickness of the sheet, the kerf and the drift, for the reference wood', () => {
    expect(neededWidth(one)).toBeCloseTo(3 + 0.4 + 2 * 0.02 * 3, 12);
  });

  it('asks for more in a higher stack: a railing passes alone and fails in a stack of four', () => {
    const railing = 3.6;
    expect(neededWidth(one)).toBeLessThan(railing);
    expect(neededWidth({ ...one, heightSawn: 12 })).toBeGreaterThan(railing);
  });

  it('asks for more where the grain is short', () => {
    const along = neededWidth({ ...one, grainAngle: 0 });
    const across = neededWidth({ ...one, grainAngle: 90 });
    expect(along).toBeLessThan(neededWidth(one));
    expect(across).toBeGreaterThan(neededWidth(one));
  });

  it('asks for less in plywood, whatever the angle', () => {
    const ply = { ...one, material: 'birch plywood' };
    expect(neededWidth(ply)).toBeLessThan(neededWidth(one));
    expect(neededWidth({ ...ply, grainAngle: 90 })).toBe(neededWidth({ ...ply, grainAngle: 0 }));
  });

  it('leaves out the kerf of a side that is not sawn', () => {
    expect(neededWidth({ ...one, sawnSides: 0 })).toBeCloseTo(3, 12);
    expect(neededWidth({ ...one, sawnSides: 1 })).toBeCloseTo(3 + 0.2 + 0.06, 12);
  });

  it('keeps the least width of thin sheets', () => {
    const veneer = { material: 'poplar', thickness: 0.6, heightSawn: 0, kerf: 0 };
    expect(neededWidth(veneer)).toBe(NEEDED_WIDTH_DEFAULTS.least);
    expect(neededWidth(veneer, { least: 2 })).toBe(2);
  });

  it('never asks for less when thickness, height, kerf or grain angle grow', () => {
    const positive = fc.double({ min: 0.1, max: 30, noNaN: true });
    const material = fc.constantFrom('basswood', 'white oak', 'maple', 'plywood', 'unheard-of');
    fc.assert(
      fc.property(
        material,
        positive,
        positive,
        positive,
        fc.integer({ min: 0, max: 90 }),
        (m, t, h, k, a) => {
          const base = { material: m, thickness: t, heightSawn: h, kerf: k, grainAngle: a };
          const width = neededWidth(base);
          expect(neededWidth({ ...base, thickness: t + 1 })).toBeGreaterThanOrEqual(width);
          expect(neededWidth({ ...base, heightSawn: h + 1 })).toBeGreaterThan(width);
          expect(neededWidth({ ...base, kerf: k + 1 })).toBeGreaterThan(width);
          expect(neededWidth({ ...base, grainAngle: Math.min(90, a + 1) })).toBeGreaterThanOrEqual(width);
        },
      ),
    );
  });
});

describe('strengthAt', () => {
  it('takes an unknown material for the reference wood', () => {
    expect(strengthAt('moon cheese', 30, 0.045)).toBe(strengthAt('poplar', 30, 0.045));
  });
});

it('asks for what the table in its guide says', () => {
  const table = textOf('docs/narrow-places.md').matchAll(
    /^\| ([a-z ]+) \| ([\d.]+ \/ [\d.]+) \| ([\d. /]+) \| ([\d. /]+) \|$/gm,
  );
  const rows = [...table];
  expect(rows.length).toBe(9);
  for (const [, material, ...cells] of rows) {
    const asked = [0, 45, 90].map((grainAngle) =>
      [3, 6]
        .map((t) => neededWidth({ material, thickness: t, heightSawn: t, kerf: 0.41, grainAngle }).toFixed(1))
        .join(' / '),
    );
    expect(cells).toEqual(asked);
  }
});
