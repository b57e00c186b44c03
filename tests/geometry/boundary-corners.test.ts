import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import { boundaryCorners, tightTurns } from '../../src/geometry/boundary-corners.js';
import { type Curve, reverseCurve } from '../../src/geometry/curve.js';
import { areaBoundary } from '../../src/geometry/narrow/area-boundary.js';
import { box, circle, polygon } from './narrow/shapes.js';

describe('boundaryCorners', () => {
  test('inside angles of an L, whichever way round, and of a hole', () => {
    const l = polygon([
      [0, 0],
      [30, 0],
      [30, 10],
      [10, 10],
      [10, 30],
      [0, 30],
    ]);
    for (const loop of [l, l.map(reverseCurve).reverse()]) {
      const angles = boundaryCorners(areaBoundary([loop])).map((c) => Math.round(c.angle));
      expect(angles.sort((a, b) => a - b)).toEqual([90, 90, 90, 90, 90, 270]);
    }
    const holes = boundaryCorners(areaBoundary([box(0, 0, 50, 50), box(10, 10, 20, 20)]));
    expect(holes.filter((c) => c.place.loop === 1).map((c) => Math.round(c.angle))).toEqual([
      270, 270, 270, 270,
    ]);
  });

  test('smooth joints are none; a control point on its end does not hide a corner', () => {
    expect(boundaryCorners(areaBoundary([circle(0, 0, 9)]))).toEqual([]);
    const c: Curve[] = [
      { kind: 'cubic', from: [0, 0], control1: [0, 0], control2: [10, 0], to: [20, 0] },
      { kind: 'line', from: [20, 0], to: [20, 20] },
      { kind: 'line', from: [20, 20], to: [0, 0] },
    ];
    expect(boundaryCorners(areaBoundary([c])).map((k) => Math.round(k.angle))).toEqual([90, 45, 45]);
  });
});

describe('tightTurns', () => {
  test('the ends of an ellipse, hollow where it is a hole', () => {
    const slim = ellipseArcs([50, 50], 20, 4);
    const [outer] = [tightTurns(areaBoundary([slim]), 1)];
    expect(outer.length).toBe(4);
    for (const turn of outer) {
      expect(turn.radius).toBeCloseTo(16 / 20, 9);
      expect(Math.abs(turn.at[0] - 50)).toBeCloseTo(20, 9);
      expect(turn.hollow).toBe(false);
    }
    const hole = tightTurns(areaBoundary([box(0, 0, 100, 100), slim.map(reverseCurve).reverse()]), 1);
    expect(hole.map((t) => t.hollow)).toEqual([true, true, true, true]);
    expect(tightTurns(areaBoundary([slim]), 0.5)).toEqual([]);
  });
});
