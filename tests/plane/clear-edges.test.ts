import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { clearEdges } from '../../src/plane/clear-edges.js';
import { collectLines } from '../../src/plane/collect-lines.js';
import { withoutEdges } from '../../src/plane/copy-edges.js';
import { hiddenEdges, hidingShapes } from '../../src/plane/hidden-lines.js';
import { mapLines } from '../../src/plane/map-lines.js';
import { MAP_DEFAULTS } from '../../src/plane/map-regions.js';
import { type Net, sideNet } from '../../src/plane/net.js';
import { finish } from '../../src/plane/steps.js';

const side = fc.integer({ min: 4, max: 30 });
const place = fc.integer({ min: 0, max: 120 });
const paint = fc.constantFrom(
  'fill="none" stroke="#000"',
  'fill="#fff" stroke="#000"',
  'fill="#fff"',
  'fill="#fff" stroke="#000" fill-rule="evenodd"',
);
const shape = fc.oneof(
  fc.tuple(place, place, side, side, paint).map(([x, y, w, h, p]) => {
    return `<rect x="${x}" y="${y}" width="${w}" height="${h}" ${p}/>`;
  }),
  fc.tuple(place, place, side, paint).map(([x, y, r, p]) => `<circle cx="${x}" cy="${y}" r="${r}" ${p}/>`),
  fc.tuple(place, place, place, place, paint).map(([a, b, c, d, p]) => {
    return `<path d="M${a} ${b}L${c} ${d} ${b} ${a} ${d} ${c}" ${p}/>`;
  }),
);

/** All lines of a drawing, hidden or not, and what of them is told hidden: by the whole net, and by its part. */
function hiddenBoth(svg: string) {
  const input = collectLines(readDrawing(svg), new Set());
  const options = { ...MAP_DEFAULTS, hiddenLines: 'keep', gap: 0, sliver: 0 } as const;
  // A line that does not cut is dropped without being looked at, so here all cut.
  const curves = input.curves.map((curve) => ({ ...curve, cuts: true }));
  const { net } = finish(mapLines({ ...input, curves }, options)).faced;
  const hiddenIn = (part: Net): Uint8Array => {
    const sided = finish(sideNet(part, part));
    const top = finish(hidingShapes(sided, input.curves, input.hides, input.evenOdd));
    return finish(hiddenEdges(sided, input.curves, top, input.fillOnly)).drop;
  };
  const { clear, count } = clearEdges(net, input.curves, input.hides);
  const inPart = hiddenIn(finish(withoutEdges(net, clear)));
  let at = 0;
  const byPart = [...clear].map((isClear) => (isClear === 1 ? 0 : inPart[at++]));
  return { clear, count, byWhole: [...hiddenIn(net)], byPart };
}

const svgOf = (shapes: readonly string[]): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="160mm" height="160mm" viewBox="0 0 160 160">${shapes.join('')}</svg>`;

describe('edges clear of all fills', () => {
  test('what covers the others is the same without them', () => {
    fc.assert(
      fc.property(fc.array(shape, { minLength: 1, maxLength: 12 }), (shapes) => {
        const { byWhole, byPart } = hiddenBoth(svgOf(shapes));
        expect(byPart).toEqual(byWhole);
      }),
      { numRuns: 60 },
    );
  });

  test('only what meets the box of a fill, or does not cut, is not clear', () => {
    const far = '<path d="M0 100H120" stroke="#000"/>';
    const across = '<path d="M0 20H120" stroke="#000"/>';
    const fill = '<circle cx="30" cy="30" r="20" fill="#fff"/>';
    const { clear, count, byWhole } = hiddenBoth(svgOf([far, across, fill]));
    // The line far away, whole; the circle crosses the other one twice, and all of that meets the box.
    expect(count).toBe(1);
    expect([...clear].filter((is) => is === 1)).toHaveLength(count);
    expect(byWhole.filter((is) => is === 1)).toHaveLength(1);
  });

  test('without fills all that cuts is clear', () => {
    const lines = [
      '<path d="M0 20H120" stroke="#000"/>',
      '<circle cx="30" cy="30" r="20" stroke="#000" fill="none"/>',
    ];
    const { clear, count } = hiddenBoth(svgOf(lines));
    expect(count).toBe(clear.length);
  });
});
