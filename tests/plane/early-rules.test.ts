import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Curve } from '../../src/geometry/curve.js';
import { pointAt } from '../../src/geometry/curve.js';
import { nearestOnCurve } from '../../src/geometry/nearest-on-curve.js';
import type { Point } from '../../src/geometry/point.js';
import { earlyRules } from '../../src/plane/early-rules.js';
import { flattenRuns, type MapCurve, NO_RULES } from '../../src/plane/flat-lines.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { pairKey } from '../../src/plane/pair-key.js';
import { finish } from '../../src/plane/steps.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { cubic, drawingOf, ellipseArc, line } from '../support/curve-drawing.js';

const WELD = 0.02;
const TOLERANCE = 0.005;
/** Of the grid. */
const STEP = 2 ** -10;

/** The rules for some curves, each a run of its own. */
function rulesOf(list: readonly Curve[]) {
  const curves = list.map((curve, shape): MapCurve => ({ curve, shape, cuts: true, covers: false }));
  const runs = curves.map((_, c) => [c]);
  const flat = finish(flattenRuns(curves, runs, TOLERANCE, NO_RULES));
  return finish(earlyRules(curves, flat, WELD, TOLERANCE));
}

/** The places where a curve gets vertices. */
function stopsOn(list: readonly Curve[], curve: number): Point[] {
  return (rulesOf(list).rules.stops.get(curve) ?? []).map(({ x, y }): Point => [x, y]);
}

const arch = ellipseArc([0, 0], 30, 30, 180, 180);

describe('junctions seen before anything is arranged', () => {
  it('are ends of lines on a curve, at its nearest point', () => {
    const end: Point = [18, -24.01];
    const [stop, ...more] = stopsOn([arch, line(end, [40, -40])], 0);
    expect(more).toEqual([]);
    // The nearest point of a circle lies on the ray from its middle.
    const r = Math.hypot(...end);
    expect(stop[0]).toBeCloseTo((30 * end[0]) / r, 12);
    expect(stop[1]).toBeCloseTo((30 * end[1]) / r, 12);
  });

  it('are places where curves cross, on both of them', () => {
    const other = ellipseArc([20, 0], 30, 30, 180, 180);
    // Two circles of one radius meet halfway between their middles.
    const y = -Math.sqrt(30 ** 2 - 10 ** 2);
    for (const c of [0, 1]) {
      const stops = stopsOn([arch, other], c);
      expect(stops).toHaveLength(1);
      expect(stops[0][0]).toBeCloseTo(10, 12);
      expect(stops[0][1]).toBeCloseTo(y, 12);
    }
  });

  it('are counted by pairs of curves', () => {
    const chord = line([-18, -24], [18, -24]);
    const across = ellipseArc([0, -30], 10, 10, 0, 360);
    const { shared } = rulesOf([arch, chord, across]);
    expect([...shared].sort(([a], [b]) => a - b)).toEqual([
      [pairKey(0, 1, 3), 2],
      [pairKey(0, 2, 3), 2],
      [pairKey(1, 2, 3), 2],
    ]);
  });

  it.each<[string, Curve[]]>([
    ['an end too far from the curve', [line([18, -24.1], [40, -40])]],
    ['an end as far as chords may be off', [line([30 + WELD - TOLERANCE / 2, -1e-9], [60, -1])]],
    ['an end by an end of the curve', [line([30, 0.005], [60, 5])]],
    ['a line beside the curve', [line([-40, -30.1], [40, -30.1])]],
    ['a line that touches it', [line([-40, -30], [40, -30])]],
    ['a line that crosses it by its own end', [line([17.97, -23.96], [60, -80])]],
    ['an end on two curves', [ellipseArc([20, 0], 30, 30, 180, 180), line([10, -Math.sqrt(800)], [10, -60])]],
  ])('are not: %s', (name, others) => {
    const stops = stopsOn([arch, ...others], 0).filter(
      // Of the last the curves cross there, which is plain. Of a touch, the vertices beside it.
      ([x, y]) => !(name.includes('two') && Math.hypot(x - 10, y + Math.sqrt(800)) < 1e-9),
    );
    if (name.includes('touches')) expect(stops.every(([x]) => Math.abs(x) < 2)).toBe(true);
    else expect(stops).toEqual([]);
  });

  it('lie where the map has its nodes, whatever the curve', () => {
    const place = fc.integer({ min: 5, max: 95 });
    const control = fc.tuple(fc.integer({ min: -30, max: 30 }), fc.integer({ min: -40, max: -5 }));
    fc.assert(
      fc.property(
        control,
        control,
        place,
        fc.integer({ min: 1, max: 20 }),
        ([ax, ay], [bx, by], at, away) => {
          const curve = cubic([-30, 0], [ax, ay], [bx, by], [30, 0]);
          const t = at / 100;
          const [x, y] = pointAt(curve, t);
          const list = [curve, line([x, y], [x, y + 40 + away])];
          const stops = stopsOn(list, 0);
          const map = mapRegions(drawingOf(list.map((c) => [c])));
          expect(verifyRegionMap(map)).toEqual([]);
          for (const stop of stops) {
            expect(nearestOnCurve(curve, stop).distance).toBeLessThan(1e-9);
            // The weld may take an end to a vertex beside it, along the curve.
            const away = map.nodes.map(({ at: p }) => Math.hypot(p[0] - stop[0], p[1] - stop[1]));
            const nearest = map.nodes[away.indexOf(Math.min(...away))].at;
            expect(Math.min(...away)).toBeLessThan(WELD + STEP);
            expect(nearestOnCurve(curve, nearest).distance).toBeLessThan(STEP);
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});
