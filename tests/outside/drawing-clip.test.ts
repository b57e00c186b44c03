import { expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { pointAt } from '../../src/geometry/curve.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import { randomSource } from '../support/random.js';
import { differingPart, fillsOf, pixelsOf } from './drawing/raster.js';
import { BOXY_KINDS, colorOf, randomShapes, SCENE, scene } from './drawing/scenes.js';

// Reference: @resvg/resvg-js, which clips while it paints. Clip paths of random shapes, some of them clipped
// themselves, on random shapes: what we say is filled, painted, must give the same picture.

const SIDE = 400;

/** Of 400² pixels, for edges that run through pixels: about 3000 pixels lie on edges in such a scene. */
const SAME_PICTURE = 0.0015;

function clippedScene(seed: number): string {
  const random = randomSource(seed);
  const rule = (i: number): string => (i % 2 === 0 ? 'clip-rule="evenodd"' : '');
  const inner = `<clipPath id="b">${randomShapes(2, random, () => '')}</clipPath>`;
  const outer = `<clipPath id="a" ${seed % 3 === 0 ? 'clip-path="url(#b)"' : ''}>${randomShapes(3, random, rule)}</clipPath>`;
  const box =
    '<clipPath id="c" clipPathUnits="objectBoundingBox"><circle cx=".5" cy=".5" r=".45"/></clipPath>';
  // The reference measures boxes by control points.
  const boxed = randomShapes(2, random, (i) => `fill="${colorOf(i + 1)}" clip-path="url(#c)"`, BOXY_KINDS);
  const shapes = boxed + randomShapes(5, random, (i) => `fill="${colorOf(i + 11)}"`);
  return scene(`<defs>${inner}${outer}${box}</defs><g clip-path="url(#a)">${shapes}</g>`);
}

test.each(Array.from({ length: 40 }, (_, i) => i))('clipped fills, seed %i', (seed) => {
  const text = clippedScene(seed);
  const part = differingPart(pixelsOf(text, SIDE), pixelsOf(fillsOf(readDrawing(text)), SIDE));
  expect(part).toBeLessThan(SAME_PICTURE);
});

/** mm; the two pictures' pixels are 0.25 mm wide. */
const PIXEL = SCENE / SIDE;

const seeds = Array.from({ length: 20 }, (_, i) => i);

test('clipped lines show where the clip lets them', () => {
  const counts = seeds.map(countShown);
  const seen = counts.reduce((sum, count) => sum + count.seen, 0);
  const missed = counts.flatMap((count) => count.missed);
  expect(seen).toBeGreaterThan(2000);
  expect(missed).toEqual([]);
});

/** Points on our lines, and those that do not lie where the clip shows something. */
function countShown(seed: number): { seen: number; missed: string[] } {
  const text = clippedScene(seed);
  const drawing = readDrawing(text);
  // The clip alone, painted white: what it lets through.
  const region = scene(
    text
      .replace(/^<svg[^>]*>|<\/svg>$/g, '')
      .replace(
        /<g clip-path="url\(#a\)">.*<\/g>/,
        '<g clip-path="url(#a)"><rect width="100" height="100" fill="#fff"/></g>',
      ),
  );
  const picture = pixelsOf(region, SIDE);
  const opaque = (x: number, y: number): boolean => {
    const [i, j] = [Math.floor(x / PIXEL), Math.floor(y / PIXEL)];
    if (i < 0 || j < 0 || i >= picture.width || j >= picture.height) return false;
    return picture.data[4 * (j * picture.width + i) + 3] > 0;
  };
  const missed: string[] = [];
  let seen = 0;
  for (const shape of drawing.shapes) {
    for (const curve of shape.subpaths.flatMap((subpath) => subpath.curves)) {
      // The tip of a clip may be thinner than a pixel.
      if (curveLength(curve) < PIXEL) continue;
      for (let k = 1; k < 16; k++) {
        const [x, y] = pointAt(curve, k / 16);
        const near = [-1, 0, 1].some((dx) => [-1, 0, 1].some((dy) => opaque(x + dx * PIXEL, y + dy * PIXEL)));
        if (!near) missed.push(`seed ${seed}: ${shape.source.element} at ${x} ${y}`);
        seen++;
      }
    }
  }
  return { seen, missed };
}

test('lines along the edge of their clip stay, the edge itself is no line', () => {
  const drawing = readDrawing(
    scene(
      '<clipPath id="a"><rect x="10" y="10" width="50" height="50"/></clipPath><g clip-path="url(#a)"><rect x="10" y="10" width="50" height="80" fill="none" stroke="red"/></g>',
    ),
  );
  const lines = drawing.shapes
    .flatMap((shape) => shape.subpaths)
    .map((s) => s.curves.map((c) => [c.from, c.to]));
  expect(lines).toEqual([
    [
      [
        [10, 60],
        [10, 10],
      ],
      [
        [10, 10],
        [60, 10],
      ],
      [
        [60, 10],
        [60, 60],
      ],
    ],
  ]);
});
