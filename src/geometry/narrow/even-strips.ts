import type { AreaBoundary } from './area-boundary.js';
import type { PlacedChord } from './neighbouring-necks.js';
import { PARALLEL, parallelSides } from './parallel-sides.js';
import { makeChord } from './shortest-chord.js';
import { placeOf, type Spot, segmentLength } from './spot.js';
import { discFrom } from './width-profile.js';

/**
 * Chords across strips between parallel straight sides, narrower than `limit` mm, one every `step` mm. Where no
 * reflex vertex stands at the end of a strip (a plain rectangle), nothing else finds them: all chords across are
 * equally short. Sides shorter than `limit` are passed over, and so are sides that are parallel to no other.
 */
export function evenStrips(b: AreaBoundary, limit: number, step: number): PlacedChord[] {
  const found: PlacedChord[] = [];
  for (const segment of parallelSides(b, limit, limit)) {
    const parts = Math.ceil(segmentLength(b, segment) / step);
    for (let k = 0; k < parts; k++) {
      const a: Spot = { segment, part: (k + 0.5) / parts };
      const disc = discFrom(b, a, limit / 2);
      if (disc === null || !facesAcross(b, segment, disc.other)) continue;
      const chord = makeChord(b.loops, placeOf(b, a), placeOf(b, disc.other));
      found.push({ chord, a, b: disc.other, strip: true });
    }
  }
  return found;
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
