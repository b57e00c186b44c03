import type { AreaBoundary } from './area-boundary.js';
import type { BoundaryPlace } from './shortest-chord.js';

/** A place on the segments of a boundary: part 0 is the first vertex of the segment, in walking order. */
export interface Spot {
  readonly segment: number;
  /** 0 to 1. */
  readonly part: number;
}

/** The place on the true curves that a spot stands for. */
export function placeOf(b: AreaBoundary, { segment, part }: Spot): BoundaryPlace {
  const t = b.t0[segment] + part * (b.t1[segment] - b.t0[segment]);
  return { loop: b.loop[segment], curve: b.curve[segment], t };
}

/** The spot of a place: by binary search in its loop. */
export function spotOf(b: AreaBoundary, place: BoundaryPlace): Spot {
  const from = b.first[place.loop];
  const count = b.first[place.loop + 1] - from;
  const backwards = b.sense[place.loop] < 0;
  // Segments in the order given; a loop that is walked backwards keeps its last one last.
  const at = (k: number): number => from + (backwards && k < count - 1 ? count - 2 - k : k);
  let [low, high] = [0, count - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    const i = at(middle);
    const start = backwards ? b.t1[i] : b.t0[i];
    if (b.curve[i] < place.curve || (b.curve[i] === place.curve && start <= place.t)) low = middle;
    else high = middle - 1;
  }
  const segment = at(low);
  const span = b.t1[segment] - b.t0[segment];
  const part = span === 0 ? 0 : (place.t - b.t0[segment]) / span;
  return { segment, part: Math.min(1, Math.max(0, part)) };
}

/** Length of boundary from the first vertex of the loop to a spot, mm. */
export function alongOf(b: AreaBoundary, { segment, part }: Spot): number {
  return b.along[segment] + part * segmentLength(b, segment);
}

/** Length of boundary walked from one distance along a loop to another, never negative. */
export function walkedLength(b: AreaBoundary, loop: number, from: number, to: number): number {
  return to >= from ? to - from : to - from + b.loopLength[loop];
}

export function segmentLength(b: AreaBoundary, segment: number): number {
  return b.lengths[segment];
}

/** The spot a length of boundary ahead of another, on the same loop. */
export function spotAhead(b: AreaBoundary, from: Spot, length: number): Spot {
  let { segment } = from;
  let rest = length + from.part * segmentLength(b, segment);
  for (let own = segmentLength(b, segment); rest > own; own = segmentLength(b, segment)) {
    rest -= own;
    segment = b.next[segment];
  }
  return { segment, part: rest / segmentLength(b, segment) };
}

/** Unit normal of a segment, pointing inside. */
export function inwards(b: AreaBoundary, i: number): [number, number] {
  const end = b.next[i];
  const dx = b.x[end] - b.x[i];
  const dy = b.y[end] - b.y[i];
  const length = b.lengths[i];
  return [-dy / length, dx / length];
}
