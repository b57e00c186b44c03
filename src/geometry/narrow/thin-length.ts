import { distance, lerp, type Point } from '../point.js';
import { middle, type PlacedChord, sampleAfter, sampleFrom } from './neighbouring-necks.js';
import { alongOf, inwards, type Spot, walkedLength } from './spot.js';
import { type TangentDisc, tangentDisc } from './tangent-disc.js';
import { contactOf, discOf, partOf, radiusOf, samplesOfLoop, type WidthProfile } from './width-profile.js';

/** A walk ends after this many needed widths of boundary: longer is just long. */
const LONGEST_WALK = 24;

/**
 * A disc that touches the boundary twice within this many of its diameters sits in a corner beside the way. Across a
 * corner of angle α the two points are 1/tan(α/2) diameters apart along the boundary, 3.7 at 30°.
 */
const IN_CORNER = 4;

/** Directions looked at where the way starts at a corner. */
const START_LOOKS = 4;

/** Cosine of two directions that are as good as opposite. */
const OPPOSITE = -0.99;

/** Halvings with which the place is found where a way gets wide at once. */
const HALVINGS = 8;

/** How a narrow place goes on to one side. */
interface Way {
  readonly length: number;
  /** How it ends: where the area gets wide, at its end or after a whole turn, or cut short for its length. */
  readonly end: 'wide' | 'round' | 'long';
}

/**
 * How long an area stays narrower than `needed` about a chord: the way of the centres of the discs, both ways, mm.
 * Each way is walked on both sides of the chord; the side that gets out into the wide on the shorter way counts,
 * since the other one may lead through a pocket. Walks end after 24 needed widths. Good to a few parts in a hundred.
 */
export function thinLength(p: WidthProfile, chord: PlacedChord, needed: number): number {
  const { a, b } = chord;
  const [ahead, behind] = [
    better(walk(p, chord, a, b, 1, needed), walk(p, chord, b, a, -1, needed)),
    better(walk(p, chord, a, b, -1, needed), walk(p, chord, b, a, 1, needed)),
  ];
  const sum = ahead.length + behind.length;
  // Round a ring both ways lead over the same ground.
  const [one, other] = [chord.chord.a.loop, chord.chord.b.loop];
  const ring = one !== other && ahead.end !== 'wide' && behind.end !== 'wide';
  const { loopLength } = p.boundary;
  return ring ? Math.min(sum, (loopLength[one] + loopLength[other]) / 2) : sum;
}

function better(one: Way, other: Way): Way {
  if (one.end === 'wide' && other.end === 'wide') return one.length < other.length ? one : other;
  if (one.end === 'wide' || other.end === 'wide') return one.end === 'wide' ? one : other;
  return one.length > other.length ? one : other;
}

/** The walk so far: the last centre and width. */
interface Walk {
  here: Point;
  width: number;
  length: number;
}

/** Goes on to the next disc; the rest of the way, where that passes the needed width. */
function goOn(walk: Walk, next: Point, width: number, needed: number): Way | null {
  const step = distance(walk.here, next);
  if (width >= needed) {
    // Between two discs the width is taken to change evenly.
    const rest = (step * (needed - walk.width)) / (width - walk.width);
    return { length: walk.length + rest, end: 'wide' };
  }
  walk.length += step;
  walk.here = next;
  walk.width = width;
  return null;
}

