import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { ArcCurve } from '../../src/geometry/curve.js';

// Reference: SVG 2 (W3C), appendix "Elliptical arc parameterization: implementation notes", and the tables of
// CSS Values and Units Level 4 (W3C), "Absolute lengths"; both worked out here step by step as they stand there.

interface Notes {
  readonly lambda: number;
  readonly cx: number;
  readonly cy: number;
  readonly rx: number;
  readonly ry: number;
  readonly theta: number;
  readonly delta: number;
}

/** Conversion from endpoint to centre parameterization, steps 1 to 4 with the corrections of out-of-range radii. */
function centreOf(
  x1: number,
  y1: number,
  rx0: number,
  ry0: number,
  phi: number,
  fa: boolean,
  fs: boolean,
  x2: number,
  y2: number,
): Notes {
  const [cos, sin] = [Math.cos(phi), Math.sin(phi)];
  const xp = (cos * (x1 - x2)) / 2 + (sin * (y1 - y2)) / 2;
  const yp = (-sin * (x1 - x2)) / 2 + (cos * (y1 - y2)) / 2;
  let [rx, ry] = [Math.abs(rx0), Math.abs(ry0)];
  const lambda = xp ** 2 / rx ** 2 + yp ** 2 / ry ** 2;
  if (lambda > 1) {
    rx *= Math.sqrt(lambda);
    ry *= Math.sqrt(lambda);
  }
  const top = rx ** 2 * ry ** 2 - rx ** 2 * yp ** 2 - ry ** 2 * xp ** 2;
  // Radii that were scaled up just reach: the root is 0, and would only be that of a rounding error.
  const root = lambda > 1 ? 0 : Math.sqrt(Math.max(0, top / (rx ** 2 * yp ** 2 + ry ** 2 * xp ** 2)));
  const factor = (fa === fs ? -1 : 1) * root;
  const cxp = (factor * rx * yp) / ry;
  const cyp = (-factor * ry * xp) / rx;
  const cx = cos * cxp - sin * cyp + (x1 + x2) / 2;
  const cy = sin * cxp + cos * cyp + (y1 + y2) / 2;
  const angle = (ux: number, uy: number, vx: number, vy: number): number => {
    const cosine = (ux * vx + uy * vy) / (Math.hypot(ux, uy) * Math.hypot(vx, vy));
    return Math.sign(ux * vy - uy * vx || 1) * Math.acos(Math.min(1, Math.max(-1, cosine)));
  };
  const [ux, uy] = [(xp - cxp) / rx, (yp - cyp) / ry];
  let delta = angle(ux, uy, (-xp - cxp) / rx, (-yp - cyp) / ry) % (2 * Math.PI);
  if (!fs && delta > 0) delta -= 2 * Math.PI;
  if (fs && delta < 0) delta += 2 * Math.PI;
  return { lambda, cx, cy, rx, ry, theta: angle(1, 0, ux, uy), delta };
}

function readArc(d: string): ArcCurve {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" width="1000mm" height="1000mm" viewBox="0 0 1000 1000"><path d="${d}" fill="none" stroke="red"/></svg>`;
  const [curve] = readDrawing(text, { outsidePage: 'keep' }).shapes[0].subpaths[0].curves;
  if (curve.kind !== 'arc') throw new Error(`${d} is no arc`);
  return curve;
}

