import fc from 'fast-check';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, test } from 'vitest';
import { arcFromEndpoints } from '../../src/geometry/arc.js';
import { type Curve, pointAt } from '../../src/geometry/curve.js';
import { runBounds } from '../../src/geometry/curve-bounds.js';
import { pathData } from '../../src/geometry/path-data.js';
import { distance, distanceToSegment, type Point } from '../../src/geometry/point.js';
import { arc, curve, point, uniform } from '../geometry/arbitrary-curves.js';

// Reference: svg-pathdata (MIT): its parser, its boxes of paths, its arc-to-cubic conversion.

/** The curves of absolute path data as svg-pathdata parses it. */
function read(text: string): Curve[] {
  const curves: Curve[] = [];
  let here: Point = [0, 0];
  let start: Point = [0, 0];
  for (const c of new SVGPathData(text).toAbs().commands) {
    if (c.type === SVGPathData.CLOSE_PATH) {
      if (distance(here, start) > 0) curves.push({ kind: 'line', from: here, to: start });
      here = start;
      continue;
    }
    if (!('x' in c) || !('y' in c)) throw new Error('unexpected command');
    const to: Point = [c.x, c.y];
    if (c.type === SVGPathData.MOVE_TO) start = to;
    else if (c.type === SVGPathData.LINE_TO) curves.push({ kind: 'line', from: here, to });
    else if (c.type === SVGPathData.QUAD_TO)
      curves.push({ kind: 'quadratic', from: here, control: [c.x1, c.y1], to });
    else if (c.type === SVGPathData.CURVE_TO)
      curves.push({ kind: 'cubic', from: here, control1: [c.x1, c.y1], control2: [c.x2, c.y2], to });
    else if (c.type === SVGPathData.ARC) {
      const read = arcFromEndpoints(here, c.rX, c.rY, c.xRot, c.lArcFlag === 1, c.sweepFlag === 1, to);
      if (read === null) throw new Error('an arc with coinciding ends');
      curves.push(read);
    }
    here = to;
  }
  return curves;
}

const HALF_STEP = 2 ** -11;

describe('pathData, read by svg-pathdata', () => {
  test('gives the same curves within half a grid step', () => {
    fc.assert(
      fc.property(curve, (c) => {
        const parts = read(pathData([[c]]));
        for (let i = 0; i <= 40; i++) {
          const p = pointAt(c, i / 40);
          const near =
            parts.length === 0 ? distance(p, c.from) : Math.min(...parts.map((q) => distanceTo(q, p)));
          expect(near).toBeLessThan(HALF_STEP);
        }
      }),
      { numRuns: 200 },
    );
  });

  test('the box of a path is the box of its curves', () => {
    fc.assert(
      fc.property(fc.array(curve, { minLength: 1, maxLength: 4 }), (run) => {
        const text = pathData([run], { digits: 9 });
        fc.pre(text !== '');
        // Curves that do not join are joined by lines, which stay in the box of their ends.
        const { minX, minY, maxX, maxY } = new SVGPathData(text).toAbs().getBounds();
        const ours = runBounds(run);
        [minX, minY, maxX, maxY].forEach((v, i) => {
          expect(Math.abs(v - ours[i])).toBeLessThan(1e-5);
        });
      }),
    );
  });
});

describe('arcs, turned to cubics by svg-pathdata', () => {
  test('the cubics follow the arc to the known error of that approximation', () => {
    fc.assert(
      fc.property(arc, (c) => {
        const path = new SVGPathData(pathData([[c]], { digits: 10 })).toAbs().aToC();
        const parts = read(path.encode());
        // A cubic misses a quarter circle by 2.8e-4 of the radius (Goldapp, CAGD 8, 1991).
        const slack = 5e-4 * Math.max(c.rx, c.ry) + 1e-6;
        for (const part of parts) {
          for (const t of [0, 0.3, 0.5, 1]) expect(distanceTo(c, pointAt(part, t))).toBeLessThan(slack);
        }
      }),
    );
  });

  test('the arc of any flags, against the cubics', () => {
    const radius = uniform(5, 200);
    fc.assert(
      fc.property(
        point,
        point,
        radius,
        radius,
        fc.integer({ min: -90, max: 90 }),
        fc.boolean(),
        fc.boolean(),
        (from, to, rx, ry, turn, large, sweep) => {
          fc.pre(distance(from, to) > 1);
          const c = arcFromEndpoints(from, rx, ry, turn, large, sweep, to);
          if (c === null || c.kind !== 'arc') throw new Error('no arc');
          const text = `M${from}A${rx} ${ry} ${turn} ${Number(large)} ${Number(sweep)} ${to}`;
          const parts = read(new SVGPathData(text).toAbs().aToC().encode());
          const middle = pointAt(c, 0.5);
          expect(Math.min(...parts.map((q) => distanceTo(q, middle)))).toBeLessThan(
            1e-3 * Math.max(c.rx, c.ry),
          );
        },
      ),
    );
  });
});

/** Distance from a curve by brute force: chords of 1/800 of it. */
function distanceTo(c: Curve, p: Point): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 800; i++) {
    best = Math.min(best, distanceToSegment(p, pointAt(c, i / 800), pointAt(c, (i + 1) / 800)));
  }
  return best;
}
