import { insideAngle } from './boundary-corners.js';
import type { AreaBoundary } from './narrow/area-boundary.js';
import { sharpTurns } from './narrow/sharp-turns.js';
import type { BoundaryPlace } from './narrow/shortest-chord.js';
import { alongOf, placeOf, type Spot, spotAhead, walkedLength } from './narrow/spot.js';
import { areaSums, walkedArea } from './narrow/walked-area.js';
import {
  discFrom,
  firstSample,
  partOf,
  radiusOf,
  samplesOfLoop,
  type WidthProfile,
  widthProfile,
} from './narrow/width-profile.js';
import { distance, lerp, type Point } from './point.js';

/** A part of an area that stays narrower than needed from its root to its free end: a tip, a finger. */
export interface ThinEnd {
  /** The two boundary points at which the width passes the needed one. */
  readonly root: readonly [Point, Point];
  /** The point of the end farthest from its root. */
  readonly tip: Point;
  readonly tipPlace: BoundaryPlace;
  /** Inside angle at the tip, degrees, where it is a corner; null where it is round. */
  readonly angle: number | null;
  /** From the middle of the root to the tip, mm. */
  readonly length: number;
  /** mm², by the true curves. */
  readonly area: number;
}

/** An outline that is narrower than needed everywhere. */
export interface ThinOutline {
  readonly loop: number;
  /** The largest width in it that was met at a sample, mm. */
  readonly widest: number;
}

/** What `thinEnds` finds. */
export interface ThinEnds {
  readonly ends: readonly ThinEnd[];
  readonly outlines: readonly ThinOutline[];
}

/** Choices of `thinEnds`. */
export interface ThinEndsOptions {
  /** Shortest end to report, as multiple of the needed width. Default 1.5: a tip of less than 39°. */
  readonly least?: number;
}

export const THIN_ENDS_DEFAULTS: Required<ThinEndsOptions> = { least: 1.5 };

/**
 * Samples of the width on straight stretches, as parts of the needed width: the finer ones are taken where the coarse
 * ones have missed a place that is just wide enough.
 */
const SAMPLE_STEPS = [1 / 4, 1 / 16, 1 / 64];

/** A root may be this much wider than needed, since it lies on flattened curves. */
const ROOT_SLACK = 1.001;

/** Halvings with which the root of an end is found. */
const HALVINGS = 20;

/**
 * Parts of an area that are narrower than `needed` mm and hang on one side only, and outlines that are so as a whole.
 * An end is a stretch of boundary along which all discs inside are smaller, whose two limits face each other.
 * Thin parts that hold at both sides have a neck: see `narrowPlaces`. From top to bottom, by the tip.
 */
export function thinEnds(b: AreaBoundary, needed: number, options: ThinEndsOptions = {}): ThinEnds {
  const { least } = { ...THIN_ENDS_DEFAULTS, ...options };
  if (!(needed > 0)) return { ends: [], outlines: [] };
  const coarse = widthProfile(b, needed / 2, SAMPLE_STEPS[0] * needed);
  const sums = areaSums(b);
  const ends: ThinEnd[] = [];
  const outlines: ThinOutline[] = [];
  for (let loop = 0; loop < b.loops.length; loop++) {
    const profileAt = (level: number): WidthProfile =>
      level === 0 ? coarse : widthProfile(b, needed / 2, SAMPLE_STEPS[level] * needed, loop);
    if (b.outline[loop] === loop && isThin(coarse, loop)) {
      const fine = profileAt(1);
      if (isThin(fine, loop)) {
        outlines.push({ loop, widest: widest(fine, loop) });
        continue;
      }
    }
    const found = endsOfLoop(profileAt, sums, loop, sharpTurns(b, loop, needed));
    ends.push(...found.filter((end) => end.length >= least * needed));
  }
  ends.sort((p, q) => p.tip[1] - q.tip[1] || p.tip[0] - q.tip[0]);
  return { ends, outlines };
}

/** The thin ends of a loop, by the coarsest samples that keep them apart: both limits of each lie on one disc. */
function endsOfLoop(
  profileAt: (level: number) => WidthProfile,
  sums: readonly Float64Array[],
  loop: number,
  turns: readonly number[],
): ThinEnd[] {
  for (let level = 0; ; level++) {
    const p = profileAt(level);
    const ends = thinRuns(p, loop, turns)
      .filter(([first, last]) => facesItself(p, loop, first, last))
      .map(([first, last]) => measureEnd(p, sums, loop, first, last));
    const sound = ends.filter(({ root }) => distance(root[0], root[1]) <= ROOT_SLACK * 2 * p.limit);
    if (sound.length === ends.length || level + 1 === SAMPLE_STEPS.length) return sound;
  }
}

function isThin(p: WidthProfile, loop: number): boolean {
  const [low, high] = samplesOfLoop(p, loop);
  if (low === high) return false;
  for (let k = low; k < high; k++) if (radiusOf(p, k) === Number.POSITIVE_INFINITY) return false;
  return true;
}

function widest(p: WidthProfile, loop: number): number {
  const [low, high] = samplesOfLoop(p, loop);
  let most = 0;
  for (let k = low; k < high; k++) most = Math.max(most, 2 * radiusOf(p, k));
  return most;
}

