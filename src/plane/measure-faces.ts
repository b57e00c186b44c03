import { GRID_STEP } from '../geometry/grid.js';
import type { Faces } from './faces.js';
import type { HalfEdges } from './half-edges.js';
import type { PlanarEdges } from './noded-edges.js';
import type { Scratch } from './scratch.js';
import { inBlocks, within } from './steps.js';

/** Faces beside the edges; areas of the faces; who borders on whom, and how long. See `Arrangement`. */
export interface FaceMeasures {
  readonly left: Int32Array;
  readonly right: Int32Array;
  readonly area: Float64Array;
  readonly outsideLength: Float64Array;
  readonly start: Uint32Array;
  readonly face: Uint32Array;
  readonly length: Float64Array;
}

/** Measures the faces of the noded line work, holes taken off. O(E) and sorting each face's neighbours. */
export function* measureFaces(
  edges: PlanarEdges,
  half: HalfEdges,
  faces: Faces,
  scratch: Scratch,
): Generator<number, FaceMeasures> {
  const edgeCount = edges.edgeFrom.length;
  const { count, ofCycle } = faces;
  const left = new Int32Array(edgeCount);
  const right = new Int32Array(edgeCount);
  const sides = scratch.int32(count + 1);
  const countBlock = (from: number, to: number): void => {
    setFaces(half.cycle, ofCycle, from, to, left, right);
    countBorders(left, right, sides, from, to);
  };
  yield* inBlocks(edgeCount, countBlock, 0, 0.2);
  for (let f = 0; f < count; f++) sides[f + 1] += sides[f];
  const cursor = scratch.int32(count + 1);
  cursor.set(sides);
  const area = new Float64Array(count);
  const borders: Borders = {
    left,
    right,
    origin: originsOf(edges, half, faces, scratch),
    area,
    cursor,
    beyond: new Uint32Array(sides[count]),
    lengths: scratch.float64(sides[count]),
    outsideLength: new Float64Array(count),
  };
  yield* inBlocks(edgeCount, (from, to) => measureBorders(edges, borders, from, to), 0.2, 0.6);
  for (let f = 0; f < count; f++) area[f] *= (GRID_STEP * GRID_STEP) / 2;
  const pairs = yield* within(gather(sides, borders, count, scratch), 0.6, 0.9);
  const { start, face, length } = bothWays(pairs, count, scratch);
  return { left, right, area, outsideLength: borders.outsideLength, start, face, length };
}

/** The faces to the left and right of some edges. */
function setFaces(
  cycle: Int32Array,
  ofCycle: Int32Array,
  from: number,
  to: number,
  left: Int32Array,
  right: Int32Array,
): void {
  for (let e = from; e < to; e++) {
    left[e] = ofCycle[cycle[2 * e]];
    right[e] = ofCycle[cycle[2 * e + 1]];
  }
}

/** A node of each face, to measure from: near by, areas come out without rounding. */
function originsOf(
  { edgeFrom, edgeTo }: PlanarEdges,
  { cycleFirst }: HalfEdges,
  { count, outline }: Faces,
  scratch: Scratch,
): Int32Array {
  const origin = scratch.int32(count);
  for (let f = 0; f < count; f++) {
    const h = cycleFirst[outline[f]];
    origin[f] = (h & 1) === 0 ? edgeFrom[h >> 1] : edgeTo[h >> 1];
  }
  return origin;
}

/** What is known of the edges as borders. */
interface Borders {
  readonly left: Int32Array;
  readonly right: Int32Array;
  readonly origin: Int32Array;
  /** By face: twice the area, square grid steps. */
  readonly area: Float64Array;
  /** Where the next border of each face with one after it is listed. */
  readonly cursor: Int32Array;
  /** By listed border: the face beyond it, and its length, mm. */
  readonly beyond: Uint32Array;
  readonly lengths: Float64Array;
  readonly outsideLength: Float64Array;
}

