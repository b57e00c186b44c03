import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Drawing } from '../../src/drawing/drawing.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { type Affine, applyToPoint, multiplyAffine } from '../../src/geometry/affine.js';
import { pointAt } from '../../src/geometry/curve.js';
import { distance, type Point } from '../../src/geometry/point.js';
import { read } from './pages.js';

const number = fc.integer({ min: -4000, max: 4000 }).map((n) => n / 100);
const radius = fc.integer({ min: 50, max: 3000 }).map((n) => n / 100);
const flag = fc.constantFrom('0', '1');

/** One segment, relative, as path data, and the point that it moves by. */
const segment: fc.Arbitrary<{ text: string; by: Point }> = fc.oneof(
  fc.tuple(number, number).map(([x, y]) => ({ text: `l${x} ${y}`, by: [x, y] as Point })),
  fc
    .tuple(number, number, number, number)
    .map(([a, b, x, y]) => ({ text: `q${a} ${b} ${x} ${y}`, by: [x, y] as Point })),
  fc
    .tuple(number, number, number, number, number, number)
    .map(([a, b, c, d, x, y]) => ({ text: `c${a} ${b} ${c} ${d} ${x} ${y}`, by: [x, y] as Point })),
  fc.tuple(radius, radius, number, flag, flag, number, number).map(([rx, ry, turn, large, sweep, x, y]) => ({
    text: `a${rx} ${ry} ${turn} ${large}${sweep}${x} ${y}`,
    by: [x, y] as Point,
  })),
);
const path = fc.array(segment, { minLength: 1, maxLength: 8 });

const dataOf = (segments: readonly { text: string }[]): string =>
  `M50 50${segments.map((s) => s.text).join('')}`;

const keep = { outsidePage: 'keep' as const };

/** Points all along the lines of a drawing. */
function trace(drawing: Drawing): Point[] {
  return drawing.shapes
    .flatMap((shape) => shape.subpaths)
    .flatMap((subpath) => subpath.curves)
    .flatMap((curve) => [0, 0.2, 0.5, 0.9, 1].map((t) => pointAt(curve, t)));
}

function expectNear(a: readonly Point[], b: readonly Point[], tolerance: number): void {
  expect(a.length).toBe(b.length);
  for (const [i, p] of a.entries()) expect(distance(p, b[i])).toBeLessThan(tolerance);
}

const stroked = (d: string, attributes = ''): string =>
  `<path d="${d}" fill="none" stroke="red" ${attributes}/>`;

