import { type BoxTree, firstAbove, searchBoxes } from '../geometry/box-tree.js';
import { GRID_STEP, STEPS_PER_MM } from '../geometry/grid.js';
import type { Point } from '../geometry/point.js';
import type { FacedNet } from './net.js';

/** Answers where a point lies in a faced net. */
export interface FaceLocator {
  /** Face at a point (mm), -1 for the outside. */
  readonly faceAt: (p: Point) => number;
  /** Distance from a point to the nearest line, mm; infinite where there is none. */
  readonly roomAt: (p: Point) => number;
}

/** Builds the index; each question then costs O(log n) expected. */
export function locateFaces(faced: FacedNet): FaceLocator {
  const { net, left, right, tree } = faced;
  const faceAt = ([px, py]: Point): number => {
    const x = px * STEPS_PER_MM;
    const y = py * STEPS_PER_MM;
    const edge = firstAbove(tree, x, y, (e) => {
      const ax = net.nodeX[net.edgeFrom[e]];
      const bx = net.nodeX[net.edgeTo[e]];
      if (ax <= x === bx <= x) return Number.NEGATIVE_INFINITY;
      const ay = net.nodeY[net.edgeFrom[e]];
      const by = net.nodeY[net.edgeTo[e]];
      const at = ay + ((x - ax) / (bx - ax)) * (by - ay);
      return at <= y ? at : Number.NEGATIVE_INFINITY;
    });
    if (edge < 0) return -1;
    // Below an edge that runs towards −x is its left side (y down).
    return net.nodeX[net.edgeTo[edge]] < net.nodeX[net.edgeFrom[edge]] ? left[edge] : right[edge];
  };
  return { faceAt, roomAt: (p) => roomAt(faced, tree, p) };
}

function roomAt({ net }: FacedNet, tree: BoxTree, [px, py]: Point): number {
  const edges = net.edgeFrom.length;
  if (edges === 0) return Number.POSITIVE_INFINITY;
  const x = px * STEPS_PER_MM;
  const y = py * STEPS_PER_MM;
  for (let reach = STEPS_PER_MM; ; reach *= 4) {
    let best = Number.POSITIVE_INFINITY;
    searchBoxes(tree, x - reach, y - reach, x + reach, y + reach, (e) => {
      best = Math.min(best, distanceTo(net, e, x, y));
      return false;
    });
    // Everything within reach was looked at; beyond the whole grid there is nothing more.
    if (best <= reach || reach > 2 ** 27) return best * GRID_STEP;
  }
}

function distanceTo(net: FacedNet['net'], e: number, x: number, y: number): number {
  const ax = net.nodeX[net.edgeFrom[e]];
  const ay = net.nodeY[net.edgeFrom[e]];
  const dx = net.nodeX[net.edgeTo[e]] - ax;
  const dy = net.nodeY[net.edgeTo[e]] - ay;
  const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}
