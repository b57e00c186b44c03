/**
 * Curves that touch, written with few decimals: they miss each other or overlap by the rounding, and must meet in one
 * node all the same. How many regions there are, and which share a border, is plain from the drawing.
 */
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { RegionMap } from '../../src/plane/region-map.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { type CurveWork, circle, cubic, drawingOf, line, polyline } from '../support/curve-drawing.js';
import { box, MOTIONS, type Motion } from '../support/line-work.js';
import { neighbourPairs } from '../support/map-facts.js';

const HERE: Point = [3.1234567, -2.7654321];
const RADIUS = 10;

/** What lies beside the circle of 10 mm; each touches it in the direction `way`. */
type Kind = 'line' | 'circle outside' | 'circle inside';

function scene(kind: Kind, angle: number, decimals: number, motion: Motion, joint = angle + 90): CurveWork {
  const way: Point = [Math.cos(angle * (Math.PI / 180)), Math.sin(angle * (Math.PI / 180))];
  const cut = (v: number): number => (decimals > 16 ? v : Number(v.toFixed(decimals)));
  const out = (along: number, across = 0): Point =>
    motion([
      cut(HERE[0] + along * way[0] - across * way[1]),
      cut(HERE[1] + along * way[1] + across * way[0]),
    ]);
  const origin = motion([0, 0]);
  const turned = (degrees: number): number => {
    const a = degrees * (Math.PI / 180);
    const [x, y] = motion([Math.cos(a), Math.sin(a)]);
    return Math.atan2(y - origin[1], x - origin[0]) * (180 / Math.PI);
  };
  const other: CurveWork[number] =
    kind === 'line'
      ? [line(out(RADIUS, -70), out(RADIUS, 70))]
      : kind === 'circle outside'
        ? circle(out(RADIUS + 7), 7, turned(angle + 77))
        : circle(out(RADIUS - 4), 4, turned(angle + 77));
  return [polyline(box(-40, -40, 80, 80).map(motion)), circle(out(0), RADIUS, turned(joint)), other];
}

function mapped(lines: CurveWork): RegionMap {
  const map = mapRegions(drawingOf(lines));
  expect(verifyRegionMap(map)).toEqual([]);
  return map;
}

function touchOf(angle: number, motion: Motion): Point {
  const a = angle * (Math.PI / 180);
  return motion([HERE[0] + RADIUS * Math.cos(a), HERE[1] + RADIUS * Math.sin(a)]);
}

const nodesNear = (map: RegionMap, [x, y]: Point, reach: number): number =>
  map.nodes.filter(({ at }) => Math.hypot(at[0] - x, at[1] - y) < reach).length;

const ANGLES = Array.from({ length: 36 }, (_, i) => 10 * i + 0.7);
const KINDS: readonly Kind[] = ['line', 'circle outside', 'circle inside'];
const STAY: Motion = (p) => p;

describe.each(KINDS)('a circle and a %s that touch', (kind) => {
  it.each([2, 3, 17])('meet in one node, with %i decimals', (decimals) => {
    for (const angle of ANGLES) {
      const map = mapped(scene(kind, angle, decimals, STAY));
      const facts = {
        angle,
        regions: map.regions.length,
        pairs: neighbourPairs(map),
        nodes: nodesNear(map, touchOf(angle, STAY), 2),
        slivers: map.counts.mergedSlivers,
      };
      expect(facts).toEqual({ angle, regions: 3, pairs: 2, nodes: 1, slivers: 0 });
    }
  });

  it.each(Object.entries(MOTIONS))('give the same faces after a %s', (_, motion) => {
    for (const decimals of [2, 3, 17]) {
      for (const angle of ANGLES.filter((_, i) => i % 4 === 1)) {
        const map = mapped(scene(kind, angle, decimals, motion));
        expect([map.regions.length, neighbourPairs(map)]).toEqual([3, 2]);
        expect(nodesNear(map, touchOf(angle, motion), 0.05)).toBe(1);
      }
    }
  });

  it('count the same where a joint of the circle lies beside the place', () => {
    for (const decimals of [2, 3, 17]) {
      for (const off of [-6, -3, -1, -0.2, -0.01, 0, 0.03, 0.4, 2, 5]) {
        const map = mapped(scene(kind, 25.3, decimals, STAY, 25.3 + off));
        expect(map.regions).toHaveLength(3);
        expect(nodesNear(map, touchOf(25.3, STAY), 0.9)).toBeGreaterThan(0);
      }
    }
  });
});

describe('no touch', () => {
  it('is a curve that goes on from another smoothly', () => {
    const map = mapped([
      [line([-20, 0], [0, 0]), cubic([0, 0], [5, 0], [10, 2], [20, 10])],
      [line([-20, 5], [20, 5])],
    ]);
    expect(map.nodes).toHaveLength(5);
  });

  it('are curves further apart than the weld', () => {
    const map = mapped([circle([0, 0], 10, 90), circle([15.03, 0], 5, 90)]);
    expect(map.regions).toHaveLength(2);
    expect(map.edges).toHaveLength(2);
  });

  it('is made where nothing is welded', () => {
    const map = mapRegions(drawingOf([circle([0, 0], 10, 90), circle([15.01, 0], 5, 90)]), { weld: 0 });
    expect(map.edges).toHaveLength(2);
  });
});

describe('touches in a row', () => {
  it('of three circles around a hole leave the hole', () => {
    const at = (k: number): Point => [
      Number((11.547 * Math.cos((k * 2 * Math.PI) / 3)).toFixed(2)),
      Number((11.547 * Math.sin((k * 2 * Math.PI) / 3)).toFixed(2)),
    ];
    const map = mapped([polyline(box(-40, -40, 80, 80)), ...[0, 1, 2].map((k) => circle(at(k), 10, 17))]);
    expect(map.regions).toHaveLength(5);
    expect(neighbourPairs(map)).toBe(6);
  });
});
