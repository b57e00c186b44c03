import { putSecondDerivativeAt } from './curvature.js';
import { type Curve, putDerivativeAt, putPointAt } from './curve.js';
import { hypotenuse, type Point, type PointRoom } from './point.js';
import { tangencyStep } from './tangency-step.js';

/** A place where two curves meet or come nearest. */
export interface Meeting {
  readonly ta: number;
  readonly tb: number;
  /** Halfway between the two curve points, mm. */
  readonly point: Point;
  /** Distance between the two curve points, mm: rounding only for a crossing, more where they just miss. */
  readonly gap: number;
}

/** How far, in mm, the curve points may move away from the start: well over the flattening tolerance. */
export const MEETING_REACH = 0.1;

/** Rounding of a point's coordinate, relative to its size: a gap below this is no gap. */
const ROUNDING = 2 ** -50;

/** Relative difference of curvatures below which touching curves count as coinciding there. */
const SAME_BEND = 1e-6;

const MAX_STEPS = 40;

/** Sine of the angle between tangents below which Newton's step on A = B is not to be trusted. */
const PARALLEL = 1e-8;

/** Sine of the angle between tangents below which a meeting may be a touching place. */
const NEAR_PARALLEL = 1e-2;

/** Keeps the Hessian of coinciding curves, singular but for rounding, from giving wild steps. */
const LEAST_DAMPING = 1e-9;

/** The first damping after a step that climbed, and the one at which there is nothing left to gain. */
const FIRST_DAMPING = 1e-6;
const MOST_DAMPING = 1e12;

/**
 * Moves from parameters near a crossing of two curves onto the crossing on the true curves. Where the curves
 * touch, or just miss each other, it ends at the nearest approach (a local minimum of the distance), and `gap` says
 * how near that is. Parameters stay within [0, 1]; an approach over an end of a curve ends at that end.
 *
 * Null when the search leaves the neighbourhood (a curve point more than `reach` mm away from where it
 * started) or the input is not finite; the caller keeps its start then. Otherwise the points end no farther
 * apart than they started, rounding aside.
 *
 * Method: minimises |A(ta) − B(tb)|² by damped Newton steps (Levenberg-Marquardt), near a crossing by
 * Newton's steps on A = B; touching places are polished by Newton's steps on the common normal. Curves that
 * also share their curvature where they touch are met to about the cube root of rounding only.
 */
export function refineMeeting(
  a: Curve,
  ta: number,
  b: Curve,
  tb: number,
  reach = MEETING_REACH,
): Meeting | null {
  const room = makeRoom();
  const { start, move } = room;
  let { best, next } = room;
  measure(a, b, ta, tb, start);
  measure(a, b, ta, tb, best);
  if (!Number.isFinite(best.square)) return null;
  let damping = 0;
  for (let step = 0; step < MAX_STEPS; step++) {
    const size = Math.max(Math.abs(best.pa[0]), Math.abs(best.pa[1]), 1);
    if (Math.sqrt(best.square) <= ROUNDING * size) break;
    newtonStep(a, b, best, damping, room);
    measure(a, b, clamp(best.ta + move[0]), clamp(best.tb + move[1]), next);
    if (next.ta === best.ta && next.tb === best.tb) break;
    if (next.square < best.square) {
      [best, next] = [next, best];
      damping = damping <= FIRST_DAMPING ? 0 : damping / 16;
    } else {
      damping = damping === 0 ? FIRST_DAMPING : damping * 8;
      if (damping > MOST_DAMPING) break;
    }
  }
  const { ta: endA, tb: endB, pa, pb, square } = polishTangency(a, b, best, next, room);
  const drift = Math.max(
    hypotenuse(pa[0] - start.pa[0], pa[1] - start.pa[1]),
    hypotenuse(pb[0] - start.pb[0], pb[1] - start.pb[1]),
  );
  if (!(drift <= reach)) return null;
  return {
    ta: endA,
    tb: endB,
    point: [(pa[0] + pb[0]) / 2, (pa[1] + pb[1]) / 2],
    gap: Math.sqrt(square),
  };
}

/** Parameters of two curves and the points there. */
interface Approach {
  ta: number;
  tb: number;
  readonly pa: PointRoom;
  readonly pb: PointRoom;
  square: number;
}

