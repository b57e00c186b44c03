import { type BoxTree, buildBoxTree } from '../geometry/box-tree.js';
import type { PlanarEdges } from './noded-edges.js';

/** A tree over the boxes of the edges, in grid steps; item e is edge e. */
export function edgeTree({
  nodeX,
  nodeY,
  edgeFrom,
  edgeTo,
}: Pick<PlanarEdges, 'nodeX' | 'nodeY' | 'edgeFrom' | 'edgeTo'>): BoxTree {
  const boxes = new Float64Array(4 * edgeFrom.length);
  for (let e = 0; e < edgeFrom.length; e++) {
    const ax = nodeX[edgeFrom[e]];
    const bx = nodeX[edgeTo[e]];
    boxes[4 * e] = ax < bx ? ax : bx;
    boxes[4 * e + 2] = ax < bx ? bx : ax;
    // Nodes are numbered by y.
    boxes[4 * e + 1] = nodeY[edgeFrom[e]];
    boxes[4 * e + 3] = nodeY[edgeTo[e]];
  }
  return buildBoxTree(boxes);
}
