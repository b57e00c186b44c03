import { secondDerivativeAt } from '../curvature.js';
import { type Curve, derivativeAt, pointAt } from '../curve.js';
import type { Point } from '../point.js';

/** A place on a boundary: a curve of a loop, and its parameter. */
export interface BoundaryPlace {
  readonly loop: number;
  /** Index into the loop as given. */
  readonly curve: number;
  readonly t: number;
}

/** A straight way between two places of a boundary. */
export interface Chord {
  readonly a: BoundaryPlace;
  readonly b: BoundaryPlace;
  readonly from: Point;
  readonly to: Point;
  /** mm */
  readonly width: number;
}

type Loops = readonly (readonly Curve[])[];

/** Steps after which a chord is as short as it gets; Newton's method needs five or six. */
const MAX_STEPS = 60;

/** Keeps the second-order step defined where neighbouring chords are all equally long. */
const LEAST_DAMPING = 1e-9;

const FIRST_DAMPING = 1e-4;
const MOST_DAMPING = 1e8;

/** Rounding of a coordinate, relative; ends are as good as they get when they pull no more than this. */
const ROUNDING = 2 ** -49;

/** Where a derivative vanishes (a control point drawn back onto an end), the direction is read this far inside. */
const INSIDE = 2 ** -20;

/**
 * Slides both ends of a chord along the loops, over joints between curves, to a local minimum of its length: square
 * to smooth curves at both ends, or resting at a corner that points along the chord. Damped Newton steps on the
 * squared length. Where all chords nearby are equally long it ends near the start. Null when an end slides farther
 * than `reach` mm away.
 */
export function shortestChord(loops: Loops, a: BoundaryPlace, b: BoundaryPlace, reach: number): Chord | null {
  const start = makeChord(loops, a, b);
  let best = overJoints(loops, start);
  let pull = pullOf(loops, best);
  let damping = 0;
  for (let step = 0; step < MAX_STEPS && pull.most > 0; step++) {
    const next = overJoints(loops, takeStep(loops, best, pull, damping));
    const there = pullOf(loops, next);
    const slack = ROUNDING * size(best);
    const shorter = next.width < best.width - slack;
    if (shorter || (next.width <= best.width + slack && there.most < pull.most)) {
      best = next;
      pull = there;
      damping = damping <= FIRST_DAMPING ? 0 : damping / 16;
    } else {
      damping = damping === 0 ? FIRST_DAMPING : damping * 8;
      if (damping > MOST_DAMPING) break;
    }
  }
  const drift = Math.max(gap(best.from, start.from), gap(best.to, start.to));
  return drift <= reach ? best : null;
}

/** The chord between two places. */
export function makeChord(loops: Loops, a: BoundaryPlace, b: BoundaryPlace): Chord {
  const from = pointAt(loops[a.loop][a.curve], a.t);
  const to = pointAt(loops[b.loop][b.curve], b.t);
  return { a, b, from, to, width: gap(from, to) };
}

function gap(p: Point, q: Point): number {
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
}

function size({ from, to }: Chord): number {
  return Math.max(Math.abs(from[0]), Math.abs(from[1]), Math.abs(to[0]), Math.abs(to[1]));
}

/** How the chord pulls at its ends: half the change of the squared length by t, and the larger as mm. */
interface Pull {
  readonly a: number;
  readonly b: number;
  /** Largest component of the chord along the boundary at an end that can give way, mm; 0 when there is none. */
  readonly most: number;
}

function pullOf(loops: Loops, chord: Chord): Pull {
  const [wx, wy] = [chord.from[0] - chord.to[0], chord.from[1] - chord.to[1]];
  const slack = ROUNDING * (size(chord) + chord.width);
  const ends = [endPull(loops, chord.a, wx, wy), endPull(loops, chord.b, -wx, -wy)].map(
    ({ along, speed }, i) => {
      const { t } = i === 0 ? chord.a : chord.b;
      const held = Math.abs(along) <= slack * speed || (t === 0 && along > 0) || (t === 1 && along < 0);
      return held ? { along: 0, most: 0 } : { along, most: Math.abs(along) / speed };
    },
  );
  return { a: ends[0].along, b: ends[1].along, most: Math.max(ends[0].most, ends[1].most) };
}

