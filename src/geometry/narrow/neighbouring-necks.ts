import { distance, lerp, type Point } from '../point.js';
import type { AreaBoundary } from './area-boundary.js';
import { type Side, widestBetween } from './rise-between.js';
import { type Chord, shortestChord } from './shortest-chord.js';
import { alongOf, placeOf, type Spot, spotAhead, spotOf, walkedLength } from './spot.js';
import {
  discFrom,
  firstSample,
  radiusOf,
  sampleBeyond,
  samplesOfLoop,
  type WidthProfile,
} from './width-profile.js';

/** A chord with both ends found on the segments. */
export interface PlacedChord {
  readonly chord: Chord;
  readonly a: Spot;
  readonly b: Spot;
  /** Set where the chord was found as one of many across an even strip, with no vertex to hold it. */
  readonly strip?: true;
}

/** Chords that differ by less than this in width, mm, count as equal: a nanometre, above rounding. */
export const EQUAL_WIDTH = 1e-6;

/**
 * Puts chords together that are minima of one narrow place. Of neighbours along the boundary, those between which the
 * area gets least wide go first: where that is less than `rise` mm above the least width of either side's place, the two
 * are one. So each minimum that lies `rise` below every way out of it is kept, however many shallow ones lie on
 * the way. One chord comes out for each place: the shortest, and the one in the middle where several are equally short.
 */
export function onePerPlace(
  profile: WidthProfile,
  chords: readonly PlacedChord[],
  rise: number,
): PlacedChord[] {
  const group = chords.map((_, i) => i);
  const root = (i: number): number => {
    while (group[i] !== i) {
      group[i] = group[group[i]];
      i = group[i];
    }
    return i;
  };
  // The root of a place is its shortest chord.
  const width = (i: number): number => chords[i].chord.width;
  for (const { one, other, widest } of passes(profile, chords, rise)) {
    const [i, j] = [root(one), root(other)];
    if (i === j || widest >= Math.max(width(i), width(j)) + rise) continue;
    const first = width(i) < width(j) || (width(i) === width(j) && i < j);
    group[first ? j : i] = first ? i : j;
  }
  const members = new Map<number, PlacedChord[]>();
  chords.forEach((c, i) => {
    const list = members.get(root(i));
    if (list === undefined) members.set(root(i), [c]);
    else list.push(c);
  });
  return [...members.values()].map((list) => middleOfShortest(profile, list));
}

/** A way between two neighbouring chords, and the largest width on it, mm. */
interface Pass {
  readonly one: number;
  readonly other: number;
  readonly widest: number;
}

/** The ways between neighbours that rise less than `rise` above both, the narrowest first. */
function passes(p: WidthProfile, chords: readonly PlacedChord[], rise: number): Pass[] {
  const found: Pass[] = [];
  const seen = new Set<number>();
  for (const [one, other] of neighbours(p.boundary, chords)) {
    // Neighbours on both sides come twice: walking forward on the other side, the other way round.
    const ends = 2 * chords.length;
    if (seen.has(acrossFrom(other.id) * ends + acrossFrom(one.id))) continue;
    seen.add(one.id * ends + other.id);
    const wider = Math.max(chords[one.chord].chord.width, chords[other.chord].chord.width);
    const widest = Math.max(wider, widestOnWay(p, one, other, (wider + rise) / 2));
    if (widest < wider + rise) found.push({ one: one.chord, other: other.chord, widest });
  }
  return found.sort((s, t) => s.widest - t.widest || s.one - t.one || s.other - t.other);
}

export function middle({ from, to }: Chord): Point {
  return lerp(from, to, 0.5);
}

/** The other end of the same chord. */
function acrossFrom(end: number): number {
  return end ^ 1;
}

/** One end of a chord, in the order of the boundary. */
interface End extends Side {
  /** Twice the index of the chord, and one more for its second end. */
  readonly id: number;
  readonly chord: number;
  /** The other end. */
  readonly across: Spot;
  readonly loop: number;
  readonly along: number;
}

/** Pairs of ends that follow each other on a loop, walking forward. */
function neighbours(b: AreaBoundary, chords: readonly PlacedChord[]): [End, End][] {
  const ends = chords
    .flatMap(({ chord: { from, to }, a, b: other }, chord) => [
      { id: 2 * chord, chord, spot: a, across: other, way: unit(from, to) },
      { id: 2 * chord + 1, chord, spot: other, across: a, way: unit(to, from) },
    ])
    .map((end): End => ({ ...end, loop: b.loop[end.spot.segment], along: alongOf(b, end.spot) }))
    .sort((p, q) => p.loop - q.loop || p.along - q.along || turnOf(p.way, q.way) || p.chord - q.chord);
  const pairs: [End, End][] = [];
  let first = 0;
  for (let i = 0; i < ends.length; i++) {
    const last = i + 1 === ends.length || ends[i + 1].loop !== ends[i].loop;
    const next = last ? first : i + 1;
    if (next !== i && ends[next].chord !== ends[i].chord) pairs.push([ends[i], ends[next]]);
    if (last) first = i + 1;
  }
  return pairs;
}

