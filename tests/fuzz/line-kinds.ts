import fc from 'fast-check';
import type { Point } from '../../src/geometry/point.js';
import { closed, type LineWork } from '../support/line-work.js';

/** Lengths at which decisions are made: doubles, half a step, a step, decimals of files, the weld. */
const miss = fc.constantFrom(
  0,
  1e-13,
  -1e-13,
  2 ** -11,
  -(2 ** -11),
  2 ** -11 + 1e-9,
  2 ** -10,
  0.0005,
  0.005,
  -0.005,
  0.0199,
  0.02,
  0.0201,
  0.03,
);

const size = fc.constantFrom(0.01, 0.05, 0.1, 1, 10, 300);

/**
 * Line work that is nearly degenerate, each kind aimed at one way to go wrong. Shrinks towards few lines on
 * small numbers. All in mm; sizes around the grid step (2⁻¹⁰) and the default weld (0.02) on purpose.
 */
export const nearDegenerateLines: fc.Arbitrary<LineWork> = fc
  .array(
    fc.oneof(
      latticeLines(),
      jitteredLines(),
      stars(),
      combs(),
      parallels(),
      tJunctionChains(),
      doubledOutlines(),
    ),
    { minLength: 1, maxLength: 3 },
  )
  .map((groups) => groups.flat());

