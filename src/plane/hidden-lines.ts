import type { MapCurve } from './flat-lines.js';
import type { SidedNet } from './net.js';
import { inBlocks, isTurnEnd } from './steps.js';

/**
 * The topmost hiding shape over each face, -1 for none.
 *
 * The winding number of a fill changes by one across each of its outline's edges, so a walk over the faces,
 * from the outside, knows all of them exactly, whatever the outlines were rounded to. O(E log shapes).
 */
export function* hidingShapes(
  faced: SidedNet,
  curves: readonly MapCurve[],
  hides: readonly boolean[],
  evenOdd: readonly boolean[],
): Generator<number, Int32Array> {
  const top = new Int32Array(faced.faceCount).fill(-1);
  const active = new ActiveSet(hides.length);
  const winding = new Int32Array(hides.length);
  const crossings = edgeCrossings(faced, curves, hides);
  yield 0.3;
  const sides = edgesByFace(faced);
  const cross = (e: number, sign: number): void => {
    for (let i = crossings.start[e]; i < crossings.start[e + 1]; i++) {
      const shape = crossings.shape[i];
      winding[shape] += sign * crossings.turn[i];
      active.set(shape, evenOdd[shape] ? (winding[shape] & 1) === 1 : winding[shape] !== 0);
    }
  };
  const seen = new Uint8Array(faced.faceCount + 1);
  /** Edges to go across: 4 · edge, + 2 from left to right, + 1 where the way back out is due. */
  const stack: number[] = [];
  const enter = (face: number): void => {
    seen[face + 1] = 1;
    if (face >= 0) top[face] = active.highest();
    for (let i = sides.start[face + 1]; i < sides.start[face + 2]; i++) {
      const edge = sides.edge[i];
      const fromLeft = faced.left[edge] === face;
      const other = fromLeft ? faced.right[edge] : faced.left[edge];
      if (seen[other + 1] === 0) stack.push(4 * edge + (fromLeft ? 2 : 0));
    }
  };
  enter(-1);
  let seenFaces = 0;
  while (stack.length > 0) {
    const step = stack.pop()!;
    const edge = Math.floor(step / 4);
    const sign = (step & 2) === 0 ? 1 : -1;
    if ((step & 1) === 1) {
      cross(edge, -sign);
      continue;
    }
    if (isTurnEnd(seenFaces++)) yield 0.3;
    const face = sign < 0 ? faced.right[edge] : faced.left[edge];
    if (seen[face + 1] === 1) continue;
    cross(edge, sign);
    stack.push(step + 1);
    enter(face);
  }
  return top;
}

/** Per edge the change of each hiding shape's winding number from its right side to its left. */
function edgeCrossings({ net }: SidedNet, curves: readonly MapCurve[], hides: readonly boolean[]) {
  const start = new Int32Array(net.edgeFrom.length + 1);
  const shape: number[] = [];
  const turn: number[] = [];
  for (let e = 0; e < net.edgeFrom.length; e++) {
    for (let i = net.start[e]; i < net.start[e + 1]; i++) {
      const c = curves[net.curve[i]];
      if (!c.covers || !hides[c.shape]) continue;
      shape.push(c.shape);
      turn.push(net.t1[i] > net.t0[i] ? 1 : -1);
    }
    start[e + 1] = shape.length;
  }
  return { start, shape, turn };
}

/** Edges with different faces on their sides, by face; entry 0 is the outside. */
function edgesByFace({ left, right, faceCount }: SidedNet) {
  const start = new Int32Array(faceCount + 2);
  const edges = left.length;
  for (let e = 0; e < edges; e++) {
    if (left[e] === right[e]) continue;
    start[left[e] + 2]++;
    start[right[e] + 2]++;
  }
  for (let f = 1; f < start.length; f++) start[f] += start[f - 1];
  const cursor = start.slice(0, faceCount + 1);
  const edge = new Int32Array(start[faceCount + 1]);
  for (let e = 0; e < edges; e++) {
    if (left[e] === right[e]) continue;
    edge[cursor[left[e] + 1]++] = e;
    edge[cursor[right[e] + 1]++] = e;
  }
  return { start, edge };
}

/** A set of small integers that knows its largest member: a tree of flags. */
class ActiveSet {
  private readonly size: number;
  private readonly flags: Uint8Array;

  constructor(count: number) {
    let size = 1;
    while (size < count) size *= 2;
    this.size = size;
    this.flags = new Uint8Array(2 * size);
  }

  set(member: number, active: boolean): void {
    let i = this.size + member;
    this.flags[i] = active ? 1 : 0;
    for (i >>= 1; i >= 1; i >>= 1) this.flags[i] = this.flags[2 * i] | this.flags[2 * i + 1];
  }

  /** -1 where the set is empty. */
  highest(): number {
    if (this.flags[1] === 0) return -1;
    let i = 1;
    while (i < this.size) i = this.flags[2 * i + 1] === 1 ? 2 * i + 1 : 2 * i;
    return i - this.size;
  }
}

/** Edges that are hidden (1), and how many. */
export interface HiddenEdges {
  readonly drop: Uint8Array;
  readonly hidden: number;
}

/**
 * Finds each edge that is no visible cut line: nothing cuts along it, or the same fill covers it on both sides. The
 * fill of a shape without stroke (`fillOnly`) hides the shape's own line too, where its outline crosses itself. Yields
 * the share of the work done.
 */
export function* hiddenEdges(
  faced: SidedNet,
  curves: readonly MapCurve[],
  top: Int32Array,
  fillOnly: readonly boolean[],
): Generator<number, HiddenEdges> {
  const drop = new Uint8Array(faced.net.edgeFrom.length);
  let hidden = 0;
  const mark = (from: number, to: number): void => {
    hidden += markHidden(faced, curves, top, fillOnly, drop, from, to);
  };
  yield* inBlocks(drop.length, mark);
  return { drop, hidden };
}

/** Marks those of some edges that are hidden; returns how many. */
function markHidden(
  { net, left, right }: SidedNet,
  curves: readonly MapCurve[],
  top: Int32Array,
  fillOnly: readonly boolean[],
  drop: Uint8Array,
  first: number,
  beyond: number,
): number {
  let hidden = 0;
  for (let e = first; e < beyond; e++) {
    let highest = -1;
    for (let i = net.start[e]; i < net.start[e + 1]; i++) {
      const { cuts, shape } = curves[net.curve[i]];
      if (cuts && shape > highest) highest = shape;
    }
    const over = left[e] < 0 ? -1 : top[left[e]];
    const same = over === (right[e] < 0 ? -1 : top[right[e]]);
    const own = highest === over && fillOnly[highest];
    if (!(highest < 0 || (same && (highest < over || own)))) continue;
    drop[e] = 1;
    hidden++;
  }
  return hidden;
}
