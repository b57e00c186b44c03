import { distance, type Point } from '../point.js';
import { middle, type PlacedChord, sampleAfter, sampleFrom } from './neighbouring-necks.js';
import { alongOf, type Spot, walkedLength } from './spot.js';
import { partOf, radiusOf, type WidthProfile } from './width-profile.js';

/** A walk ends after this many needed widths of boundary: longer is just long. */
const LONGEST_WALK = 24;

/**
 * A disc that touches the boundary twice within this many of its diameters sits in a corner beside the way. Across a
 * corner of angle α the two points are 1/tan(α/2) diameters apart along the boundary, 3.7 at 30°.
 */
const IN_CORNER = 4;

/** How far a narrow place goes one way. */
interface Stretch {
  readonly length: number;
  /** How it ends: where the area gets wide, at its end or after a whole turn, or cut short for its length. */
  readonly end: 'wide' | 'round' | 'long';
}

/**
 * How long an area stays narrower than `needed` about a chord: the way of the centres of the discs, both ways, mm.
 * Each way is walked on both sides of the chord; the side that gets out into the wide on a shorter way counts,
 * since the other one may lead through a pocket. Walks end after 24 needed widths.
 */
export function thinLength(p: WidthProfile, chord: PlacedChord, needed: number): number {
  const ways = [
    [walk(p, chord, chord.a, chord.b, 1, needed), walk(p, chord, chord.b, chord.a, -1, needed)],
    [walk(p, chord, chord.a, chord.b, -1, needed), walk(p, chord, chord.b, chord.a, 1, needed)],
  ];
  const [ahead, behind] = ways.map(([one, other]) => better(one, other));
  // Round a ring both ways lead over the same ground.
  const ring = chord.chord.a.loop !== chord.chord.b.loop && ahead.end === 'round' && behind.end === 'round';
  return ring ? Math.max(ahead.length, behind.length) : ahead.length + behind.length;
}

function better(one: Stretch, other: Stretch): Stretch {
  if (one.end === 'wide' && other.end === 'wide') return one.length < other.length ? one : other;
  if (one.end === 'wide' || other.end === 'wide') return one.end === 'wide' ? one : other;
  return one.length > other.length ? one : other;
}

function walk(
  p: WidthProfile,
  chord: PlacedChord,
  from: Spot,
  to: Spot,
  way: 1 | -1,
  needed: number,
): Stretch {
  const b = p.boundary;
  const loop = b.loop[from.segment];
  const [low, high] = [p.start[b.first[loop]], p.start[b.first[loop + 1]]];
  const start = alongOf(b, from);
  const passed = (along: number): number =>
    way > 0 ? walkedLength(b, loop, start, along) : walkedLength(b, loop, along, start);
  // On one loop the walk meets the other side half way, at the end of what hangs on the chord.
  const ends = b.loop[to.segment] === loop;
  let round = ends ? passed(alongOf(b, to)) : b.loopLength[loop];
  const most = LONGEST_WALK * needed;
  let here: Point = middle(chord.chord);
  let width = chord.chord.width;
  let length = 0;
  // What is left of the way at the end: half the boundary between the two sides, less the end's own width.
  let reached = 0;
  const left = (): number => Math.max(0, (round - reached - width) / 2);
  let k = way > 0 ? sampleAfter(p, from) : sampleFrom(p, from) - 1;
  for (let count = high - low; count > 0; count--, k += way) {
    if (k < low) k = high - 1;
    if (k >= high) k = low;
    const spot = { segment: p.segment[k], part: partOf(p, k) };
    const done = passed(alongOf(b, spot));
    if (done >= most) return { length, end: 'long' };
    if (done >= round) return { length: length + (ends ? left() : 0), end: 'round' };
    const radius = radiusOf(p, k);
    if (radius === Number.POSITIVE_INFINITY) return { length, end: 'wide' };
    if (sitsInCorner(p, k, loop, alongOf(b, spot))) continue;
    if (b.loop[p.otherSegment[k]] === loop) round = Math.min(round, passed(otherAlong(p, k)));
    const next: Point = [p.x[k], p.y[k]];
    const step = distance(here, next);
    if (2 * radius >= needed) {
      // The width is taken as even between two samples.
      const rest = (step * (needed - width)) / (2 * radius - width);
      return { length: length + rest, end: 'wide' };
    }
    length += step;
    reached = done;
    here = next;
    width = 2 * radius;
  }
  return { length, end: 'round' };
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
