import { GRID_STEP } from '../geometry/grid.js';
import type { Faces } from './faces.js';
import type { HalfEdges } from './half-edges.js';
import type { PlanarEdges } from './noded-edges.js';

/** Areas of the faces of the noded line work, mm², holes taken off. */
export function faceAreas(edges: PlanarEdges, half: HalfEdges, faces: Faces): Float64Array {
  const cycleArea = cycleAreas(edges, half);
  const area = new Float64Array(faces.count);
  for (let f = 0; f < faces.count; f++) area[f] = cycleArea[faces.outline[f]];
  for (let p = 0; p < half.parts; p++) {
    // The walk around a part has the hole on its left: its area counts negative.
    if (faces.partFace[p] >= 0) area[faces.partFace[p]] += cycleArea[half.partOuter[p]];
  }
  return area;
}

function cycleAreas({ nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges, half: HalfEdges): Float64Array {
  const twice = new Float64Array(half.cycles);
  const scale = (GRID_STEP * GRID_STEP) / 2;
  for (let c = 0; c < half.cycles; c++) {
    const first = half.cycleFirst[c];
    const origin = (first & 1) === 0 ? edgeFrom[first >> 1] : edgeTo[first >> 1];
    const x0 = nodeX[origin];
    const y0 = nodeY[origin];
    let sum = 0;
    let h = first;
    do {
      const e = h >> 1;
      const from = edgeFrom[e];
      const to = edgeTo[e];
      const cross = (nodeX[to] - x0) * (nodeY[from] - y0) - (nodeX[from] - x0) * (nodeY[to] - y0);
      sum += (h & 1) === 0 ? cross : -cross;
      h = half.next[h];
    } while (h !== first);
    twice[c] = sum * scale;
  }
  return twice;
}

/** Who borders on whom, and how long. See `Arrangement`. */
export interface Adjacency {
  readonly outsideLength: Float64Array;
  readonly start: Uint32Array;
  readonly face: Uint32Array;
  readonly length: Float64Array;
}

/** Sums the lengths of the borders between faces. O(E) and sorting each face's neighbours. */
export function faceAdjacency(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  left: Int32Array,
  right: Int32Array,
  count: number,
): Adjacency {
  const outsideLength = new Float64Array(count);
  const sides = new Int32Array(count + 1);
  const lengths = new Float64Array(edgeFrom.length);
  for (let e = 0; e < edgeFrom.length; e++) {
    const f = left[e];
    const g = right[e];
    if (f === g) continue;
    const dx = nodeX[edgeTo[e]] - nodeX[edgeFrom[e]];
    const dy = nodeY[edgeTo[e]] - nodeY[edgeFrom[e]];
    const length = Math.sqrt(dx * dx + dy * dy) * GRID_STEP;
    lengths[e] = length;
    if (f < 0) outsideLength[g] += length;
    else if (g < 0) outsideLength[f] += length;
    else {
      sides[f + 1]++;
      sides[g + 1]++;
    }
  }
  for (let f = 0; f < count; f++) sides[f + 1] += sides[f];
  const cursor = sides.slice(0, count);
  const list = new Int32Array(sides[count]);
  for (let e = 0; e < edgeFrom.length; e++) {
    const f = left[e];
    const g = right[e];
    if (f === g || f < 0 || g < 0) continue;
    list[cursor[f]++] = e;
    list[cursor[g]++] = e;
  }
  return { outsideLength, ...gather(sides, list, lengths, left, right, count) };
}

function gather(
  sides: Int32Array,
  list: Int32Array,
  lengths: Float64Array,
  left: Int32Array,
  right: Int32Array,
  count: number,
) {
  const start = new Uint32Array(count + 1);
  const face = new Uint32Array(list.length);
  const length = new Float64Array(list.length);
  const sum = new Float64Array(count);
  let n = 0;
  for (let f = 0; f < count; f++) {
    const first = n;
    for (let i = sides[f]; i < sides[f + 1]; i++) {
      const e = list[i];
      const g = left[e] === f ? right[e] : left[e];
      if (sum[g] === 0) face[n++] = g;
      sum[g] += lengths[e];
    }
    face.subarray(first, n).sort();
    for (let i = first; i < n; i++) {
      length[i] = sum[face[i]];
      sum[face[i]] = 0;
    }
    start[f + 1] = n;
  }
  return { start, face: face.slice(0, n), length: length.slice(0, n) };
}
