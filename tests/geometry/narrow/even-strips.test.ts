import { describe, expect, test } from 'vitest';
import { applyToCurve } from '../../../src/geometry/affine.js';
import type { Curve } from '../../../src/geometry/curve.js';
import { areaBoundary } from '../../../src/geometry/narrow/area-boundary.js';
import { type Neck, narrowPlaces } from '../../../src/geometry/narrow-places.js';
import { distance, type Point } from '../../../src/geometry/point.js';
import { box, polygon } from './shapes.js';

const necks = (loops: Curve[][], needed: number): Neck[] => narrowPlaces(areaBoundary(loops), needed);

function expectAt(n: Neck, at: Point, width: number): void {
  expect(n.width).toBeCloseTo(width, 9);
  expect(distance(n.at, at)).toBeLessThan(1e-6);
}

describe('strips of even width', () => {
  test('a plain bar: once, in its middle, straight or turned', () => {
    for (const angle of [0, 30, 45, 90, 211]) {
      const [cos, sin] = [Math.cos((angle * Math.PI) / 180), Math.sin((angle * Math.PI) / 180)];
      const bar = box(0, 0, 100, 3).map((c) => applyToCurve([cos, sin, -sin, cos, 7, -3], c));
      const [n, ...rest] = necks([bar], 5);
      expect(rest).toEqual([]);
      expectAt(n, [50 * cos - 1.5 * sin + 7, 50 * sin + 1.5 * cos - 3], 3);
      expect(n.effect).toBe('parts');
      expect(n.side?.area).toBeCloseTo(150, 6);
    }
  });

  test('a bar between two blocks: in the middle of the bar', () => {
    const bone = polygon([
      [0, 0],
      [30, 0],
      [30, 28],
      [75, 28],
      [75, 0],
      [90, 0],
      [90, 60],
      [75, 60],
      [75, 31],
      [30, 31],
      [30, 60],
      [0, 60],
    ]);
    const [n, ...rest] = necks([bone], 5);
    expect(rest).toEqual([]);
    expectAt(n, [52.5, 29.5], 3);
  });

  test('glazing bars: each bar in its middle, and none across a crossing', () => {
    const panes = [0, 1, 2].flatMap((i) =>
      [0, 1, 2].map((j) => box(20 + 12 * i, 20 + 12 * j, 30 + 12 * i, 30 + 12 * j)),
    );
    const found = necks([box(0, 0, 74, 74), ...panes], 3);
    expect(found.length).toBe(12);
    for (const n of found) {
      expect(n.width).toBeCloseTo(2, 9);
      const [x, y] = n.at.map((v) => (v - 20) % 12);
      // On a bar (11 of 12), half way along a pane (5 of 10).
      expect(Math.min(Math.hypot(x - 11, y - 5), Math.hypot(x - 5, y - 11))).toBeLessThan(1e-6);
    }
  });

  test('a long bar with a side arm: each of the three legs once at most, none in the joint', () => {
    const t = polygon([
      [0, 0],
      [100, 0],
      [100, 3],
      [51.5, 3],
      [51.5, 40],
      [48.5, 40],
      [48.5, 3],
      [0, 3],
    ]);
    const found = necks([t], 5);
    expect(found.map((n) => n.width)).toEqual(found.map(() => expect.closeTo(3, 9)));
    expect(found.length).toBeLessThanOrEqual(3);
    for (const n of found) expect(distance(n.at, [50, 1.5])).toBeGreaterThan(1);
  });

  test('a wedge so slight that it counts as even is one neck, at its narrow end', () => {
    const wedge = polygon([
      [0, 0],
      [20, 0],
      [20, 20],
      [60, 20.01],
      [60, 0],
      [80, 0],
      [80, 43],
      [60, 43],
      [60, 23],
      [20, 23],
      [20, 43],
      [0, 43],
    ]);
    const [n, ...rest] = necks([wedge], 5);
    expect(rest).toEqual([]);
    expect(n.width).toBeLessThan(2.9901);
    expect(n.at[0]).toBeGreaterThan(55);
  });
});
