import { describe, expect, it } from 'vitest';
import { type Curve, reverseCurve } from '../../src/geometry/curve.js';
import { canonicalLines } from '../../src/plane/canonical-lines.js';
import { addRun, type MapCurve } from '../../src/plane/flat-lines.js';
import { finish } from '../../src/plane/steps.js';
import { type CurveWork, cubic, ellipse, line, polyline } from '../support/curve-drawing.js';
import { mapSvg } from './map-svg.js';

function canonical(work: CurveWork) {
  const curves: MapCurve[] = [];
  const runs = work.map((run, i) => addRun(curves, { curves: run, closed: false }, i, true, false));
  return finish(canonicalLines(curves, runs));
}

const reversed = (run: readonly Curve[]): Curve[] => run.map(reverseCurve).reverse();

const WORK: CurveWork = [
  ellipse([3, 4], 5, 2, 0, 7.3),
  polyline([
    [9, 9],
    [0, 1],
    [4, 4],
  ]),
  [cubic([0, 0], [1, 5], [5, 1], [0, 0])],
  [cubic([0, 0], [1, 5], [5, 1], [0, 0]), line([0, 0], [8, 0])],
];

describe('the canonical form of lines', () => {
  it('is the same for another order, direction and repetition', () => {
    const again = [
      WORK[2],
      reversed(WORK[3]),
      WORK[0],
      reversed(WORK[0]),
      reversed(WORK[1]),
      WORK[1],
      WORK[2],
    ];
    const [a, b] = [canonical(WORK), canonical(again)];
    expect(b.curves.map(({ curve }) => curve)).toEqual(a.curves.map(({ curve }) => curve));
    expect(b.runs).toEqual(a.runs);
  });

  it('knows every drawn curve, and which were turned', () => {
    const work = [WORK[1], reversed(WORK[1])];
    const { curves, start, drawn } = canonical(work);
    const flat = work.flat();
    expect(start).toEqual(Int32Array.of(0, 2, 4));
    expect([...drawn].map((d) => d >> 1).sort()).toEqual([0, 1, 2, 3]);
    curves.forEach(({ curve }, c) => {
      for (const d of drawn.subarray(start[c], start[c + 1]))
        expect((d & 1) === 1 ? reverseCurve(flat[d >> 1]) : flat[d >> 1]).toEqual(curve);
    });
  });

  it('keeps which shapes drew a line, and which fills lie on which side', () => {
    const shapes = (inner: string): string =>
      `<rect x="10" y="10" width="60" height="60"/><path d="${inner}" fill="#fff"/><path d="M40 0V90"/><path d="M30 20V60"/>`;
    const onward = mapSvg(shapes('M20 20H50V60H20Z'));
    const back = mapSvg(shapes('M20 60H50V20H20Z'));
    expect(onward.regions.length).toBe(back.regions.length);
    expect(onward.edges.map(({ shapes: s }) => s)).toEqual(back.edges.map(({ shapes: s }) => s));
    const twice = mapSvg(`<path d="M10 10H50V50Z"/><path d="M50 50V10H10Z"/>`);
    expect(twice.edges.map(({ shapes: s }) => s)).toEqual([[1, 0]]);
  });
});