function walk(p: WidthProfile, chord: PlacedChord, from: Spot, to: Spot, way: 1 | -1, needed: number): Way {
  const b = p.boundary;
  const loop = b.loop[from.segment];
  const { width } = chord.chord;
  const state: Walk = { here: middle(chord.chord), width, length: 0 };
  const early = leaveCorner(p, chord, from, way, needed, state);
  if (early !== null) return early;
  const [low, high] = samplesOfLoop(p, loop);
  const start = alongOf(b, from);
  const passed = (along: number): number =>
    way > 0 ? walkedLength(b, loop, start, along) : walkedLength(b, loop, along, start);
  // On one loop the walk meets the other side half way, at the end of what hangs on the chord.
  const ends = b.loop[to.segment] === loop;
  let round = ends ? passed(alongOf(b, to)) : b.loopLength[loop];
  let reached = 0;
  let k = way > 0 ? sampleAfter(p, from) : sampleFrom(p, from) - 1;
  for (let count = high - low; count > 0; count--, k += way) {
    if (k < low) k = high - 1;
    if (k >= high) k = low;
    const along = alongOf(b, { segment: p.segment[k], part: partOf(p, k) });
    const done = passed(along);
    if (done >= LONGEST_WALK * needed) return { length: state.length, end: 'long' };
    if (done >= round) {
      // What is left at the end: half the boundary between the two sides, less the end's own width.
      const left = ends ? Math.max(0, (round - reached - state.width) / 2) : 0;
      return { length: state.length + left, end: 'round' };
    }
    const radius = radiusOf(p, k);
    if (radius === Number.POSITIVE_INFINITY) {
      return reachWide(
        discsTowards(p, k - way < low ? high - 1 : k - way >= high ? low : k - way, k),
        needed,
        state,
      );
    }
    if (sitsInCorner(p, k, loop, along)) continue;
    if (b.loop[p.otherSegment[k]] === loop) round = Math.min(round, passed(otherAlong(p, k)));
    const out = goOn(state, [p.x[k], p.y[k]], 2 * radius, needed);
    if (out !== null) return out;
    reached = done;
  }
  return { length: state.length, end: 'round' };
}

/** Turns about the corner that a chord starts from, as far as its normals go. */
function leaveCorner(
  p: WidthProfile,
  { chord, a }: PlacedChord,
  from: Spot,
  way: 1 | -1,
  needed: number,
  state: Walk,
): Way | null {
  if (from.part !== 0 || chord.width === 0) return null;
  const b = p.boundary;
  const v = from.segment;
  const sign = from === a ? 1 : -1;
  const across: Point = [
    (sign * (chord.to[0] - chord.from[0])) / chord.width,
    (sign * (chord.to[1] - chord.from[1])) / chord.width,
  ];
  const last = inwards(b, way > 0 ? v : b.prev[v]);
  const discAt = (share: number): TangentDisc | null => {
    const [x, y] = lerp(across, last, share);
    const length = Math.hypot(x, y);
    return tangentDisc(b, b.x[v], b.y[v], x / length, y / length, v, b.prev[v], p.limit);
  };
  // Opposite directions have no middle; the walk goes on from beside the corner then.
  if (across[0] * last[0] + across[1] * last[1] < OPPOSITE) return null;
  for (let i = 1; i < START_LOOKS; i++) {
    const disc = discAt(i / START_LOOKS);
    if (disc === null) {
      return reachWide((s) => discAt((i - 1 + s) / START_LOOKS), needed, state);
    }
    const out = goOn(state, [disc.x, disc.y], 2 * disc.radius, needed);
    if (out !== null) return out;
  }
  return null;
}

/** Discs from the one before a sample to that of the sample; 0 to 1. */
function discsTowards(p: WidthProfile, before: number, k: number): (share: number) => TangentDisc | null {
  const [c, d] = [contactOf(p, before), contactOf(p, k)];
  return (share) => {
    const [x, y] = lerp([c.x, c.y], [d.x, d.y], share);
    const [nx, ny] = lerp([c.nx, c.ny], [d.nx, d.ny], share);
    const length = Math.hypot(nx, ny);
    const contact = { x, y, nx: nx / length, ny: ny / length, own: c.own, own2: d.own };
    return length === 0 ? null : discOf(p.boundary, contact, p.limit);
  };
}

/** Goes on to where the discs pass the needed width, when that of share 1 is far wider. */
function reachWide(discAt: (share: number) => TangentDisc | null, needed: number, state: Walk): Way {
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const share = (low + high) / 2;
    const disc = discAt(share);
    if (disc === null) {
      high = share;
      continue;
    }
    low = share;
    const out = goOn(state, [disc.x, disc.y], 2 * disc.radius, needed);
    if (out !== null) return out;
  }
  return { length: state.length, end: 'wide' };
}

function otherAlong(p: WidthProfile, k: number): number {
  return alongOf(p.boundary, { segment: p.otherSegment[k], part: p.otherPart[k] });
}

function sitsInCorner(p: WidthProfile, k: number, loop: number, along: number): boolean {
  const b = p.boundary;
  if (b.loop[p.otherSegment[k]] !== loop) return false;
  const ahead = walkedLength(b, loop, along, otherAlong(p, k));
  return Math.min(ahead, b.loopLength[loop] - ahead) < IN_CORNER * 2 * p.radius[k];
}
