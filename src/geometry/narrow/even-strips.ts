import type { AreaBoundary } from './area-boundary.js';
import type { PlacedChord } from './neighbouring-necks.js';
import { PARALLEL, parallelSides } from './parallel-sides.js';
import { makeChord } from './shortest-chord.js';
import { placeOf, type Spot, segmentLength } from './spot.js';
import { discFrom } from './width-profile.js';

/**
 * Chords across strips between parallel straight sides, narrower than `limit` mm. Where no reflex vertex stands at the
 * end of a strip (a plain rectangle), nothing else finds them: all chords across are equally short. They are looked
 * for every `step` mm; of a row that meets one side across, the middle one comes out. Sides shorter than `limit` are
 * passed over, and so are sides that face no parallel one.
 */
export function evenStrips(b: AreaBoundary, limit: number, step: number): PlacedChord[] {
  const found: PlacedChord[] = [];
  for (const segment of parallelSides(b, limit, limit)) {
    const parts = Math.ceil(segmentLength(b, segment) / step);
    const at = (k: number): Spot => ({ segment, part: k / parts });
    const across = (k: number): number => chordAcross(b, at(k + 0.5), limit)?.b.segment ?? -1;
    for (let from = 0, to = 1, side = across(0); from < parts; to++) {
      const next = to < parts ? across(to) : -1;
      if (to < parts && next === side) continue;
      const middle = side < 0 ? null : chordAcross(b, at((from + to) / 2), limit);
      if (middle !== null) found.push(middle);
      [from, side] = [to, next];
    }
  }
  return found;
}

function chordAcross(b: AreaBoundary, a: Spot, limit: number): PlacedChord | null {
  const disc = discFrom(b, a, limit / 2);
  if (disc === null || !facesAcross(b, a.segment, disc.other)) return null;
  const chord = makeChord(b.loops, placeOf(b, a), placeOf(b, disc.other));
  return { chord, a, b: disc.other, strip: true };
}

function isStraight(b: AreaBoundary, segment: number): boolean {
  return b.loops[b.loop[segment]][b.curve[segment]].kind === 'line';
}

/** Whether the spot across lies inside a straight side that runs the other way. */
function facesAcross(b: AreaBoundary, segment: number, other: Spot): boolean {
  if (other.part <= 0 || other.part >= 1 || !isStraight(b, other.segment)) return false;
  const [ax, ay] = direction(b, segment);
  const [bx, by] = direction(b, other.segment);
  const lengths = Math.hypot(ax, ay) * Math.hypot(bx, by);
  return ax * bx + ay * by < 0 && Math.abs(ax * by - ay * bx) < PARALLEL * lengths;
}

function direction(b: AreaBoundary, i: number): [number, number] {
  return [b.x[b.next[i]] - b.x[i], b.y[b.next[i]] - b.y[i]];
}
