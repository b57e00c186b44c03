import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Curve } from '../../src/geometry/curve.js';
import { areaBoundary } from '../../src/geometry/narrow/area-boundary.js';
import { distance, type Point } from '../../src/geometry/point.js';
import { type ThinEnds, thinEnds } from '../../src/geometry/thin-ends.js';
import { uniform } from './arbitrary-curves.js';
import { area, rounded } from './narrow/random-areas.js';
import { box, circle, circleArc, polygon } from './narrow/shapes.js';

const ends = (loops: Curve[][], needed: number, least?: number): ThinEnds =>
  thinEnds(areaBoundary(loops), needed, least === undefined ? {} : { least });

/** A block with a triangular spike of an angle (degrees) whose tip is at (0, 0), pointing to −x. */
function spike(angle: number, length: number): Curve[] {
  const half = length * Math.tan((angle * Math.PI) / 360);
  return polygon([
    [0, 0],
    [length, -half],
    [length, -60],
    [length + 60, -60],
    [length + 60, 60],
    [length, 60],
    [length, half],
  ]);
}

describe('thinEnds', () => {
  test('a spike: thin up to where the disc between its sides is as wide as needed', () => {
    for (const angle of [8, 20, 35]) {
      const needed = 4;
      const found = ends([spike(angle, 80)], needed, 1);
      expect(found.outlines).toEqual([]);
      expect(found.ends.length).toBe(1);
      const [end] = found.ends;
      expect(end.tip).toEqual([0, 0]);
      expect(end.angle).toBeCloseTo(angle, 9);
      // A disc of diameter d touches both sides d / (2 tan(a/2)) from the tip.
      const half = (angle * Math.PI) / 360;
      const side = needed / (2 * Math.tan(half));
      expect(end.length).toBeCloseTo(side * Math.cos(half), 2);
      for (const p of end.root) expect(distance(p, [0, 0])).toBeCloseTo(side, 2);
      expect(end.area).toBeCloseTo((side * side * Math.sin(2 * half)) / 2, 1);
    }
  });

  test('a blunt corner is no thin end', () => {
    expect(ends([spike(60, 40)], 4).ends).toEqual([]);
    expect(ends([box(0, 0, 50, 50)], 4).ends).toEqual([]);
    expect(ends([circle(0, 0, 20)], 10).ends).toEqual([]);
  });

  test('a finger with a square end, and one with a round end', () => {
    const square = polygon([
      [0, 0],
      [60, 0],
      [60, 28],
      [90, 28],
      [90, 31],
      [60, 31],
      [60, 60],
      [0, 60],
    ]);
    const [end, ...rest] = ends([square], 5).ends;
    expect(rest).toEqual([]);
    expect([end.tip[0], end.angle]).toEqual([90, expect.closeTo(90, 9)]);
    expect(end.length).toBeGreaterThan(29);
    expect(end.length).toBeLessThan(33);
    const round: Curve[] = [
      ...polygon([
        [0, 60],
        [0, 0],
        [60, 0],
        [60, 28],
        [90, 28],
      ]).slice(0, 4),
      circleArc([90, 28], [90, 31], 1.5, false, true),
      { kind: 'line', from: [90, 31], to: [60, 31] },
      { kind: 'line', from: [60, 31], to: [60, 60] },
      { kind: 'line', from: [60, 60], to: [0, 60] },
    ];
    const [soft] = ends([round], 5).ends;
    expect(soft.angle).toBeNull();
    expect(soft.tip[0]).toBeCloseTo(91.5, 1);
    expect(soft.area).toBeGreaterThan(90 + (Math.PI * 1.5 ** 2) / 2 - 1);
  });

  test('a bridge between two masses is none, and neither is a hole near an edge', () => {
    expect(
      ends(
        [
          polygon([
            [0, 0],
            [30, 0],
            [30, 28],
            [60, 28],
            [60, 0],
            [90, 0],
            [90, 60],
            [60, 60],
            [60, 31],
            [30, 31],
            [30, 60],
            [0, 60],
          ]),
        ],
        5,
      ).ends,
    ).toEqual([]);
    expect(ends([box(0, 0, 60, 60), circle(20, 13, 11)], 5).ends).toEqual([]);
  });

  test('an outline that is thin everywhere is listed by itself', () => {
    const found = ends([box(0, 0, 50, 50), box(60, 0, 100, 3), circle(120, 10, 1.5)], 4);
    expect(found.ends).toEqual([]);
    expect(found.outlines.map((o) => o.loop)).toEqual([1, 2]);
    expect(found.outlines[0].widest).toBeCloseTo(3, 2);
  });

  test('the root is as wide as needed, and nothing wider fits in behind it', () => {
    fc.assert(
      fc.property(area, uniform(1, 6), (loops, needed) => {
        const curves = loops.map(rounded);
        for (const end of ends(curves, needed, 0.5).ends) {
          const [p, q] = end.root;
          expect(distance(p, q)).toBeLessThan(needed * 1.001);
          expect(end.area).toBeGreaterThan(0);
          // A disc of the needed diameter has more area than fits between the root and the tip.
          expect(end.area).toBeLessThan(needed * (end.length + needed) * 2);
          expect(end.length).toBeGreaterThanOrEqual(0.5 * needed);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('turned round, an area has the same ends', () => {
    fc.assert(
      fc.property(area, (loops) => {
        const list = (l: readonly Point[][]): string[] =>
          ends(l.map(polygon), 3).ends.map(
            (e) => `${e.tip[0].toFixed(6)} ${e.tip[1].toFixed(6)} ${e.length.toFixed(4)}`,
          );
        expect(list(loops.map((l) => [...l].reverse()))).toEqual(list(loops));
      }),
      { numRuns: 40 },
    );
  });
});
