import { FAN } from '../box-tree.js';
import type { AreaBoundary } from './area-boundary.js';
import { discIsEmpty } from './disc-search.js';
import { leavesNear } from './leaves-near.js';

/** A vertex of the boundary and a place of the boundary right across the area from it. */
export interface OppositePlace {
  readonly vertex: number;
  /** The place: a segment and the part of it, 0 to below 1 (0: its first vertex). */
  readonly segment: number;
  readonly part: number;
  /** Distance, mm; 0 where the boundary touches itself. */
  readonly width: number;
}

/**
 * Sine of the angle by which "right across" may be missed. The conditions are closed, and rounding must not let a
 * pair fall between two of them; what is found twice so is sorted out later.
 */
const ANGLE_SLACK = 1e-9;

/** Flattening tolerances by which a disc may be entered: each side may be off by one. */
const ENTERED = 2;

/** Relative rounding of a disc's radius. */
const ROUNDING = 1e-9;

/** Most points kept for pruning at one vertex. */
const MOST_KILLERS = 4;

/** The search about one vertex. */
interface Cone {
  readonly vertex: number;
  readonly vx: number;
  readonly vy: number;
  /** Segments into and out of the vertex as vectors; w is in the cone when w·in ≥ 0 and w·out ≤ 0. */
  readonly inX: number;
  readonly inY: number;
  readonly outX: number;
  readonly outY: number;
  /** Vector along the middle of the cone, of any length. */
  readonly axisX: number;
  readonly axisY: number;
  /** Square of the largest distance. */
  readonly reach: number;
  /** By how much w·in and w·out may miss, over the whole reach. */
  readonly slackIn: number;
  readonly slackOut: number;
  /** Boundary points at hand, as vectors from the vertex, and where on the axis each begins to rule out. */
  readonly killX: Float64Array;
  readonly killY: Float64Array;
  readonly killFrom: Float64Array;
  kills: number;
  /** Squared distances of the boxes being sorted. */
  readonly squares: Float64Array;
}

/**
 * All pairs of a reflex vertex and a place right across the area, less than `limit` mm apart: straight ways inside
 * that leave the vertex within its normal cone, meet the other side at a right angle (or at a reflex vertex,
 * within its cone too), and whose disc, with the way as diameter, holds no boundary but for twice the flattening
 * tolerance. Every local minimum of the width between straight sides has a reflex vertex at one end at least,
 * so none is missing. A pair of two vertices comes once.
 *
 * Where few boxes are in reach of a run of segments they are gone through; else for each vertex the tree is searched
 * in the vertex's cone, nearest first; a boundary point z found
 * rules out all q with (q − z)·(z − v) > 0, since their disc holds z (Gabriel's condition). So the cost at a
 * vertex depends on what lies about it, and little on `limit`.
 */
export function oppositePlaces(b: AreaBoundary, limit: number): OppositePlace[] {
  const found: OppositePlace[] = [];
  const reach = limit * limit;
  const [killX, killY, killFrom] = [0, 1, 2].map(() => new Float64Array(MOST_KILLERS));
  const squares = new Float64Array(FAN);
  const slack = b.straight ? 0 : ENTERED * b.tolerance;
  const stack: number[] = [];
  const near: OppositePlace[] = [];
  let leaves: readonly number[] | null = null;
  for (let v = 0, item = 0; v < b.x.length; v++) {
    if (v === b.runs[item]) leaves = leavesNear(b, item++, limit);
    const [vx, vy] = [b.x[v], b.y[v]];
    const inX = vx - b.x[b.prev[v]];
    const inY = vy - b.y[b.prev[v]];
    const outX = b.x[b.next[v]] - vx;
    const outY = b.y[b.next[v]] - vy;
    if (inX * outY - inY * outX >= 0) continue;
    const [before, after] = [b.lengths[b.prev[v]], b.lengths[v]];
    const axisX = -(inY / before + outY / after);
    const axisY = inX / before + outX / after;
    const cone: Cone = {
      vertex: v,
      vx,
      vy,
      inX,
      inY,
      outX,
      outY,
      axisX,
      axisY,
      reach,
      slackIn: ANGLE_SLACK * limit * (Math.abs(inX) + Math.abs(inY)),
      slackOut: ANGLE_SLACK * limit * (Math.abs(outX) + Math.abs(outY)),
      killX,
      killY,
      killFrom,
      squares,
      kills: 0,
    };
    if (leaves === null) searchCone(b, cone, stack, near);
    else for (const leaf of leaves) searchLeaf(b, cone, leaf, near);
    for (const place of near) if (hasRoom(b, place, slack)) found.push(place);
    near.length = 0;
  }
  return found;
}

