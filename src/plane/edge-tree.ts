import { type BoxTree, boxTreeSteps } from '../geometry/box-tree.js';
import type { PlanarEdges } from './noded-edges.js';
import { within } from './steps.js';

/** Edges between numbered nodes. */
type Edges = Pick<PlanarEdges, 'nodeX' | 'nodeY' | 'edgeFrom' | 'edgeTo'>;

/** A tree over the boxes of the edges, in grid steps; item e is edge e. Yields the share of the work done. */
export function* edgeTree(edges: Edges): Generator<number, BoxTree> {
  const boxes = edgeBoxes(edges);
  yield 0.2;
  return yield* within(boxTreeSteps(boxes), 0.2, 1);
}

/** Boxes of edges: minX, minY, maxX, maxY, stride 4. */
export function edgeBoxes({ nodeX, nodeY, edgeFrom, edgeTo }: Edges): Float64Array {
  const boxes = new Float64Array(4 * edgeFrom.length);
  for (let e = 0; e < edgeFrom.length; e++) {
    const u = edgeFrom[e];
    const v = edgeTo[e];
    const ax = nodeX[u];
    const bx = nodeX[v];
    boxes[4 * e] = ax < bx ? ax : bx;
    boxes[4 * e + 2] = ax < bx ? bx : ax;
    // Nodes are numbered by y.
    boxes[4 * e + 1] = nodeY[u];
    boxes[4 * e + 3] = nodeY[v];
  }
  return boxes;
}
