import { borderDistance } from '../geometry/border-runs.js';
import { hypotenuse } from '../geometry/point.js';
import { type Pole, PoleSearch } from '../geometry/pole.js';

/** A label's place is found to this part of a region's smaller side: nobody sees the rest. */
const SIDE_PART = 0.03;

/** And to this part of area/perimeter, which is at most the room in a region: thin ones are met, not only neared. */
const THIN_PART = 0.5;

/** Places looked at along the border of a region that is too thin for the search. */
const MOST_PLACES = 256;

/**
 * A place well inside a region, near the one furthest from all its lines (`poleOf`), and its distance to them.
 * `rings` are its walks, the region on their left, x, y, stride 2, last point not repeated; `side` is the smaller
 * side of its box. All in mm. `search` saves arrays where many places are looked for.
 */
export function labelPlace(rings: readonly Float64Array[], side: number, search = new PoleSearch()): Pole {
  const thickness = thicknessOf(rings);
  const precision = Math.min(SIDE_PART * side, THIN_PART * thickness);
  let best = search.find(rings, precision);
  if (best.room > 0) return best;
  const distanceAt = borderDistance(rings);
  for (const [x, y] of alongBorder(rings, thickness)) {
    const room = distanceAt(x, y, best.room);
    if (room > best.room) best = { x, y, room };
  }
  return best;
}

/** Area by perimeter: no more than the radius of the largest disc inside. */
function thicknessOf(rings: readonly Float64Array[]): number {
  let twice = 0;
  let perimeter = 0;
  const [ox, oy] = rings.length > 0 ? rings[0] : [0, 0];
  for (const ring of rings) {
    let ax = ring[ring.length - 2] - ox;
    let ay = ring[ring.length - 1] - oy;
    for (let i = 0; i < ring.length; i += 2) {
      const bx = ring[i] - ox;
      const by = ring[i + 1] - oy;
      twice += bx * ay - ax * by;
      perimeter += Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
      ax = bx;
      ay = by;
    }
  }
  return perimeter > 0 ? Math.max(0, twice / 2 / perimeter) : 0;
}

/** Places a step inside the middles of segments, spread evenly over all of them. */
function* alongBorder(rings: readonly Float64Array[], step: number): Generator<readonly [number, number]> {
  const count = rings.reduce((sum, ring) => sum + ring.length / 2, 0);
  const stride = Math.ceil(count / MOST_PLACES);
  let n = 0;
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i += 2, n++) {
      if (n % stride !== 0) continue;
      const next = (i + 2) % ring.length;
      const dx = ring[next] - ring[i];
      const dy = ring[next + 1] - ring[i + 1];
      const length = hypotenuse(dx, dy);
      if (length === 0) continue;
      yield [
        (ring[i] + ring[next]) / 2 + (step * dy) / length,
        (ring[i + 1] + ring[next + 1]) / 2 - (step * dx) / length,
      ];
    }
  }
}
