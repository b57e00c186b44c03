import { Int32List } from './growing.js';
import type { Scratch } from './scratch.js';

/** Hits that a list starts with room for, at most. */
const FIRST_ROOM = 1024;

/**
 * Points that go elsewhere, and where: for each the nearest place on another line that was found so far. Most points
 * of a drawing stay where they are. Hit h holds the entries h of `point`, `distance`, `segment`, `t`, `footX` and
 * `footY`; all lengths in grid steps.
 */
export class HitList {
  /** Hit of each point, -1 for points that stay. */
  readonly of: Int32Array;
  count = 0;
  point: Int32Array;
  /** Square of the distance. */
  distance: Float64Array;
  /** By its first vertex. */
  segment: Int32Array;
  /** Place on the segment, 0 to 1. */
  t: Float64Array;
  footX: Float64Array;
  footY: Float64Array;
  /** All pairs of a point and a foreign segment within reach and a step: they may have to share a node. */
  readonly nearPoint: Int32List;
  readonly nearSegment: Int32List;
  /** Smooth vertices at the place of a point, which go where it goes, and that point. */
  readonly joinedVertex: Int32List;
  readonly joinedPoint: Int32List;

  constructor(points: number, scratch: Scratch) {
    const room = Math.min(FIRST_ROOM, points + 1);
    this.of = scratch.int32(points).fill(-1);
    this.point = scratch.int32(room);
    this.distance = scratch.float64(room);
    this.segment = scratch.int32(room);
    this.t = scratch.float64(room);
    this.footX = scratch.float64(room);
    this.footY = scratch.float64(room);
    this.nearPoint = new Int32List(scratch.int32(room));
    this.nearSegment = new Int32List(scratch.int32(room));
    this.joinedVertex = new Int32List(scratch.int32(room));
    this.joinedPoint = new Int32List(scratch.int32(room));
  }

  /** A hit of point p, its entries to be set. */
  add(p: number): number {
    const h = this.count++;
    if (h === this.point.length) this.widen(2 * h);
    this.point[h] = p;
    this.of[p] = h;
    return h;
  }

  private widen(room: number): void {
    this.point = widerInts(this.point, room);
    this.segment = widerInts(this.segment, room);
    this.distance = widerDoubles(this.distance, room);
    this.t = widerDoubles(this.t, room);
    this.footX = widerDoubles(this.footX, room);
    this.footY = widerDoubles(this.footY, room);
  }
}

function widerInts(values: Int32Array, room: number): Int32Array {
  const wider = new Int32Array(room);
  wider.set(values);
  return wider;
}

function widerDoubles(values: Float64Array, room: number): Float64Array {
  const wider = new Float64Array(room);
  wider.set(values);
  return wider;
}
