import { nearestOnCurve } from '../nearest-on-curve.js';
import type { AreaBoundary } from './area-boundary.js';
import { segmentsInDisc, squareToSegment } from './disc-search.js';
import { middle, type PlacedChord } from './neighbouring-necks.js';
import type { OppositePlace } from './opposite-places.js';
import { makeChord, shortestChord } from './shortest-chord.js';
import { alongOf, placeOf, spotOf, walkedLength } from './spot.js';

/** What may reach into a disc and still count as touching it, mm: a tenth of a nanometre, above rounding. */
const TOUCH = 1e-7;

/** Chords whose middles round to the same multiple of this are one, mm. */
const SAME = 1e-5;

/**
 * Takes chords found on the segments to the true curves: each end slides to where the chord is shortest, and chords
 * whose disc then holds some part of the true boundary are dropped, as are those that slid together in a corner, or
 * that are not shorter than `limit`. Chords that come out the same are kept once.
 */
export function trueNecks(
  b: AreaBoundary,
  candidates: readonly OppositePlace[],
  limit: number,
): PlacedChord[] {
  const seen = new Set<string>();
  const necks: PlacedChord[] = [];
  for (const candidate of candidates) {
    const chord = placeChord(b, candidate, limit);
    if (chord === null || chord.chord.width >= limit) continue;
    const key = [...middle(chord.chord), chord.chord.width].map((v) => Math.round(v / SAME)).join();
    if (seen.has(key)) continue;
    seen.add(key);
    if (b.straight || discIsTrulyEmpty(b, chord)) necks.push(chord);
  }
  return necks;
}

function placeChord(
  b: AreaBoundary,
  { vertex, segment, part, width }: OppositePlace,
  reach: number,
): PlacedChord | null {
  const [a, other] = [
    { segment: vertex, part: 0 },
    { segment, part },
  ];
  const [from, to] = [placeOf(b, a), placeOf(b, other)];
  if (b.straight || width === 0) return { chord: makeChord(b.loops, from, to), a, b: other };
  const chord = shortestChord(b.loops, from, to, reach);
  if (chord === null) return null;
  const placed = { chord, a: spotOf(b, chord.a), b: spotOf(b, chord.b) };
  return slidTogether(b, placed) ? null : placed;
}

/** Whether the two ends have met in a corner, instead of across the area. */
function slidTogether(b: AreaBoundary, { chord, a, b: other }: PlacedChord): boolean {
  const loop = chord.a.loop;
  if (chord.width > TOUCH || chord.b.loop !== loop) return false;
  const ahead = walkedLength(b, loop, alongOf(b, a), alongOf(b, other));
  return Math.min(ahead, b.loopLength[loop] - ahead) <= b.tolerance;
}

/** Whether the true boundary nowhere enters the disc that has the chord as diameter. */
function discIsTrulyEmpty(b: AreaBoundary, { chord }: PlacedChord): boolean {
  const centre = middle(chord);
  const radius = chord.width / 2 - TOUCH;
  let empty = true;
  if (radius <= 0) return true;
  segmentsInDisc(b, centre[0], centre[1], radius + b.tolerance, (i) => {
    const curve = b.loops[b.loop[i]][b.curve[i]];
    const near =
      curve.kind === 'line'
        ? squareToSegment(b, i, centre[0], centre[1]) < radius * radius
        : nearestOnCurve(curve, centre, b.t0[i], b.t1[i]).distance < radius;
    if (near) empty = false;
    return near;
  });
  return empty;
}
