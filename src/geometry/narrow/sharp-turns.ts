import type { AreaBoundary } from './area-boundary.js';
import { segmentLength } from './spot.js';

/** Cosine of the turn, 75°, above which a vertex counts. */
const TURN = 0.26;

/**
 * Vertices of a loop about which the boundary turns round, bulging out by 75° or more between straight legs that reach
 * `leg` mm of boundary to both sides: so seen, small raggedness does not count. Every end of the area narrower
 * than `leg` has one.
 */
export function sharpTurns(b: AreaBoundary, loop: number, leg: number): number[] {
  const found: number[] = [];
  const [low, high] = [b.first[loop], b.first[loop + 1]];
  if (high === low) return found;
  let [behind, ahead] = [low, low];
  // Lengths of boundary from the pointers' vertices to vertex i, and from vertex i to the other pointer's.
  let [back, forth] = [0, 0];
  while (back < leg && back < b.loopLength[loop] / 2) {
    behind = b.prev[behind];
    back += segmentLength(b, behind);
  }
  for (let i = low; i < high; i++) {
    while (back - segmentLength(b, behind) >= leg) {
      back -= segmentLength(b, behind);
      behind = b.next[behind];
    }
    while (forth + segmentLength(b, ahead) < leg && forth < b.loopLength[loop] / 2) {
      forth += segmentLength(b, ahead);
      ahead = b.next[ahead];
    }
    if (turnsRound(b, i, pointOn(b, behind, back - leg), pointOn(b, ahead, leg - forth))) found.push(i);
    back += segmentLength(b, i);
    forth -= segmentLength(b, i);
    if (ahead === i) {
      ahead = b.next[i];
      forth = 0;
    }
  }
  return found;
}

/** The point a length along a segment; its ends where that is beyond them. */
function pointOn(b: AreaBoundary, i: number, length: number): [number, number] {
  const part = Math.min(1, Math.max(0, length / segmentLength(b, i)));
  const end = b.next[i];
  return [b.x[i] + part * (b.x[end] - b.x[i]), b.y[i] + part * (b.y[end] - b.y[i])];
}

function turnsRound(b: AreaBoundary, v: number, before: [number, number], after: [number, number]): boolean {
  const [ax, ay] = [b.x[v] - before[0], b.y[v] - before[1]];
  const [bx, by] = [after[0] - b.x[v], after[1] - b.y[v]];
  return ax * by - ay * bx > 0 && ax * bx + ay * by <= TURN * Math.hypot(ax, ay) * Math.hypot(bx, by);
}
