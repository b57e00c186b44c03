import type { BoxTree } from '../geometry/box-tree.js';
import { hasEvenCells, searchCells, searchRuns, searchTree } from './edge-above.js';
import type { HalfEdges } from './half-edges.js';
import type { PlanarEdges } from './noded-edges.js';

/** The bounded faces of a subdivision. */
export interface Faces {
  readonly count: number;
  /** Face on the left of each cycle, -1 for the outside. */
  readonly ofCycle: Int32Array;
  /** The cycle that runs around each face. */
  readonly outline: Int32Array;
  /** For each connected part the face that it lies in, -1 for the outside. */
  readonly partFace: Int32Array;
  /** The face that directly encloses the connected part that a face belongs to, -1 for the outside. */
  readonly inside: Int32Array;
}

/** Numbers the faces, and finds for each connected part the face that it lies in, by `tree` where there is one. */
export function* findFaces(edges: PlanarEdges, half: HalfEdges, tree?: BoxTree): Generator<number, Faces> {
  const { cycles, parts, partOuter, part, cycleFirst } = half;
  const ofCycle = new Int32Array(cycles);
  for (let p = 0; p < parts; p++) ofCycle[partOuter[p]] = -1 - p;
  const outline = new Int32Array(cycles - parts);
  let count = 0;
  for (let c = 0; c < cycles; c++) {
    if (ofCycle[c] < 0) continue;
    ofCycle[c] = count;
    outline[count++] = c;
  }
  const partFace = new Int32Array(parts).fill(-1);
  if (parts > 1) yield* locateParts(edges, half, ofCycle, partFace, tree);
  for (let p = 0; p < parts; p++) ofCycle[partOuter[p]] = partFace[p];
  const inside = new Int32Array(count);
  for (let f = 0; f < count; f++) {
    const h = cycleFirst[outline[f]];
    inside[f] = partFace[part[(h & 1) === 0 ? edges.edgeFrom[h >> 1] : edges.edgeTo[h >> 1]]];
  }
  return { count, ofCycle, outline, partFace, inside };
}

/** Parts that are looked up between two chances to pause: each takes microseconds. */
const PARTS_AT_ONCE = 1024;

/** Parts are numbered by their top, so what a part hangs below has a smaller number and is known already. */
function* locateParts(
  edges: PlanarEdges,
  half: HalfEdges,
  ofCycle: Int32Array,
  partFace: Int32Array,
  tree: BoxTree | undefined,
): Generator<number, void> {
  const { nodeX, nodeY, edgeFrom, edgeTo } = edges;
  const indexed = tree === undefined ? null : searchTree(edges, tree);
  const edgeAbove = indexed ?? (hasEvenCells(edges) ? searchCells(edges) : searchRuns(edges));
  yield 0;
  for (let p = 0; p < half.parts; p++) {
    if (p % PARTS_AT_ONCE === PARTS_AT_ONCE - 1) yield p / half.parts;
    const e = edgeAbove(nodeX[half.partTop[p]], nodeY[half.partTop[p]]);
    if (e < 0) continue;
    // The face below the edge lies to the left of its half-edge towards −x.
    const face = ofCycle[half.cycle[nodeX[edgeTo[e]] < nodeX[edgeFrom[e]] ? 2 * e : 2 * e + 1]];
    partFace[p] = face >= 0 ? face : partFace[-1 - face];
  }
}
