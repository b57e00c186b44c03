import { buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import type { MapCurve } from './flat-lines.js';
import type { Net } from './net.js';

/** Edges that no fill can hide (1), and how many. */
export interface ClearEdges {
  readonly clear: Uint8Array;
  readonly count: number;
}

/**
 * Edges that all their curves cut along, clear of the boxes of all that hides (by shape): they are seen, and what covers
 * the other edges is the same without them. O(E).
 */
export function clearEdges(net: Net, curves: readonly MapCurve[], hides: readonly boolean[]): ClearEdges {
  const boxes = curveBoxes(net, curves.length);
  const isClear = clearCurves(boxes, curves, hides);
  const clear = new Uint8Array(net.edgeFrom.length);
  let count = 0;
  for (let e = 0; e < clear.length; e++) {
    let all = 1;
    for (let i = net.start[e]; i < net.start[e + 1]; i++) all &= isClear[net.curve[i]];
    clear[e] = all;
    count += all;
  }
  return { clear, count };
}

/** Boxes of the edges of each curve, grid steps: minX, minY, maxX, maxY, stride 4. */
function curveBoxes({ nodeX, nodeY, edgeFrom, edgeTo, start, curve }: Net, count: number): Float64Array {
  const boxes = emptyBoxes(count);
  for (let e = 0; e < edgeFrom.length; e++) {
    for (let i = start[e]; i < start[e + 1]; i++) {
      const ax = nodeX[edgeFrom[e]];
      const bx = nodeX[edgeTo[e]];
      // Nodes are numbered by y.
      growBox(boxes, curve[i], ax < bx ? ax : bx, nodeY[edgeFrom[e]], ax < bx ? bx : ax, nodeY[edgeTo[e]]);
    }
  }
  return boxes;
}

/** Curves that cut (1) and whose boxes are clear of those of all hiding shapes. */
function clearCurves(
  boxes: Float64Array,
  curves: readonly MapCurve[],
  hides: readonly boolean[],
): Uint8Array {
  const shapes = emptyBoxes(hides.length);
  for (let c = 0; c < curves.length; c++) {
    const { covers, shape } = curves[c];
    if (!covers || !hides[shape]) continue;
    growBox(shapes, shape, boxes[4 * c], boxes[4 * c + 1], boxes[4 * c + 2], boxes[4 * c + 3]);
  }
  const hiding: number[] = [];
  hides.forEach((isHiding, shape) => {
    if (isHiding) hiding.push(...shapes.subarray(4 * shape, 4 * shape + 4));
  });
  const tree = buildBoxTree(Float64Array.from(hiding));
  const isClear = new Uint8Array(curves.length);
  for (let c = 0; c < curves.length; c++) {
    if (!curves[c].cuts) continue;
    isClear[c] = 1;
    searchBoxes(tree, boxes[4 * c], boxes[4 * c + 1], boxes[4 * c + 2], boxes[4 * c + 3], () => {
      isClear[c] = 0;
      return true;
    });
  }
  return isClear;
}

function emptyBoxes(count: number): Float64Array {
  const boxes = new Float64Array(4 * count).fill(Number.POSITIVE_INFINITY);
  for (let k = 0; k < boxes.length; k += 4) boxes[k + 2] = boxes[k + 3] = Number.NEGATIVE_INFINITY;
  return boxes;
}

function growBox(boxes: Float64Array, i: number, x0: number, y0: number, x1: number, y1: number): void {
  const k = 4 * i;
  if (x0 < boxes[k]) boxes[k] = x0;
  if (y0 < boxes[k + 1]) boxes[k + 1] = y0;
  if (x1 > boxes[k + 2]) boxes[k + 2] = x1;
  if (y1 > boxes[k + 3]) boxes[k + 3] = y1;
}