/** Whether the disc on the way between the two places is empty, but for the slack. */
function hasRoom(b: AreaBoundary, { vertex, segment, part, width }: OppositePlace, slack: number): boolean {
  const end = b.next[segment];
  const x = b.x[segment] + part * (b.x[end] - b.x[segment]);
  const y = b.y[segment] + part * (b.y[end] - b.y[segment]);
  const radius = (width / 2) * (1 - ROUNDING) - slack - ROUNDING;
  return discIsEmpty(b, (x + b.x[vertex]) / 2, (y + b.y[vertex]) / 2, radius);
}

/** Finds what lies right across, for all that the points at hand say. `stack` is empty before and after. */
function searchCone(b: AreaBoundary, cone: Cone, stack: number[], found: OppositePlace[]): void {
  const { boxes, levels } = b.tree;
  stack.push(levels.length - 2, levels[levels.length - 1] - 1);
  while (stack.length > 0) {
    const node = stack.pop() as number;
    const depth = stack.pop() as number;
    if (depth === 0) {
      searchLeaf(b, cone, node, found);
      continue;
    }
    if (squareToCone(boxes, 4 * node, cone) === Number.POSITIVE_INFINITY) continue;
    const start = levels[depth - 1] + (node - levels[depth]) * FAN;
    const end = Math.min(start + FAN, levels[depth]);
    pushNearestLast(stack, boxes, cone, depth - 1, start, end);
  }
}

function searchLeaf(b: AreaBoundary, cone: Cone, leaf: number, found: OppositePlace[]): void {
  const { boxes, items } = b.tree;
  if (squareToCone(boxes, 4 * leaf, cone) === Number.POSITIVE_INFINITY) return;
  const item = items[leaf];
  for (let i = b.runs[item]; i < b.runs[item + 1]; i++) trySegment(b, cone, i, found);
}

/** Pushes the children that may matter, the nearest on top. */
function pushNearestLast(
  stack: number[],
  boxes: Float64Array,
  cone: Cone,
  depth: number,
  start: number,
  end: number,
): void {
  const base = stack.length;
  let count = 0;
  for (let child = start; child < end; child++) {
    const square = squareToCone(boxes, 4 * child, cone);
    if (square === Number.POSITIVE_INFINITY) continue;
    let k = count++;
    stack.push(depth, child);
    while (k > 0 && cone.squares[k - 1] < square) {
      cone.squares[k] = cone.squares[k - 1];
      stack[base + 2 * k + 1] = stack[base + 2 * k - 1];
      k--;
    }
    cone.squares[k] = square;
    stack[base + 2 * k + 1] = child;
  }
}

/** Squared distance from the vertex to a box, or Infinity when nothing in the box can be right across. */
function squareToCone(boxes: Float64Array, k: number, cone: Cone): number {
  const x0 = boxes[k] - cone.vx;
  const y0 = boxes[k + 1] - cone.vy;
  const x1 = boxes[k + 2] - cone.vx;
  const y1 = boxes[k + 3] - cone.vy;
  const dx = Math.max(x0, 0) + Math.min(x1, 0);
  const dy = Math.max(y0, 0) + Math.min(y1, 0);
  const square = dx * dx + dy * dy;
  if (square >= cone.reach) return Number.POSITIVE_INFINITY;
  const { inX, inY, outX, outY } = cone;
  const mostIn = (inX > 0 ? x1 : x0) * inX + (inY > 0 ? y1 : y0) * inY;
  if (mostIn < -cone.slackIn) return Number.POSITIVE_INFINITY;
  const leastOut = (outX > 0 ? x0 : x1) * outX + (outY > 0 ? y0 : y1) * outY;
  if (leastOut > cone.slackOut) return Number.POSITIVE_INFINITY;
  for (let i = 0; i < cone.kills; i++) {
    const zx = cone.killX[i];
    const zy = cone.killY[i];
    const least = (zx > 0 ? x0 : x1) * zx + (zy > 0 ? y0 : y1) * zy;
    if (least > (zx * zx + zy * zy) * (1 + ROUNDING)) return Number.POSITIVE_INFINITY;
  }
  return square;
}