/** Counts the borders that each face has with faces after it, one place on. */
function countBorders(
  left: Int32Array,
  right: Int32Array,
  sides: Int32Array,
  from: number,
  to: number,
): void {
  for (let e = from; e < to; e++) {
    const f = left[e];
    const g = right[e];
    if (f === g || f < 0 || g < 0) continue;
    sides[f < g ? f + 1 : g + 1]++;
  }
}

/** Measures some edges, and lists each by the first of its faces: these are gathered in the order of memory then. */
function measureBorders(
  { nodeX, nodeY, edgeFrom, edgeTo }: PlanarEdges,
  { left, right, origin, area, cursor, beyond, lengths, outsideLength }: Borders,
  from: number,
  to: number,
): void {
  for (let e = from; e < to; e++) {
    const f = left[e];
    const g = right[e];
    if (f === g) continue;
    const x = nodeX[edgeFrom[e]];
    const y = nodeY[edgeFrom[e]];
    const dx = nodeX[edgeTo[e]] - x;
    const dy = nodeY[edgeTo[e]] - y;
    const length = Math.sqrt(dx * dx + dy * dy) * GRID_STEP;
    if (f >= 0) area[f] += dx * (y - nodeY[origin[f]]) - dy * (x - nodeX[origin[f]]);
    if (g >= 0) area[g] -= dx * (y - nodeY[origin[g]]) - dy * (x - nodeX[origin[g]]);
    if (f < 0) outsideLength[g] += length;
    else if (g < 0) outsideLength[f] += length;
    else {
      const i = cursor[f < g ? f : g]++;
      beyond[i] = f < g ? g : f;
      lengths[i] = length;
    }
  }
}

/** Neighbours of each face that come after it, ascending: `face[start[f] … start[f + 1] - 1]`; lengths beside them. */
interface Pairs {
  readonly start: Int32Array;
  readonly face: Uint32Array;
  readonly length: Float64Array;
}

/** Sums the borders of each face with each face after it; what is gathered takes the place of the lists. */
function* gather(
  sides: Int32Array,
  { beyond, lengths }: Borders,
  count: number,
  scratch: Scratch,
): Generator<number, Pairs> {
  const sum = scratch.float64(count);
  let n = 0;
  let from = 0;
  for (let f = 0; f < count; f++) {
    if (f % FACES_AT_ONCE === FACES_AT_ONCE - 1) yield f / count;
    const first = n;
    const to = sides[f + 1];
    for (let i = from; i < to; i++) {
      const g = beyond[i];
      if (sum[g] === 0) beyond[n++] = g;
      sum[g] += lengths[i];
    }
    sortFaces(beyond, first, n);
    for (let i = first; i < n; i++) {
      lengths[i] = sum[beyond[i]];
      sum[beyond[i]] = 0;
    }
    from = to;
    sides[f + 1] = n;
  }
  return { start: sides, face: beyond, length: lengths };
}

/** The neighbours of each face, those before it first. */
function bothWays({ start, face, length }: Pairs, count: number, scratch: Scratch) {
  const pairs = start[count];
  const both = {
    start: new Uint32Array(count + 1),
    face: new Uint32Array(2 * pairs),
    length: new Float64Array(2 * pairs),
  };
  for (let i = 0; i < pairs; i++) both.start[face[i] + 1]++;
  for (let f = 0; f < count; f++) both.start[f + 1] += both.start[f] + start[f + 1] - start[f];
  const cursor = scratch.int32(count + 1);
  cursor.set(both.start);
  for (let f = 0; f < count; f++) {
    for (let i = start[f]; i < start[f + 1]; i++) {
      const g = face[i];
      const at = cursor[f]++;
      const mirrored = cursor[g]++;
      both.face[at] = g;
      both.face[mirrored] = f;
      both.length[at] = both.length[mirrored] = length[i];
    }
  }
  return both;
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