function endPull(
  loops: Loops,
  place: BoundaryPlace,
  wx: number,
  wy: number,
): { along: number; speed: number } {
  const c = loops[place.loop][place.curve];
  let [x, y] = derivativeAt(c, place.t);
  if (x === 0 && y === 0) [x, y] = derivativeAt(c, place.t + (place.t < 0.5 ? INSIDE : -INSIDE));
  return { along: wx * x + wy * y, speed: Math.hypot(x, y) };
}

/** Moves ends that lie at a joint, held by their own curve, to the neighbour where it lets the chord get shorter. */
function overJoints(loops: Loops, chord: Chord): Chord {
  const [wx, wy] = [chord.from[0] - chord.to[0], chord.from[1] - chord.to[1]];
  const slack = ROUNDING * (size(chord) + chord.width);
  const a = overJoint(loops, chord.a, wx, wy, slack);
  const b = overJoint(loops, chord.b, -wx, -wy, slack);
  return a === chord.a && b === chord.b ? chord : makeChord(loops, a, b);
}

function overJoint(loops: Loops, place: BoundaryPlace, wx: number, wy: number, slack: number): BoundaryPlace {
  if (place.t > 0 && place.t < 1) return place;
  const way = place.t === 0 ? -1 : 1;
  const own = endPull(loops, place, wx, wy);
  if (own.along * way > slack * own.speed) return place;
  const count = loops[place.loop].length;
  const curve = (place.curve + way + count) % count;
  const beside: BoundaryPlace = { loop: place.loop, curve, t: way > 0 ? 0 : 1 };
  const there = endPull(loops, beside, wx, wy);
  return there.along * way < -slack * there.speed ? beside : place;
}

/** One damped Newton step on half the squared length; held ends stay. */
function takeStep(loops: Loops, chord: Chord, pull: Pull, damping: number): Chord {
  const [wx, wy] = [chord.from[0] - chord.to[0], chord.from[1] - chord.to[1]];
  const [p, q] = [loops[chord.a.loop][chord.a.curve], loops[chord.b.loop][chord.b.curve]];
  const [ax, ay] = derivativeAt(p, chord.a.t);
  const [bx, by] = derivativeAt(q, chord.b.t);
  const [aax, aay] = secondDerivativeAt(p, chord.a.t);
  const [bbx, bby] = secondDerivativeAt(q, chord.b.t);
  const ridge = 1 + Math.max(damping, LEAST_DAMPING);
  const speedA = ax * ax + ay * ay;
  const speedB = bx * bx + by * by;
  const haa = ridge * speedA + wx * aax + wy * aay;
  const hbb = ridge * speedB - (wx * bbx + wy * bby);
  const hab = -(ax * bx + ay * by);
  const determinant = haa * hbb - hab * hab;
  let da: number;
  let db: number;
  if (isHeld(chord.a, pull.a)) {
    da = 0;
    db = downhill(pull.b, hbb, ridge * speedB);
  } else if (isHeld(chord.b, pull.b)) {
    da = downhill(pull.a, haa, ridge * speedA);
    db = 0;
  } else if (determinant > 0 && haa > 0) {
    da = (hab * pull.b - hbb * pull.a) / determinant;
    db = (hab * pull.a - haa * pull.b) / determinant;
  } else {
    da = downhill(pull.a, 0, 2 * ridge * speedA);
    db = downhill(pull.b, 0, 2 * ridge * speedB);
  }
  return makeChord(loops, moved(chord.a, da), moved(chord.b, db));
}

/** An end of a curve that the chord does not pull inwards stays there while the other end moves. */
function isHeld(place: BoundaryPlace, pull: number): boolean {
  return (place.t === 0 || place.t === 1) && pull === 0;
}

/** Newton's step where the second derivative is positive, else a plain step downhill. */
function downhill(pull: number, second: number, fallback: number): number {
  if (pull === 0) return 0;
  return -pull / (second > 0 ? second : fallback);
}

function moved(place: BoundaryPlace, by: number): BoundaryPlace {
  return { ...place, t: Math.min(1, Math.max(0, place.t + by)) };
}
