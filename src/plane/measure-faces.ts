import { GRID_STEP } from '../geometry/grid.js';
import type { Faces } from './faces.js';
import type { HalfEdges } from './half-edges.js';
import type { PlanarEdges } from './noded-edges.js';
import type { Scratch } from './scratch.js';
import { inBlocks, within } from './steps.js';

/** Areas of the faces of the noded line work, mm², holes taken off. */
export function faceAreas({ cycleArea, parts, partOuter }: HalfEdges, faces: Faces): Float64Array {
  const scale = (GRID_STEP * GRID_STEP) / 2;
  const area = new Float64Array(faces.count);
  for (let f = 0; f < faces.count; f++) area[f] = cycleArea[faces.outline[f]] * scale;
  for (let p = 0; p < parts; p++) {
    // The walk around a part has the hole on its left: its area counts negative.
    if (faces.partFace[p] >= 0) area[faces.partFace[p]] += cycleArea[partOuter[p]] * scale;
  }
  return area;
}

/** Who borders on whom, and how long. See `Arrangement`. */
export interface Adjacency {
  readonly outsideLength: Float64Array;
  readonly start: Uint32Array;
  readonly face: Uint32Array;
  readonly length: Float64Array;
}

/** Sums the lengths of the borders between faces. O(E) and sorting each face's neighbours. */
export function* faceAdjacency(
  edges: PlanarEdges,
  left: Int32Array,
  right: Int32Array,
  count: number,
  scratch: Scratch,
): Generator<number, Adjacency> {
  const { edgeFrom } = edges;
  const outsideLength = new Float64Array(count);
  const sides = scratch.int32(count + 1);
  const lengths = scratch.float64(edgeFrom.length);
  const borders: Borders = { left, right, lengths, sides, outsideLength };
  yield* inBlocks(edgeFrom.length, (from, to) => measureBorders(edges, borders, from, to), 0, 0.4);
  for (let f = 0; f < count; f++) sides[f + 1] += sides[f];
  const cursor = scratch.int32(count + 1);
  cursor.set(sides);
  const list = scratch.int32(sides[count]);
  yield* inBlocks(edgeFrom.length, (from, to) => listBorders(borders, cursor, list, from, to), 0.4, 0.6);
  return {
    outsideLength,
    ...(yield* within(gather(sides, list, lengths, left, right, count, scratch), 0.6, 1)),
  };
}

/** What is known of the edges as borders. */
interface Borders {
  readonly left: Int32Array;
  readonly right: Int32Array;
  /** mm, by edge; 0 where both sides are the same. */
  readonly lengths: Float64Array;
  /** How many borders with other faces each face has, one place on. */
  readonly sides: Int32Array;
  readonly outsideLength: Float64Array;
}

function measureBorders(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  { left, right, lengths, sides, outsideLength }: Borders,
  from: number,
  to: number,
): void {
  for (let e = from; e < to; e++) {
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
}

/** Lists the borders with other faces by face. */
function listBorders(
  { left, right }: Borders,
  cursor: Int32Array,
  list: Int32Array,
  from: number,
  to: number,
): void {
  for (let e = from; e < to; e++) {
    const f = left[e];
    const g = right[e];
    if (f === g || f < 0 || g < 0) continue;
    list[cursor[f]++] = e;
    list[cursor[g]++] = e;
  }
}

function* gather(
  sides: Int32Array,
  list: Int32Array,
  lengths: Float64Array,
  left: Int32Array,
  right: Int32Array,
  count: number,
  scratch: Scratch,
) {
  const start = new Uint32Array(count + 1);
  const face = new Uint32Array(list.length);
  const length = new Float64Array(list.length);
  const sum = scratch.float64(count);
  let n = 0;
  for (let f = 0; f < count; f++) {
    if (f % FACES_AT_ONCE === FACES_AT_ONCE - 1) yield f / count;
    const first = n;
    for (let i = sides[f]; i < sides[f + 1]; i++) {
      const e = list[i];
      const g = left[e] === f ? right[e] : left[e];
      if (sum[g] === 0) face[n++] = g;
      sum[g] += lengths[e];
    }
    sortFaces(face, first, n);
    for (let i = first; i < n; i++) {
      length[i] = sum[face[i]];
      sum[face[i]] = 0;
    }
    start[f + 1] = n;
  }
  return { start, face: face.slice(0, n), length: length.slice(0, n) };
}

/** Faces whose neighbours are gathered between two chances to pause. */
const FACES_AT_ONCE = 4096;

/** Longer lists than this are sorted by the engine instead of by insertion. */
const SHORT = 24;

function sortFaces(face: Uint32Array, from: number, to: number): void {
  if (to - from > SHORT) {
    face.subarray(from, to).sort();
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const item = face[i];
    let j = i - 1;
    for (; j >= from && face[j] > item; j--) face[j + 1] = face[j];
    face[j + 1] = item;
  }
}
