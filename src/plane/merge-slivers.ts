import { GRID_STEP } from '../geometry/grid.js';
import type { Point } from '../geometry/point.js';
import { poleOf } from '../geometry/pole.js';
import { type FacedNet, ringOf, walksByFace } from './net.js';

/** A region narrower than the sliver tolerance, and where it lay. */
export interface Sliver {
  readonly at: Point;
  /** mm */
  readonly width: number;
  /** mm² */
  readonly area: number;
}

/** Slivers found, and the edges to drop: those between a sliver and the neighbour with the longest border. */
export interface SliverMerge {
  readonly slivers: readonly Sliver[];
  readonly drop: Uint8Array;
}

/**
 * Finds faces in which no disc of diameter `narrowest` mm fits, and the borders whose removal merges them.
 * A face holds a disc of diameter 2·area/perimeter (area ≤ inradius · perimeter), so most pass at once.
 */
export function findSlivers(faced: FacedNet, narrowest: number): SliverMerge {
  const { net, faceCount, left, right } = faced;
  const drop = new Uint8Array(net.edgeFrom.length);
  const { area, perimeter } = measure(faced);
  const walks = walksByFace(faced);
  const slivers: Sliver[] = [];
  const narrow = new Map<number, Sliver>();
  for (let f = 0; f < faceCount; f++) {
    if (2 * area[f] > narrowest * perimeter[f]) continue;
    const rings = Array.from(walks.first.subarray(walks.start[f + 1], walks.start[f + 2]), (h) =>
      ringOf(faced, h),
    );
    const pole = poleOf(rings, GRID_STEP);
    if (2 * pole.room < narrowest)
      narrow.set(f, { at: [pole.x, pole.y], width: 2 * pole.room, area: area[f] });
  }
  if (narrow.size === 0) return { slivers, drop };
  const borders = bordersOf(faced, narrow);
  const order = [...narrow.keys()].sort((a, b) => area[a] - area[b] || a - b);
  const merged = new Map<number, number>();
  const root = (f: number): number => {
    let at = f;
    for (let next = merged.get(at); next !== undefined; next = merged.get(at)) at = next;
    return at;
  };
  for (const f of order) {
    const lengths = new Map<number, number>();
    for (const { face, length } of borders.get(f) ?? []) {
      const other = root(face);
      if (other !== root(f)) lengths.set(other, (lengths.get(other) ?? 0) + length);
    }
    const best = [...lengths].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0];
    if (best === undefined) continue;
    merged.set(root(f), best[0]);
    slivers.push(narrow.get(f)!);
  }
  for (let e = 0; e < drop.length; e++) {
    if (left[e] === right[e]) continue;
    if ((narrow.has(left[e]) || narrow.has(right[e])) && root(left[e]) === root(right[e])) drop[e] = 1;
  }
  return { slivers, drop };
}

/** Areas and perimeters (both sides of holes counted), mm², mm. */
function measure({ net, left, right, faceCount }: FacedNet) {
  const area = new Float64Array(faceCount);
  const perimeter = new Float64Array(faceCount);
  const { nodeX, nodeY, edgeFrom, edgeTo } = net;
  const x0 = nodeX.length > 0 ? nodeX[0] : 0;
  const y0 = nodeX.length > 0 ? nodeY[0] : 0;
  for (let e = 0; e < edgeFrom.length; e++) {
    if (left[e] === right[e]) continue;
    const ax = nodeX[edgeFrom[e]] - x0;
    const ay = nodeY[edgeFrom[e]] - y0;
    const bx = nodeX[edgeTo[e]] - x0;
    const by = nodeY[edgeTo[e]] - y0;
    const twice = (bx * ay - ax * by) * GRID_STEP * GRID_STEP;
    const length = Math.hypot(bx - ax, by - ay) * GRID_STEP;
    if (left[e] >= 0) {
      area[left[e]] += twice / 2;
      perimeter[left[e]] += length;
    }
    if (right[e] >= 0) {
      area[right[e]] -= twice / 2;
      perimeter[right[e]] += length;
    }
  }
  return { area, perimeter };
}

function bordersOf({ net, left, right }: FacedNet, narrow: ReadonlyMap<number, Sliver>) {
  const borders = new Map<number, { face: number; length: number }[]>();
  const add = (f: number, face: number, length: number): void => {
    if (!narrow.has(f)) return;
    const list = borders.get(f) ?? [];
    list.push({ face, length });
    borders.set(f, list);
  };
  for (let e = 0; e < net.edgeFrom.length; e++) {
    if (left[e] === right[e]) continue;
    const u = net.edgeFrom[e];
    const v = net.edgeTo[e];
    const length = Math.hypot(net.nodeX[v] - net.nodeX[u], net.nodeY[v] - net.nodeY[u]);
    add(left[e], right[e], length);
    add(right[e], left[e], length);
  }
  return borders;
}
