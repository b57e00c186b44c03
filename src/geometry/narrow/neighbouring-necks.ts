import { distance, lerp, type Point } from '../point.js';
import type { AreaBoundary } from './area-boundary.js';
import { type Chord, shortestChord } from './shortest-chord.js';
import { alongOf, placeOf, type Spot, spotAhead, spotOf, walkedLength } from './spot.js';
import { discFrom, partOf, radiusOf, type WidthProfile } from './width-profile.js';

/** A chord with both ends found on the segments. */
export interface PlacedChord {
  readonly chord: Chord;
  readonly a: Spot;
  readonly b: Spot;
}

/** Chords that differ by less than this in width, mm, count as equal: a nanometre, above rounding. */
const EQUAL_WIDTH = 1e-6;

/**
 * Puts chords together that are minima of one narrow place: neighbours along the boundary between which the
 * width nowhere rises `rise` mm above both. One chord comes out for each place: the shortest, and the one in
 * the middle where several are equally short.
 */
export function onePerPlace(
  profile: WidthProfile,
  chords: readonly PlacedChord[],
  rise: number,
): PlacedChord[] {
  const b = profile.boundary;
  const group = chords.map((_, i) => i);
  const root = (i: number): number => {
    while (group[i] !== i) {
      group[i] = group[group[i]];
      i = group[i];
    }
    return i;
  };
  for (const [one, other] of neighbours(b, chords)) {
    const [i, j] = [root(one.chord), root(other.chord)];
    if (i === j) continue;
    const most = Math.max(chords[one.chord].chord.width, chords[other.chord].chord.width) + rise;
    if (staysUnder(profile, one.spot, other.spot, most / 2)) group[Math.max(i, j)] = Math.min(i, j);
  }
  const members = new Map<number, PlacedChord[]>();
  chords.forEach((c, i) => {
    const list = members.get(root(i));
    if (list === undefined) members.set(root(i), [c]);
    else list.push(c);
  });
  return [...members.values()].map((list) => middleOfShortest(profile, list));
}

export function middle({ from, to }: Chord): Point {
  return lerp(from, to, 0.5);
}

/** One end of a chord, in the order of the boundary. */
interface End {
  readonly chord: number;
  readonly spot: Spot;
  readonly loop: number;
  readonly along: number;
}

/** Pairs of ends that follow each other on a loop, walking forward. */
function neighbours(b: AreaBoundary, chords: readonly PlacedChord[]): [End, End][] {
  const ends = chords
    .flatMap(({ a, b: other }, chord) => [a, other].map((spot) => ({ chord, spot })))
    .map((end): End => ({ ...end, loop: b.loop[end.spot.segment], along: alongOf(b, end.spot) }))
    .sort((p, q) => p.loop - q.loop || p.along - q.along || p.chord - q.chord);
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

/** Whether all discs on the boundary between two spots, walking forward, stay under a radius. */
function staysUnder(p: WidthProfile, from: Spot, to: Spot, radius: number): boolean {
  const b = p.boundary;
  const [first, beyond] = [sampleAfter(p, from), sampleFrom(p, to)];
  const loop = b.loop[from.segment];
  const [low, high] = [p.start[b.first[loop]], p.start[b.first[loop + 1]]];
  const count = first <= beyond && !wraps(b, from, to) ? beyond - first : beyond - first + high - low;
  if (count === 0) {
    // No sample between: the two lie on one segment, or on two that meet.
    const spot =
      from.segment === to.segment ? { segment: from.segment, part: (from.part + to.part) / 2 } : to;
    const disc = discFrom(b, spot, p.limit);
    return disc !== null && disc.radius < radius;
  }
  const at = (i: number): number => (first + i < high ? first + i : first + i - (high - low));
  // A place that widens does so most likely half way.
  if (radiusOf(p, at(count >> 1)) >= radius) return false;
  for (let i = 0; i < count; i++) if (radiusOf(p, at(i)) >= radius) return false;
  return true;
}

/** Whether walking forward from one spot to another of the same loop passes the loop's first vertex. */
function wraps(b: AreaBoundary, from: Spot, to: Spot): boolean {
  return alongOf(b, to) < alongOf(b, from);
}

/**
 * The first sample beyond a spot. A fan at the spot itself is passed over: it looks to both sides of a chord that
 * ends there. Behind the last sample of a loop comes the first of the next loop.
 */
export function sampleAfter(p: WidthProfile, { segment, part }: Spot): number {
  let k = p.start[segment];
  while (k < p.start[segment + 1] && partOf(p, k) <= part) k++;
  return k;
}

/** The first sample at or beyond a spot, a fan there included. */
export function sampleFrom(p: WidthProfile, { segment, part }: Spot): number {
  let k = p.start[segment];
  while (k < p.start[segment + 1] && partOf(p, k) < part) k++;
  return k;
}

/** The shortest of the chords; of a row of equally short ones, one in the middle of the row. */
function middleOfShortest(p: WidthProfile, list: readonly PlacedChord[]): PlacedChord {
  const least = Math.min(...list.map((c) => c.chord.width));
  const equal = list.filter((c) => c.chord.width <= least + EQUAL_WIDTH);
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
