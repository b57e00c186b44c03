import { Int32List } from './growing.js';
import type { HitList } from './hit-list.js';
import type { Scratch } from './scratch.js';
import { inBlocks } from './steps.js';
import { isBefore } from './weld-hits.js';
import type { WeldPoints } from './weld-points.js';

/** Where the point of each hit goes, in grid steps. */
export interface HitPlaces {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Follows each welded point to where it goes, in the order of the points: that of the lines decides nothing. */
export function* placeHits(
  points: WeldPoints,
  hits: HitList,
  scratch: Scratch,
): Generator<number, HitPlaces> {
  const n = hits.count;
  const places: Places = {
    x: scratch.float64(n),
    y: scratch.float64(n),
    state: scratch.uint8(n),
    trail: new Int32List(scratch.int32(64)),
  };
  yield* inBlocks(hits.of.length, (from, to) => {
    for (let p = from; p < to; p++) {
      const h = hits.of[p];
      if (h >= 0 && places.state[h] !== SETTLED) follow(points, hits, places, h);
    }
  });
  return { x: places.x, y: places.y };
}

interface Places extends HitPlaces {
  readonly state: Uint8Array;
  /** Hits on the way to where one goes. */
  readonly trail: Int32List;
}

const ON_THE_WAY = 1;
const SETTLED = 2;

function settle({ x, y, state }: Places, h: number, px: number, py: number): void {
  x[h] = px;
  y[h] = py;
  state[h] = SETTLED;
}

/** Follows a welded point from point to point, to a foot, a point that stays, or two that point at each other. */
function follow(points: WeldPoints, hits: HitList, places: Places, first: number): void {
  const { state, trail } = places;
  trail.length = 0;
  let h = first;
  while (state[h] === 0) {
    state[h] = ON_THE_WAY;
    trail.push(h);
    const t = hits.t[h];
    const target = t === 0 ? hits.segment[h] : t === 1 ? hits.segment[h] + 1 : -1;
    const p = target < 0 ? -1 : points.ofVertex[target];
    if (p < 0) {
      settle(places, h, hits.footX[h], hits.footY[h]);
      break;
    }
    const next = hits.of[p];
    if (next < 0) {
      settle(places, h, points.x[p], points.y[p]);
      break;
    }
    if (state[next] === ON_THE_WAY) {
      const own = hits.point[h];
      const smaller = isBefore(points.x[own], points.y[own], points.x[p], points.y[p]) ? own : p;
      settle(places, h, points.x[smaller], points.y[smaller]);
      settle(places, next, points.x[smaller], points.y[smaller]);
      break;
    }
    h = next;
  }
  for (let i = 0; i < trail.length; i++) {
    const other = trail.data[i];
    if (state[other] !== SETTLED) settle(places, other, places.x[h], places.y[h]);
  }
}