describe('reading', () => {
  test('a transform moves every point', () => {
    const angle = fc.integer({ min: -360, max: 360 });
    const scale = fc
      .integer({ min: -30, max: 30 })
      .filter((n) => n !== 0)
      .map((n) => n / 10);
    fc.assert(
      fc.property(path, angle, scale, scale, number, number, (segments, turn, sx, sy, dx, dy) => {
        const d = dataOf(segments);
        const transform = `translate(${dx} ${dy}) rotate(${turn}) scale(${sx},${sy}) skewX(20)`;
        const phi = (turn * Math.PI) / 180;
        const steps: Affine[] = [
          [1, 0, 0, 1, dx, dy],
          [Math.cos(phi), Math.sin(phi), -Math.sin(phi), Math.cos(phi), 0, 0],
          [sx, 0, 0, sy, 0, 0],
          [1, 0, Math.tan(Math.PI / 9), 1, 0, 0],
        ];
        const matrix = steps.reduce(multiplyAffine);
        const plain = trace(read(stroked(d), keep)).map((p) => applyToPoint(matrix, p));
        expectNear(trace(read(stroked(d, `transform="${transform}"`), keep)), plain, 1e-6);
      }),
    );
  });

  test('relative and absolute data draw the same', () => {
    fc.assert(
      fc.property(path, (segments) => {
        let at: Point = [50, 50];
        const absolute = segments.map(({ text, by }) => {
          const numbers = text.slice(1).split(' ').map(Number);
          const from = at;
          at = [from[0] + by[0], from[1] + by[1]];
          if (text[0] === 'a')
            return text.replace(/^a/, 'A').replace(/ ([01])([01])\S+ \S+$/, ` $1$2${' '}${at[0]} ${at[1]}`);
          return text[0].toUpperCase() + numbers.map((n, i) => n + from[i % 2]).join(' ');
        });
        const one = trace(read(stroked(dataOf(segments)), keep));
        const other = trace(read(stroked(`M50 50${absolute.join('')}`), keep));
        expectNear(one, other, 1e-6);
      }),
    );
  });

  test('scaleTo multiplies every coordinate', () => {
    fc.assert(
      fc.property(path, fc.integer({ min: 1, max: 50 }), (segments, tenths) => {
        const factor = tenths / 10;
        const plain = read(stroked(dataOf(segments)), keep);
        const scaled = read(stroked(dataOf(segments)), { ...keep, scaleTo: { factor } });
        expectNear(
          trace(scaled),
          trace(plain).map(([x, y]): Point => [x * factor, y * factor]),
          1e-6,
        );
        expect(scaled.page.width).toBeCloseTo(plain.page.width * factor, 9);
      }),
    );
  });

  test('attribute, style and sheet say the same', () => {
    const color = fc.constantFrom('red', '#00f', 'rgb(1 2 3)', 'none');
    const width = fc.constantFrom('0', '1', '2mm', '5%');
    fc.assert(
      fc.property(
        color,
        color,
        width,
        fc.constantFrom('0', '.5', '1'),
        (fill, stroke, strokeWidth, opacity) => {
          const all = { fill, stroke, 'stroke-width': strokeWidth, opacity };
          const list = Object.entries(all);
          const attributes = list.map(([name, value]) => `${name}="${value}"`).join(' ');
          const css = list.map(([name, value]) => `${name}:${value}`).join(';');
          const rect = (more: string): string => `<rect class="c" width="9" height="9" ${more}/>`;
          const [one, two, three] = [
            rect(attributes),
            rect(`style="${css}"`),
            `<style>.c{${css}}</style>${rect('')}`,
          ].map((content) => read(content).shapes.map(({ source: _, ...shape }) => shape));
          expect(two).toEqual(one);
          expect(three).toEqual(one);
        },
      ),
    );
  });

  test('never throws anything but its own error, whatever the text', () => {
    const piece = fc.constantFrom(
      ...[
        '<svg xmlns="http://www.w3.org/2000/svg">',
        '<g>',
        '</g>',
        '<path d="',
        'M0 0',
        'L9 9',
        '"/>',
        '<use href="#a"/>',
        'id="a"',
      ],
      ...[
        '<style>',
        'a{b:c}',
        '@media',
        '</style>',
        '<text x="5">',
        '3',
        '</text>',
        '<!--',
        '-->',
        '<![CDATA[',
        ']]>',
        '&lt;',
        '&x;',
      ],
      ...[
        '<!DOCTYPE svg [',
        '<!ENTITY x "y">',
        ']>',
        '<?xml version="1.0"?>',
        '</svg>',
        '\u0000',
        '\uFFFE',
        '"',
        '>',
        '<',
        ' ',
        'é',
      ],
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 30 }), (pieces) => {
        for (const text of [
          pieces.join(''),
          `<svg xmlns="http://www.w3.org/2000/svg">${pieces.join('')}</svg>`,
        ]) {
          try {
            expect(readDrawing(text).unit).toBe('mm');
          } catch (error) {
            expect((error as Error).name).toBe('PlystepError');
          }
        }
      }),
      { numRuns: 500 },
    );
  });

  test('the same text gives the same drawing', () => {
    fc.assert(
      fc.property(path, (segments) => {
        const content = stroked(dataOf(segments));
        expect(JSON.stringify(read(content))).toBe(JSON.stringify(read(content)));
      }),
      { numRuns: 20 },
    );
  });
});