describe('arcs by the implementation notes of SVG 2', () => {
  const coordinate = fc.integer({ min: 0, max: 1000 });
  const radius = fc.integer({ min: 1, max: 600 });
  test('centre, radii, start and sweep', () => {
    fc.assert(
      fc.property(
        fc.tuple(coordinate, coordinate, radius, radius, fc.integer({ min: -180, max: 360 })),
        fc.boolean(),
        fc.boolean(),
        fc.tuple(coordinate, coordinate),
        ([x1, y1, rx, ry, turn], large, sweep, [x2, y2]) => {
          fc.pre(x1 !== x2 || y1 !== y2);
          const phi = (turn * Math.PI) / 180;
          const notes = centreOf(x1, y1, rx, ry, phi, large, sweep, x2, y2);
          // Radii that were scaled up so far that the arc may run out of range (16 m) are kept in another form.
          fc.pre(Math.max(notes.rx, notes.ry) < 14_000);
          const arc = readArc(
            `M${x1} ${y1}A${rx} ${ry} ${turn} ${large ? 1 : 0} ${sweep ? 1 : 0} ${x2} ${y2}`,
          );
          // Where the radii only just reach, the centre moves by the root of a rounding error.
          fc.pre(Math.abs(notes.lambda - 1) > 1e-6);
          expect(arc.centre[0]).toBeCloseTo(notes.cx, 6);
          expect(arc.centre[1]).toBeCloseTo(notes.cy, 6);
          expect(Math.max(arc.rx, arc.ry)).toBeCloseTo(Math.max(notes.rx, notes.ry), 6);
          expect(Math.min(arc.rx, arc.ry)).toBeCloseTo(Math.min(notes.rx, notes.ry), 6);
          expect(Math.sign(arc.sweep)).toBe(sweep ? 1 : -1);
          // The middle of the arc, whatever the angles are counted from.
          const half = notes.theta + notes.delta / 2;
          const [ex, ey] = [notes.rx * Math.cos(half), notes.ry * Math.sin(half)];
          const angle = arc.start + arc.sweep / 2;
          const [ax, ay] = [arc.rx * Math.cos(angle), arc.ry * Math.sin(angle)];
          const [c, s] = [Math.cos(arc.rotation), Math.sin(arc.rotation)];
          const slack = 1e-6 * (1 + notes.rx + notes.ry);
          expect(
            Math.abs(arc.centre[0] + c * ax - s * ay - (notes.cx + Math.cos(phi) * ex - Math.sin(phi) * ey)),
          ).toBeLessThan(slack);
          expect(
            Math.abs(arc.centre[1] + s * ax + c * ay - (notes.cy + Math.sin(phi) * ex + Math.cos(phi) * ey)),
          ).toBeLessThan(slack);
        },
      ),
      { numRuns: 300 },
    );
  });
  test('the example of the specification: a quarter of a circle', () => {
    // SVG 2, chapter Paths, example arcs01: M300,200 h-150 a150,150 0 1,0 150,-150 z
    const text = `<svg xmlns="http://www.w3.org/2000/svg" width="1200mm" height="400mm" viewBox="0 0 1200 400"><path d="M300,200 h-150 a150,150 0 1,0 150,-150 z" fill="red" stroke="blue"/></svg>`;
    const [, arc] = readDrawing(text).shapes[0].subpaths[0].curves;
    if (arc.kind !== 'arc') throw new Error('no arc');
    expect(arc.centre[0]).toBeCloseTo(300, 9);
    expect(arc.centre[1]).toBeCloseTo(200, 9);
    expect(arc.sweep).toBeCloseTo(-1.5 * Math.PI, 9);
  });
});

describe('absolute lengths of CSS', () => {
  // Name, and how many make an inch.
  const PER_INCH: Readonly<Record<string, number>> = {
    in: 1,
    cm: 2.54,
    mm: 25.4,
    Q: 101.6,
    pt: 72,
    pc: 6,
    px: 96,
  };
  test.each(Object.entries(PER_INCH))('%s', (unit, perInch) => {
    const text = `<svg xmlns="http://www.w3.org/2000/svg" width="${3 * perInch}${unit}" height="1in"><rect width="${2 * perInch}${unit}" height="1in"/></svg>`;
    const drawing = readDrawing(text);
    expect(drawing.page.width).toBeCloseTo(76.2, 9);
    expect(drawing.shapes[0].subpaths[0].curves[0].to[0]).toBeCloseTo(50.8, 9);
  });
});