/** Room for one search, so that its steps make no objects. */
interface Room {
  readonly start: Approach;
  readonly best: Approach;
  readonly next: Approach;
  /** First and second derivatives of both curves. */
  readonly a: PointRoom;
  readonly b: PointRoom;
  readonly aa: PointRoom;
  readonly bb: PointRoom;
  /** A step of both parameters. */
  readonly move: PointRoom;
}

function makeRoom(): Room {
  const approach = (): Approach => ({ ta: 0, tb: 0, pa: [0, 0], pb: [0, 0], square: 0 });
  return {
    start: approach(),
    best: approach(),
    next: approach(),
    a: [0, 0],
    b: [0, 0],
    aa: [0, 0],
    bb: [0, 0],
    move: [0, 0],
  };
}

function measure(a: Curve, b: Curve, ta: number, tb: number, into: Approach): void {
  const { pa, pb } = into;
  putPointAt(a, ta, pa);
  putPointAt(b, tb, pb);
  into.ta = ta;
  into.tb = tb;
  into.square = (pa[0] - pb[0]) ** 2 + (pa[1] - pb[1]) ** 2;
}

const clamp = (t: number): number => Math.min(1, Math.max(0, t));

/**
 * Puts the step of both parameters into `room.move`: Newton's on A = B while the curves cross at an angle and nothing is
 * damped, else Newton's on the squared distance with its diagonal damped.
 */
function newtonStep(a: Curve, b: Curve, at: Approach, damping: number, room: Room): void {
  putDerivativeAt(a, at.ta, room.a);
  putDerivativeAt(b, at.tb, room.b);
  const { move } = room;
  const [ax, ay] = room.a;
  const [bx, by] = room.b;
  const dx = at.pa[0] - at.pb[0];
  const dy = at.pa[1] - at.pb[1];
  const aa = ax * ax + ay * ay;
  const bb = bx * bx + by * by;
  const sine = ax * by - ay * bx;
  if (damping === 0 && sine * sine > PARALLEL * PARALLEL * aa * bb) {
    move[0] = (dy * bx - dx * by) / sine;
    move[1] = (dy * ax - dx * ay) / sine;
    return;
  }
  putSecondDerivativeAt(a, at.ta, room.aa);
  putSecondDerivativeAt(b, at.tb, room.bb);
  const ga = dx * ax + dy * ay;
  const gb = -(dx * bx + dy * by);
  const ridge = 1 + Math.max(damping, LEAST_DAMPING);
  const haa = ridge * aa + dx * room.aa[0] + dy * room.aa[1];
  const hbb = ridge * bb - (dx * room.bb[0] + dy * room.bb[1]);
  const hab = -(ax * bx + ay * by);
  const determinant = haa * hbb - hab * hab;
  // Where the Hessian is no valley, go straight downhill by the length that its diagonal suggests.
  const isValley = determinant > 0 && !(haa <= 0);
  move[0] = isValley ? (hab * gb - hbb * ga) / determinant : aa > 0 ? -ga / aa / 2 : 0;
  move[1] = isValley ? (hab * ga - haa * gb) / determinant : bb > 0 ? -gb / bb / 2 : 0;
}

/**
 * At a touching place the distance has no quadratic minimum, and the steps above only creep up to it. Newton's steps
 * on "parallel tangents, joined by their common normal" get there; kept if they lead no farther apart.
 */
function polishTangency(a: Curve, b: Curve, start: Approach, into: Approach, room: Room): Approach {
  let at = start;
  for (let step = 0; step < 8; step++) {
    putDerivativeAt(a, at.ta, room.a);
    putDerivativeAt(b, at.tb, room.b);
    const [ax, ay] = room.a;
    const [bx, by] = room.b;
    const sine = ax * by - ay * bx;
    if (sine * sine > NEAR_PARALLEL * NEAR_PARALLEL * (ax * ax + ay * ay) * (bx * bx + by * by)) break;
    const { stepA, stepB, determinant, size } = tangencyStep(a, at.ta, at.pa, b, at.tb, at.pb);
    if (Math.abs(determinant) <= SAME_BEND * size) break;
    const ta = clamp(at.ta + stepA);
    const tb = clamp(at.tb + stepB);
    if (ta === at.ta && tb === at.tb) break;
    measure(a, b, ta, tb, into);
    at = into;
  }
  const slack = ROUNDING * Math.max(Math.abs(start.pa[0]), Math.abs(start.pa[1]), 1);
  return Math.sqrt(at.square) <= Math.sqrt(start.square) + slack ? at : start;
}