/** Whether the disc on the way (wx, wy) from the vertex holds a point at hand. */
function isKilled(cone: Cone, wx: number, wy: number): boolean {
  for (let i = 0; i < cone.kills; i++) {
    const zx = cone.killX[i];
    const zy = cone.killY[i];
    if (wx * zx + wy * zy > (zx * zx + zy * zy) * (1 + ROUNDING)) return true;
  }
  return false;
}

/** Takes the nearest point of a segment as a point at hand, and as a place right across if it is one. */
function trySegment(b: AreaBoundary, cone: Cone, i: number, found: OppositePlace[]): void {
  const v = cone.vertex;
  if (i === v || i === b.prev[v]) return;
  const j = b.next[i];
  const ex = b.x[j] - b.x[i];
  const ey = b.y[j] - b.y[i];
  // The segment's first vertex as seen from v.
  const ax = b.x[i] - cone.vx;
  const ay = b.y[i] - cone.vy;
  const part = Math.min(1, Math.max(0, -(ax * ex + ay * ey) / (ex * ex + ey * ey)));
  const wx = ax + part * ex;
  const wy = ay + part * ey;
  const square = wx * wx + wy * wy;
  if (square >= cone.reach || isKilled(cone, wx, wy)) return;
  keepKiller(cone, wx, wy, square);
  const slack = ANGLE_SLACK * Math.sqrt(square);
  if (wx * cone.inX + wy * cone.inY < -slack * (Math.abs(cone.inX) + Math.abs(cone.inY))) return;
  if (wx * cone.outX + wy * cone.outY > slack * (Math.abs(cone.outX) + Math.abs(cone.outY))) return;
  // The other end of a segment belongs to the next one.
  if (part === 1) return;
  if (part === 0 ? !facesBack(b, cone, i, wx, wy, slack) : ex * ay - ey * ax > 0) return;
  found.push({ vertex: v, segment: i, part, width: Math.sqrt(square) });
}

/** Whether vertex u, seen from v along w, is reflex with the way back in its cone; once for the two of them. */
function facesBack(b: AreaBoundary, cone: Cone, u: number, wx: number, wy: number, slack: number): boolean {
  const inX = b.x[u] - b.x[b.prev[u]];
  const inY = b.y[u] - b.y[b.prev[u]];
  const outX = b.x[b.next[u]] - b.x[u];
  const outY = b.y[b.next[u]] - b.y[u];
  const bend = inX * outY - inY * outX;
  if (bend > 0 || (bend < 0 && u < cone.vertex)) return false;
  if (wx * inX + wy * inY > slack * (Math.abs(inX) + Math.abs(inY))) return false;
  return wx * outX + wy * outY >= -slack * (Math.abs(outX) + Math.abs(outY));
}

/** Keeps the points that rule out most: those that begin to do so nearest on the axis. */
function keepKiller(cone: Cone, wx: number, wy: number, square: number): void {
  const ahead = wx * cone.axisX + wy * cone.axisY;
  if (square === 0 || ahead <= 0) return;
  const from = square / ahead;
  const { killX, killY, killFrom } = cone;
  let place = cone.kills;
  if (place < MOST_KILLERS) cone.kills++;
  else {
    place = 0;
    for (let k = 1; k < MOST_KILLERS; k++) if (killFrom[k] > killFrom[place]) place = k;
    if (from >= killFrom[place]) return;
  }
  killX[place] = wx;
  killY[place] = wy;
  killFrom[place] = from;
}