/** Lines between points of the grid itself, few steps apart: ties, overlaps, unit triangles. */
export const gridLines: fc.Arbitrary<LineWork> = fc
  .record({
    stretch: fc.constantFrom(1, 1, 2, 5, 64, 1024),
    lines: fc.array(fc.array(smallPoint(12), { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 9 }),
  })
  .map(({ stretch, lines }) =>
    lines.map((line) => line.map(([x, y]): Point => [(x * stretch) / 1024, (y * stretch) / 1024])),
  );

/** Integer points, some of them shared, in a box of `size`: input for the exact oracle. */
export function integerLines(size: number): fc.Arbitrary<LineWork> {
  return fc.array(smallPoint(size), { minLength: 3, maxLength: 9 }).chain((points) =>
    fc
      .array(fc.array(fc.nat({ max: points.length - 1 }), { minLength: 2, maxLength: 5 }), {
        minLength: 1,
        maxLength: 5,
      })
      .map((lines) => lines.map((line) => line.map((i) => points[i]))),
  );
}

function smallPoint(size: number): fc.Arbitrary<Point> {
  return fc.tuple(fc.integer({ min: 0, max: size }), fc.integer({ min: 0, max: size }));
}

/** Polylines over a 6 × 6 lattice: collinear overlaps, shared corners, lines through corners. */
function latticeLines(): fc.Arbitrary<LineWork> {
  return fc
    .record({
      pitch: size,
      lines: fc.array(fc.array(smallPoint(5), { minLength: 2, maxLength: 6 }), {
        minLength: 1,
        maxLength: 6,
      }),
    })
    .map(({ pitch, lines }) => lines.map((line) => line.map(([x, y]): Point => [x * pitch, y * pitch])));
}

/** The same, each point missing the lattice by little. */
function jitteredLines(): fc.Arbitrary<LineWork> {
  const point = fc.tuple(smallPoint(5), miss, miss);
  return fc
    .record({
      pitch: size,
      lines: fc.array(fc.array(point, { minLength: 2, maxLength: 5 }), { minLength: 1, maxLength: 6 }),
    })
    .map(({ pitch, lines }) =>
      lines.map((line) => line.map(([[x, y], dx, dy]): Point => [x * pitch + dx, y * pitch + dy])),
    );
}

/** Lines that are meant to meet in one point. */
function stars(): fc.Arbitrary<LineWork> {
  return fc
    .record({
      count: fc.integer({ min: 2, max: 24 }),
      radius: size,
      turn: fc.double({ min: 0, max: 1, noNaN: true }),
      off: miss,
      x: miss,
      ring: fc.boolean(),
    })
    .map(({ count, radius, turn, off, x, ring }) => {
      const at = (i: number, r: number): Point => {
        const angle = (Math.PI * (i + turn)) / count;
        return [x + r * Math.cos(angle) + (i % 3 === 0 ? off : 0), 5 + r * Math.sin(angle)];
      };
      const lines: Point[][] = Array.from({ length: count }, (_, i) => [at(i, -radius), at(i, radius)]);
      if (ring) lines.push([...closed(Array.from({ length: 2 * count }, (_, i) => at(i, 0.7 * radius)))]);
      return lines;
    });
}

/** Teeth that end on, just before or just beyond a line. */
function combs(): fc.Arbitrary<LineWork> {
  return fc
    .record({
      teeth: fc.array(miss, { minLength: 1, maxLength: 12 }),
      pitch: fc.constantFrom(0.001, 0.015, 0.03, 0.5, 7),
      slope: fc.constantFrom(0, 1e-9, 0.001, 0.3),
      length: size,
    })
    .map(({ teeth, pitch, slope, length }) => {
      const wide = pitch * (teeth.length + 1);
      const spine: Point[] = [
        [0, 0],
        [wide, wide * slope],
      ];
      const back: Point[] = [
        [0, length],
        [wide, length + wide * slope],
      ];
      return [
        spine,
        back,
        ...teeth.map((d, i): Point[] => {
          const x = pitch * (i + 1);
          return [
            [x, x * slope + d],
            [x, x * slope + length - d],
          ];
        }),
      ];
    });
}

/** Long lines that almost coincide. */
function parallels(): fc.Arbitrary<LineWork> {
  return fc
    .record({
      length: size,
      misses: fc.array(fc.tuple(miss, miss), { minLength: 2, maxLength: 8 }),
      steep: fc.constantFrom(0, 0.01, 1, 50),
    })
    .map(({ length, misses, steep }) =>
      misses.map(([d, e], i): Point[] => [
        [0.1 * i * d, d],
        [length, length * steep + e],
      ]),
    );
}

/** A box split by lines whose ends lie on lines before, written with few decimals. */
function tJunctionChains(): fc.Arbitrary<LineWork> {
  const fraction = fc.integer({ min: 1, max: 9 });
  return fc
    .record({
      pitch: size,
      cuts: fc.array(fc.tuple(fc.nat(), fraction, fc.nat(), fraction), { minLength: 1, maxLength: 10 }),
      decimals: fc.constantFrom(2, 3, 6, 17),
    })
    .map(({ pitch, cuts, decimals }) => {
      const corners: Point[] = [
        [0, 0],
        [3 * pitch, 0.1 * pitch],
        [3.1 * pitch, 2 * pitch],
        [-0.2 * pitch, 2.3 * pitch],
      ];
      const segments: (readonly [Point, Point])[] = corners.map((p, i) => [p, corners[(i + 1) % 4]]);
      for (const [i, s, j, t] of cuts) {
        const on = ([a, b]: readonly [Point, Point], k: number): Point => [
          a[0] + (k / 10) * (b[0] - a[0]),
          a[1] + (k / 10) * (b[1] - a[1]),
        ];
        segments.push([on(segments[i % segments.length], s), on(segments[j % segments.length], t)]);
      }
      const cut = (v: number): number => (decimals > 16 ? v : Number(v.toFixed(decimals)));
      return segments.map((line) => line.map(([x, y]): Point => [cut(x), cut(y)]));
    });
}

/** One outline drawn several times: started elsewhere, moved by little, sampled otherwise. */
function doubledOutlines(): fc.Arbitrary<LineWork> {
  return fc
    .record({
      radius: size,
      sides: fc.integer({ min: 3, max: 24 }),
      copies: fc.array(fc.tuple(fc.nat(23), miss, fc.integer({ min: 1, max: 2 })), {
        minLength: 1,
        maxLength: 3,
      }),
    })
    .map(({ radius, sides, copies }) =>
      copies.map(([start, off, finer]) =>
        closed(
          Array.from({ length: sides * finer }, (_, i): Point => {
            const angle = (2 * Math.PI * (i + start)) / (sides * finer);
            return [off + radius * Math.cos(angle), radius * Math.sin(angle)];
          }),
        ),
      ),
    );
}