function unit(from: Point, to: Point): Point {
  const length = distance(from, to);
  return length === 0 ? [0, 0] : [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
}

/** Negative where a turn from p to q goes the way that the inward normal turns round a reflex corner. */
function turnOf(p: Point, q: Point): number {
  return p[0] * q[1] - p[1] * q[0];
}

/** The largest width between two chords next to each other, seen from either side; Infinity from `2 radius` on. */
function widestOnWay(p: WidthProfile, one: End, other: End, radius: number): number {
  const b = p.boundary;
  if (b.loop[one.across.segment] !== b.loop[other.across.segment]) return Number.POSITIVE_INFINITY;
  if (isWideHalfWay(p, one.spot, other.spot, radius)) return Number.POSITIVE_INFINITY;
  const near = widestBetween(b, one, other, radius);
  if (near === Number.POSITIVE_INFINITY) return near;
  return Math.max(near, widestBetween(b, crossed(other), crossed(one), radius));
}

/** The end of the same chord on the other side. */
function crossed(end: End): Side {
  return { spot: end.across, way: [-end.way[0], -end.way[1]] };
}

/** A quick look at the sample in the middle: a place that widens does so there most likely. */
function isWideHalfWay(p: WidthProfile, from: Spot, to: Spot, radius: number): boolean {
  const b = p.boundary;
  const loop = b.loop[from.segment];
  const [first, beyond] = [sampleAfter(p, from), sampleFrom(p, to)];
  const [low, high] = samplesOfLoop(p, loop);
  const count = beyond - first + (alongOf(b, to) < alongOf(b, from) ? high - low : 0);
  if (count <= 0) return false;
  const k = first + (count >> 1);
  return radiusOf(p, k < high ? k : k - (high - low)) >= radius;
}

/**
 * The first sample beyond a spot. A fan at the spot itself is passed over: it looks to both sides of a chord that
 * ends there. Behind the last sample of a loop comes the first of the next loop.
 */
export function sampleAfter(p: WidthProfile, { segment, part }: Spot): number {
  return sampleBeyond(p, segment, part, false);
}

/** The first sample at or beyond a spot, a fan there included. */
export function sampleFrom(p: WidthProfile, { segment, part }: Spot): number {
  return part <= 0 ? firstSample(p, segment) : sampleBeyond(p, segment, part, true);
}

/** The shortest of the chords; of a row of equally short ones, one in the middle of the row. */
function middleOfShortest(p: WidthProfile, list: readonly PlacedChord[]): PlacedChord {
  const least = Math.min(...list.map((c) => c.chord.width));
  const shortest = list.filter((c) => c.chord.width <= least + EQUAL_WIDTH);
  // A strip that hangs on one end is held there, at the vertex where it gets wide.
  const held = shortest.filter((c) => c.strip !== true);
  const equal = held.length > 0 ? held : shortest;
  const one = farthest(equal, equal[0]);
  const other = farthest(equal, one);
  const between = one === other ? null : chordBetween(p, one, other);
  return between !== null && Math.abs(between.chord.width - least) <= EQUAL_WIDTH ? between : one;
}

function farthest(list: readonly PlacedChord[], from: PlacedChord): PlacedChord {
  const off = (c: PlacedChord): number => distance(middle(c.chord), middle(from.chord));
  return list.reduce((best, c) => (off(c) > off(best) ? c : best));
}

/** The chord from half way between two chords along the boundary, by the shorter side. */
function chordBetween(p: WidthProfile, one: PlacedChord, other: PlacedChord): PlacedChord | null {
  const b = p.boundary;
  let best: { from: Spot; length: number } | null = null;
  for (const [from, to] of [one.a, one.b].flatMap((s) =>
    [other.a, other.b].flatMap((t) => [
      [s, t],
      [t, s],
    ]),
  )) {
    const loop = b.loop[from.segment];
    if (b.loop[to.segment] !== loop) continue;
    const length = walkedLength(b, loop, alongOf(b, from), alongOf(b, to));
    if (best === null || length < best.length) best = { from, length };
  }
  if (best === null) return null;
  const spot = spotAhead(b, best.from, best.length / 2);
  const disc = discFrom(b, spot, p.limit);
  if (disc === null) return null;
  const chord = shortestChord(b.loops, placeOf(b, spot), placeOf(b, disc.other), p.limit);
  return chord === null ? null : { chord, a: spotOf(b, chord.a), b: spotOf(b, chord.b) };
}
