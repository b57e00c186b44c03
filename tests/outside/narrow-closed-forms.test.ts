import { describe, expect, test } from 'vitest';
import { ellipseArcs } from '../../src/geometry/arc.js';
import type { Curve } from '../../src/geometry/curve.js';
import { areaBoundary } from '../../src/geometry/narrow/area-boundary.js';
import { type Neck, narrowPlaces } from '../../src/geometry/narrow-places.js';
import type { Point } from '../../src/geometry/point.js';
import { box, circle, circleArc, dumbbell, polygon, spiralSlot } from '../geometry/narrow/shapes.js';

// Plane geometry in closed form; no library.

const necks = (loops: Curve[][], needed: number): Neck[] => narrowPlaces(areaBoundary(loops), needed);

function expectChord(n: Neck, p: Point, q: Point): void {
  const [from, to] = p[1] < q[1] || (p[1] === q[1] && p[0] < q[0]) ? [p, q] : [q, p];
  for (const k of [0, 1] as const) {
    expect(n.from[k]).toBeCloseTo(from[k], 9);
    expect(n.to[k]).toBeCloseTo(to[k], 9);
  }
}

describe('round holes', () => {
  test('between two: distance of the centres minus the radii', () => {
    const [d, r, s] = [31.4, 9, 17.3];
    const turn = 0.37;
    const at: Point = [100 + d * Math.cos(turn), 90 + d * Math.sin(turn)];
    const [n, ...rest] = necks([box(0, 0, 200, 180), circle(100, 90, r), circle(...at, s)], 8);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - (d - r - s))).toBeLessThan(1e-12);
    expectChord(
      n,
      [100 + r * Math.cos(turn), 90 + r * Math.sin(turn)],
      [at[0] - s * Math.cos(turn), at[1] - s * Math.sin(turn)],
    );
    expect([n.effect, n.others, n.side]).toEqual(['opens', null, null]);
  });

  test('beside an edge: distance of the centre minus the radius', () => {
    const [n, ...rest] = necks([box(0, 0, 90, 80), circle(30, 12.5, 9)], 5);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - 3.5)).toBeLessThan(1e-12);
    expectChord(n, [30, 0], [30, 3.5]);
  });

  test('out of the middle of a disc: R − r − e, once, on the near side', () => {
    const [R, r, e] = [40, 25, 11];
    const [n, ...rest] = necks([circle(0, 0, R), circle(e, 0, r)], 100);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - (R - r - e))).toBeLessThan(1e-11);
    expectChord(n, [e + r, 0], [R, 0]);
  });

  test('three in a triangle: each pair once; each cut takes off a part only with the two others', () => {
    const holes = [0, 1, 2].map((k) => {
      const angle = (2 * Math.PI * k) / 3;
      return circle(50 + 12 * Math.cos(angle), 50 + 12 * Math.sin(angle), 9);
    });
    const found = necks([box(0, 0, 100, 100), ...holes], 5);
    expect(found.length).toBe(3);
    for (const n of found) {
      expect(Math.abs(n.width - (12 * Math.sqrt(3) - 18))).toBeLessThan(1e-11);
      expect([n.effect, n.others]).toEqual(['hangs', 2]);
    }
  });
});

