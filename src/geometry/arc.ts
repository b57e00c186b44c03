import type { ArcCurve, LineCurve } from './curve.js';
import { hypotenuse, type Point } from './point.js';

/**
 * Angles of arcs are kept on this grid (radians, 1.4e-14; 1.4e-11 mm at a radius of one metre), so that
 * `start + sweep` is exact for |angle| < 2⁷ and reversing an arc twice gives the same bits back.
 */
const ANGLE_STEP = 2 ** -46;

/** Radii whose ratio differs from 1 by less than this come from one circle by rounding. */
const CIRCLE_RATIO = 2 ** -36;

/** Rounds an angle to the grid on which arcs keep their angles. */
export function gridAngle(angle: number): number {
  // Adding 0 turns −0 into 0.
  return Math.round(angle / ANGLE_STEP) * ANGLE_STEP + 0;
}

/**
 * An arc from its ellipse, with angles on their grid. Circles get rotation 0 and equal radii, so that
 * pieces of one circle look alike however they were written.
 */
export function makeArc(
  from: Point,
  to: Point,
  centre: Point,
  rx: number,
  ry: number,
  rotation: number,
  start: number,
  sweep: number,
): ArcCurve {
  const turn = gridAngle(sweep);
  if (Math.abs(rx - ry) <= CIRCLE_RATIO * Math.max(rx, ry)) {
    const r = rx === ry ? rx : (rx + ry) / 2;
    const begin = gridAngle(normalAngle(start + rotation));
    return { kind: 'arc', from, to, centre, rx: r, ry: r, rotation: 0, start: begin, sweep: turn };
  }
  return {
    kind: 'arc',
    from,
    to,
    centre,
    rx,
    ry,
    rotation,
    start: gridAngle(normalAngle(start)),
    sweep: turn,
  };
}

/** The same direction in (−π, π]. */
function normalAngle(angle: number): number {
  if (angle > -Math.PI && angle <= Math.PI) return angle;
  const turned = angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
  return turned <= -Math.PI ? turned + 2 * Math.PI : turned;
}

/**
 * The arc of an SVG path command `A`, by the implementation notes of SVG 2 (appendix "Elliptical arc
 * parameter conversions", out-of-range rules included): radii count by their absolute value and are scaled
 * up evenly when too small to reach; a zero radius gives a straight line; equal end points give null, the
 * segment is left out.
 *
 * @param rotation - x-axis rotation, **degrees** as in path data
 * @param largeArc - the arc of more than half a turn
 * @param sweepPositive - turn from +x towards +y (clockwise on the page)
 */
export function arcFromEndpoints(
  from: Point,
  rx: number,
  ry: number,
  rotation: number,
  largeArc: boolean,
  sweepPositive: boolean,
  to: Point,
): ArcCurve | LineCurve | null {
  if (from[0] === to[0] && from[1] === to[1]) return null;
  let a = Math.abs(rx);
  let b = Math.abs(ry);
  if (a === 0 || b === 0) return { kind: 'line', from, to };
  const phi = (rotation % 360) * (Math.PI / 180);
  const cos = Math.cos(phi);
  const sin = Math.sin(phi);
  const dx = (from[0] - to[0]) / 2;
  const dy = (from[1] - to[1]) / 2;
  // In units of the radii the ellipse is a unit circle and (u, v) is half the chord.
  let u = (dx * cos + dy * sin) / a;
  let v = (dy * cos - dx * sin) / b;
  const half = hypotenuse(u, v);
  if (half > 1) {
    a *= half;
    b *= half;
    u /= half;
    v /= half;
  }
  const apothem = half >= 1 ? 0 : Math.sqrt((1 - half) * (1 + half)) / half;
  const side = largeArc === sweepPositive ? -apothem : apothem;
  const cu = side * v;
  const cv = -side * u;
  const start = Math.atan2(v - cv, u - cu);
  const end = Math.atan2(-v - cv, -u - cu);
  let sweep = end - start;
  if (sweepPositive && sweep <= 0) sweep += 2 * Math.PI;
  if (!sweepPositive && sweep >= 0) sweep -= 2 * Math.PI;
  const centre: Point = [
    cu * a * cos - cv * b * sin + (from[0] + to[0]) / 2,
    cu * a * sin + cv * b * cos + (from[1] + to[1]) / 2,
  ];
  return makeArc(from, to, centre, a, b, phi, start, sweep);
}

/**
 * A full ellipse as four quarter arcs that meet on its axes, in the order of the equivalent path of SVG 2:
 * from (cx + rx, cy) through (cx, cy + ry). The radii are lengths above 0; `rotation` in radians.
 */
export function ellipseArcs(centre: Point, rx: number, ry: number, rotation = 0): ArcCurve[] {
  const cos = Math.cos(rotation);
  const sin = Math.sin(rotation);
  const corners: Point[] = [
    [centre[0] + rx * cos, centre[1] + rx * sin],
    [centre[0] - ry * sin, centre[1] + ry * cos],
    [centre[0] - rx * cos, centre[1] - rx * sin],
    [centre[0] + ry * sin, centre[1] - ry * cos],
  ];
  return corners.map((from, i) =>
    makeArc(from, corners[(i + 1) % 4], centre, rx, ry, rotation, (i * Math.PI) / 2, Math.PI / 2),
  );
}
