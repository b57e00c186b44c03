/**
 * Detail lines (dashed in the drawing) are sawn and bound nothing. Where one would close off an area, sawing it would
 * part the wood after all; so these edges are left out, and told, as are those outside of all that other lines bound.
 */
import { fromGrid, GRID_STEP } from '../geometry/grid.js';
import { hypotenuse, type Point } from '../geometry/point.js';
import type { SidedNet } from './net.js';

/** What is left out of one shape's detail line. */
export interface UnsawnDetail {
  /** Index of the drawing shape. */
  readonly shape: number;
  /** It would close off an area, or lies outside of everything. */
  readonly why: 'closes' | 'outside';
  /** A point on it. */
  readonly at: Point;
  /** mm */
  readonly length: number;
}

/** Edges to leave out (1), and what that takes from each shape, in the order of the shapes. */
export interface DetailDrop {
  readonly drop: Uint8Array;
  readonly unsawn: readonly UnsawnDetail[];
}

/**
 * Finds the edges that only detail lines drew and that have two faces, so that without them these are one, or that lie
 * outside of all faces then. `detailOf`: the shape of a curve that is a detail line; -1 for other curves. O(E).
 */
export function detailEdges(faced: SidedNet, detailOf: (curve: number) => number): DetailDrop {
  const { net, left, right, faceCount } = faced;
  const shapes = Int32Array.from(left, (_, e) => detailShape(faced, e, detailOf));
  const into = Int32Array.from({ length: faceCount + 1 }, (_, f) => f);
  const rootOf = (face: number): number => {
    let at = face + 1;
    while (into[at] !== at) {
      into[at] = into[into[at]];
      at = into[at];
    }
    return at;
  };
  shapes.forEach((shape, e) => {
    if (shape < 0 || left[e] === right[e]) return;
    const [a, b] = [rootOf(left[e]), rootOf(right[e])];
    // The outside, 0, stays the root of what it takes in.
    into[Math.max(a, b)] = Math.min(a, b);
  });
  const drop = new Uint8Array(left.length);
  const found = new Map<string, UnsawnDetail>();
  shapes.forEach((shape, e) => {
    if (shape < 0) return;
    const outside = rootOf(left[e]) === 0;
    if (!outside && left[e] === right[e]) return;
    drop[e] = 1;
    const [a, b] = [net.edgeFrom[e], net.edgeTo[e]];
    const length = hypotenuse(net.nodeX[b] - net.nodeX[a], net.nodeY[b] - net.nodeY[a]) * GRID_STEP;
    const why = outside ? 'outside' : 'closes';
    const at = [fromGrid(net.nodeX[a]), fromGrid(net.nodeY[a])] as const;
    const before = found.get(`${shape} ${why}`) ?? { shape, why, at, length: 0 };
    found.set(`${shape} ${why}`, { ...before, length: before.length + length });
  });
  const unsawn = [...found.values()].sort((a, b) => a.shape - b.shape || (a.why < b.why ? -1 : 1));
  return { drop, unsawn };
}

/** The topmost shape whose detail line an edge is; -1 where a line that cuts runs along it. */
function detailShape({ net }: SidedNet, edge: number, detailOf: (curve: number) => number): number {
  let shape = -1;
  for (let i = net.start[edge]; i < net.start[edge + 1]; i++) {
    const detail = detailOf(net.curve[i]);
    if (detail < 0) return -1;
    shape = Math.max(shape, detail);
  }
  return shape;
}
