import { type BoxTree, firstAbove, nearestItem } from '../geometry/box-tree.js';
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
    let lowest = Number.NEGATIVE_INFINITY;
    const edge = firstAbove(tree, x, y, (e, best) => {
      const ax = net.nodeX[net.edgeFrom[e]];
      const bx = net.nodeX[net.edgeTo[e]];
      const ay = net.nodeY[net.edgeFrom[e]];
      const by = net.nodeY[net.edgeTo[e]];
      const at = heightAt(ax, ay, bx, by, x);
      if (!(at <= y && at >= best)) return Number.NEGATIVE_INFINITY;
      const slope = (by - ay) / (bx - ax);
      // Straight below a node: of the edges that go on from it to +x, the lowest is next.
      if (at === best && slope <= lowest) return Number.NEGATIVE_INFINITY;
      lowest = slope;
      return at;
    });
    if (edge < 0) return -1;
    // Below an edge that runs towards −x is its left side (y down).
    return net.nodeX[net.edgeTo[edge]] < net.nodeX[net.edgeFrom[edge]] ? left[edge] : right[edge];
  };
  return { faceAt, roomAt: (p) => roomAt(faced, tree, p) };
}

/**
 * y at which the vertical through x meets the segment a–b, which it spans half-openly (a node on it counts for
 * one of its sides only); +∞ where it does not. At an end, exactly that end's y.
 */
export function heightAt(ax: number, ay: number, bx: number, by: number, x: number): number {
  if (ax <= x === bx <= x) return Number.POSITIVE_INFINITY;
  if (ax === x) return ay;
  return bx === x ? by : ay + ((x - ax) / (bx - ax)) * (by - ay);
}

function roomAt({ net }: FacedNet, tree: BoxTree, [px, py]: Point): number {
  const x = px * STEPS_PER_MM;
  const y = py * STEPS_PER_MM;
  const { nodeX, nodeY, edgeFrom, edgeTo } = net;
  const foot = (e: number): Point => {
    const ax = nodeX[edgeFrom[e]];
    const ay = nodeY[edgeFrom[e]];
    const dx = nodeX[edgeTo[e]] - ax;
    const dy = nodeY[edgeTo[e]] - ay;
    const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    return [x - ax - t * dx, y - ay - t * dy];
  };
  const nearest = nearestItem(tree, x, y, (e) => {
    const [dx, dy] = foot(e);
    return dx * dx + dy * dy;
  });
  return nearest < 0 ? Number.POSITIVE_INFINITY : Math.hypot(...foot(nearest)) * GRID_STEP;
}