/** First and last sample of the runs of thin samples about some vertices, each run once. */
function thinRuns(p: WidthProfile, loop: number, vertices: readonly number[]): [number, number][] {
  const [low, high] = samplesOfLoop(p, loop);
  const step = (k: number, way: 1 | -1): number =>
    k + way < low ? high - 1 : k + way >= high ? low : k + way;
  const isNarrow = (k: number): boolean => radiusOf(p, k) !== Number.POSITIVE_INFINITY;
  const seen = new Set<number>();
  const runs: [number, number][] = [];
  for (const v of vertices) {
    const seed = [firstSample(p, v), step(firstSample(p, v), -1)].find(isNarrow);
    if (seed === undefined || seen.has(seed)) continue;
    let [first, last] = [seed, seed];
    seen.add(seed);
    for (let k = step(seed, 1); k !== seed && isNarrow(k); k = step(k, 1)) {
      seen.add(k);
      last = k;
    }
    if (step(last, 1) === seed) continue;
    for (let k = step(seed, -1); isNarrow(k); k = step(k, -1)) {
      seen.add(k);
      first = k;
    }
    runs.push([first, last]);
  }
  return runs;
}

/** Whether the disc at the first sample of a run touches the run again: then no other boundary bounds the thin part. */
function facesItself(p: WidthProfile, loop: number, first: number, last: number): boolean {
  const b = p.boundary;
  const faces = (k: number): boolean => {
    const other: Spot = { segment: p.otherSegment[k], part: p.otherPart[k] };
    if (b.loop[other.segment] !== loop) return false;
    const start = alongOf(b, spotOfSample(p, first)) - p.limit;
    const run = walkedLength(b, loop, alongOf(b, spotOfSample(p, first)), alongOf(b, spotOfSample(p, last)));
    const from = start < 0 ? start + b.loopLength[loop] : start;
    return walkedLength(b, loop, from, alongOf(b, other)) <= run + 2 * p.limit;
  };
  return faces(first) && faces(last);
}

function spotOfSample(p: WidthProfile, k: number): Spot {
  return { segment: p.segment[k], part: partOf(p, k) };
}

function measureEnd(
  p: WidthProfile,
  sums: readonly Float64Array[],
  loop: number,
  first: number,
  last: number,
): ThinEnd {
  const b = p.boundary;
  const from = rootSpot(p, first, -1);
  const to = rootSpot(p, last, 1);
  const [start, stop] = [pointOf(b, from), pointOf(b, to)];
  const middle = lerp(start, stop, 0.5);
  let tip = from;
  for (let i = from.segment; i !== to.segment; i = b.next[i]) {
    const vertex: Spot = { segment: b.next[i], part: 0 };
    if (distance(pointOf(b, vertex), middle) > distance(pointOf(b, tip), middle)) tip = vertex;
  }
  return {
    root: [start, stop],
    tip: pointOf(b, tip),
    tipPlace: placeOf(b, tip),
    angle: tipAngle(b, loop, tip),
    length: distance(pointOf(b, tip), middle),
    area: walkedArea(b, sums, placeOf(b, from), placeOf(b, to)),
  };
}

/** The spot between a sample of a run and the wide one beside it where the width passes the limit. */
function rootSpot(p: WidthProfile, k: number, way: 1 | -1): Spot {
  const b = p.boundary;
  const thin = spotOfSample(p, k);
  const loop = b.loop[thin.segment];
  const [low, high] = samplesOfLoop(p, loop);
  const beside = k + way < low ? high - 1 : k + way >= high ? low : k + way;
  const wide = spotOfSample(p, beside);
  const [a, c] = [alongOf(b, thin), alongOf(b, wide)];
  const length = way > 0 ? walkedLength(b, loop, a, c) : walkedLength(b, loop, c, a);
  const origin = way > 0 ? thin : wide;
  let [near, far] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const share = (near + far) / 2;
    const spot = spotAhead(b, origin, way > 0 ? share * length : (1 - share) * length);
    if (discFrom(b, spot, p.limit) === null) far = share;
    else near = share;
  }
  return spotAhead(b, origin, way > 0 ? near * length : (1 - near) * length);
}

function pointOf(b: AreaBoundary, { segment, part }: Spot): Point {
  const end = b.next[segment];
  return [b.x[segment] + part * (b.x[end] - b.x[segment]), b.y[segment] + part * (b.y[end] - b.y[segment])];
}

/** Inside angle at a vertex where two curves meet; null in the middle of a curve and at smooth joints. */
function tipAngle(b: AreaBoundary, loop: number, { segment }: Spot): number | null {
  const curves = b.loops[loop];
  const [before, after] = [b.curve[b.prev[segment]], b.curve[segment]];
  if (b.t0[segment] !== 0 && b.t0[segment] !== 1) return null;
  const [one, other] = b.sense[loop] > 0 ? [before, after] : [after, before];
  const angle = insideAngle(curves[one], curves[other], b.sense[loop]);
  return Math.abs(angle - 180) < SMOOTH ? null : angle;
}

/** Degrees by which two curves that meet smoothly may turn. */
const SMOOTH = 5;
