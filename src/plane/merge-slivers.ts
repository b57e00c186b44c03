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
  const { net, faceCount } = faced;
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
  const order = [...narrow.keys()].sort((p, q) => area[p] - area[q] || p - q);
  const merged = new Map<number, number>();
  const root = (f: number): number => {
    let at = f;
    for (let next = merged.get(at); next !== undefined; next = merged.get(at)) at = next;
    return at;
  };
  for (const f of order) {
    const border = borderOf(faced, Array.from(walks.first.subarray(walks.start[f + 1], walks.start[f + 2])));
    const lengths = new Map<number, number>();
    for (const { face, length } of border.flat()) {
      const other = root(face);
      if (other !== root(f)) lengths.set(other, (lengths.get(other) ?? 0) + length);
    }
    const best = [...lengths].sort((p, q) => q[1] - p[1] || p[0] - q[0])[0];
    if (best === undefined) continue;
    const open = border.map((walk) =>
      walk.map(({ face, edge }) => root(face) === best[0] && drop[edge] === 0),
    );
    // With the same neighbour all round, one side has to stay: it is a line that was drawn.
    const sides = open.flat().every((one) => one) ? [longerSide(border)] : border;
    for (const { face, edge } of sides.flat()) if (root(face) === best[0]) drop[edge] = 1;
    merged.set(root(f), best[0]);
    slivers.push(narrow.get(f)!);
  }
  return { slivers, drop };
}

/** One edge on the border of a sliver, in walking order: where it starts, what lies across, how long it is. */
interface BorderStep {
  readonly edge: number;
  readonly face: number;
  readonly x: number;
  readonly y: number;
  readonly length: number;
}

function borderOf({ net, half, left, right }: FacedNet, walks: readonly number[]): BorderStep[][] {
  return walks.map((first) => {
    const steps: BorderStep[] = [];
    let h = first;
    do {
      const edge = h >> 1;
      const forward = (h & 1) === 0;
      const from = forward ? net.edgeFrom[edge] : net.edgeTo[edge];
      const to = forward ? net.edgeTo[edge] : net.edgeFrom[edge];
      const length = Math.hypot(net.nodeX[to] - net.nodeX[from], net.nodeY[to] - net.nodeY[from]);
      if (left[edge] !== right[edge]) {
        const face = forward ? right[edge] : left[edge];
        steps.push({ edge, face, x: net.nodeX[from], y: net.nodeY[from], length });
      }
      h = half.next[h];
    } while (h !== first);
    return steps;
  });
}

/** Of a ring the longer walk; of a strip the longer of the two ways between its tips. */
function longerSide(border: readonly (readonly BorderStep[])[]): readonly BorderStep[] {
  const long = (side: readonly BorderStep[]): number => side.reduce((sum, { length }) => sum + length, 0);
  if (border.length > 1) return [...border].sort((a, b) => long(b) - long(a))[0];
  const [walk] = border;
  const farthest = (from: BorderStep): number => {
    let best = 0;
    walk.forEach((step, i) => {
      const away = Math.hypot(step.x - from.x, step.y - from.y);
      if (away > Math.hypot(walk[best].x - from.x, walk[best].y - from.y)) best = i;
    });
    return best;
  };
  const one = farthest(walk[0]);
  const other = farthest(walk[one]);
  const [from, to] = one < other ? [one, other] : [other, one];
  const between = walk.slice(from, to);
  const around = [...walk.slice(to), ...walk.slice(0, from)];
  return long(between) > long(around) ? between : around;
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