describe('strips', () => {
  test('a dumbbell: bar width; half its area hangs on the cut; thin as far as the discs open', () => {
    const [R, w, bar, needed] = [20, 5, 30, 8];
    const [n, ...rest] = necks([dumbbell(R, w, bar)], needed);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - w)).toBeLessThan(1e-12);
    expect(n.effect).toBe('parts');
    const half = Math.asin(w / 2 / R);
    const disc = R * R * (Math.PI - half) + (w / 2) * R * Math.cos(half);
    expect(n.side?.area).toBeCloseTo(disc + (w * bar) / 2, 9);
    // Beyond the bar the disc touches both corners: √(x² + w²/4) = needed/2.
    const beyond = Math.sqrt(needed ** 2 - w ** 2) / 2;
    expect(Math.abs(n.length / (bar + 2 * beyond) - 1)).toBeLessThan(0.02);
    expect(n.at[0]).toBeCloseTo(0, 6);
  });

  test('a slot beside an edge: one strip; thin till the parabola about the corner is high enough', () => {
    const [w, needed] = [4, 6];
    const [n, ...rest] = necks([box(0, 0, 100, 60), box(20, w, 70, 15)], needed);
    expect(rest).toEqual([]);
    expect(n.width).toBeCloseTo(w, 12);
    // Points as far from the corner (0, w) as from the edge y = 0: y = (x² + w²)/(2w), up to y = needed/2.
    const u = Math.sqrt(needed * w - w * w) / w;
    const arc = (w / 2) * (u * Math.sqrt(1 + u * u) + Math.asinh(u));
    expect(Math.abs(n.length / (50 + 2 * arc) - 1)).toBeLessThan(0.02);
    expect(n.effect).toBe('opens');
  });

  test('concentric arcs: the difference of the radii, along the middle arc', () => {
    const [R, r] = [40, 34];
    const quarter: Curve[] = [
      circleArc([0, -R], [R, 0], R, false, true),
      { kind: 'line', from: [R, 0], to: [r, 0] },
      circleArc([r, 0], [0, -r], r, false, false),
      { kind: 'line', from: [0, -r], to: [0, -R] },
    ];
    const [n, ...rest] = necks([quarter], 8);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - 6)).toBeLessThan(1e-11);
    expect(Math.abs(n.length / ((Math.PI / 4) * (R + r)) - 1)).toBeLessThan(0.01);
    // The chord in the middle is found to a fraction of a step.
    expect(Math.abs((n.side?.area ?? 0) / ((Math.PI / 8) * (R * R - r * r)) - 1)).toBeLessThan(0.01);
  });

  test('a ring: once all the way round', () => {
    const [n, ...rest] = necks([circle(5, 5, 30), circle(5, 5, 26)], 6);
    expect(rest).toEqual([]);
    expect(Math.abs(n.width - 4)).toBeLessThan(1e-11);
    expect(Math.abs(n.length / (2 * Math.PI * 28) - 1)).toBeLessThan(0.01);
    expect(n.effect).toBe('opens');
  });

  test('a comb: each tooth at its root', () => {
    const [w, h, needed] = [4, 30, 7];
    const teeth = [0, 1, 2, 3, 4].flatMap((k): Point[] => {
      const x = 90 - 18 * k;
      return [
        [x, 15],
        [x, 15 + h],
        [x - w, 15 + h],
        [x - w, 15],
      ];
    });
    const found = necks([polygon([[0, 0], [100, 0], [100, 15], ...teeth, [0, 15]])], needed);
    expect(found.length).toBe(5);
    for (const n of found) {
      expect(n.width).toBeCloseTo(w, 12);
      expect(n.at[1]).toBeCloseTo(15, 12);
      expect(n.side?.area).toBeCloseTo(w * h, 9);
      expect(n.side?.lever).toBeCloseTo(h / 2, 9);
      expect(Math.abs(n.length / (h + Math.sqrt(needed ** 2 - w ** 2) / 2) - 1)).toBeLessThan(0.02);
      expect(n.effect).toBe('parts');
    }
  });

  test('a plain strip, parallel sides without a corner between', () => {
    const [n, ...rest] = necks([box(0, 0, 80, 3)], 5);
    expect(rest).toEqual([]);
    expect(n.width).toBeCloseTo(3, 12);
    expect(n.at[0]).toBeCloseTo(40, 1);
    expect(n.side?.area).toBeCloseTo(120, 0);
  });

  test('a spiral of known pitch: pitch minus slot, in one piece', () => {
    const [pitch, slot] = [6, 2.5];
    const found = necks([circle(0, 0, 60), spiralSlot(8, pitch, slot, 9)], 5);
    const [n, ...rest] = found.filter((f) => Math.abs(f.width - (pitch - slot)) < 1e-9);
    expect(rest).toEqual([]);
    expect(n.effect).toBe('parts');
    expect(found.length).toBe(1);
  });
});

describe('an ellipse beside a line', () => {
  test('distance of the centre minus √(a² sin² + b² cos²)', () => {
    const [a, b] = [14, 5];
    for (const turn of [0, 0.3, 0.9, Math.PI / 2, 2.2]) {
      const reach = Math.hypot(a * Math.sin(turn), b * Math.cos(turn));
      const [n, ...rest] = necks([box(-60, 0, 60, 90), ellipseArcs([3, reach + 2], a, b, turn)], 3);
      expect(rest).toEqual([]);
      expect(Math.abs(n.width - 2)).toBeLessThan(1e-12);
      // The lowest point of the ellipse, by its conjugate: x = (b² − a²) sin cos / reach from the centre.
      const x = 3 - ((a * a - b * b) * Math.sin(turn) * Math.cos(turn)) / reach;
      expectChord(n, [x, 0], [x, 2]);
    }
  });
});

describe('tips', () => {
  test('have no neck: triangles, stars, a lens', () => {
    const star: Point[] = Array.from({ length: 10 }, (_, k): Point => {
      const r = k % 2 === 0 ? 50 : 20;
      return [r * Math.cos((Math.PI * k) / 5), r * Math.sin((Math.PI * k) / 5)];
    });
    expect(
      necks(
        [
          polygon([
            [0, 0],
            [50, 2],
            [50, -2],
          ]),
        ],
        10,
      ),
    ).toEqual([]);
    expect(necks([polygon(star)], 10)).toEqual([]);
    expect(
      necks([[circleArc([0, 0], [60, 0], 80, false, true), circleArc([60, 0], [0, 0], 80, false, true)]], 30),
    ).toEqual([]);
    expect(necks([ellipseArcs([0, 0], 40, 3)], 20)).toEqual([]);
  });
});
