import { fromGrid, GRID_STEP } from '../geometry/grid.js';
import type { Point } from '../geometry/point.js';
import type { CurveStop, FlatLines } from './flat-lines.js';
import type { GridLines } from './grid-lines.js';
import type { NodedEdges } from './noded-edges.js';

/** The unrounded points of grid points that were nodes, to be asked for by the grid point. */
export interface TruePoints {
  /** Grid points, sorted by y, then x. */
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  /** The unrounded point of each, mm; NaN where none is known. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** A vertex further from its node than this, in grid steps, was welded: its point is not the node's. */
const ROUNDED = 0.5 + 2 ** -16;

/** The unrounded points of nodes: of refined crossings first, else of any vertex there. */
export function findTruePoints(
  { nodeX, nodeY, vertexNode }: NodedEdges,
  grid: GridLines,
  flat: FlatLines,
  stops: ReadonlyMap<number, readonly CurveStop[]>,
): TruePoints {
  const trueX = new Float64Array(nodeX.length).fill(Number.NaN);
  const trueY = new Float64Array(nodeX.length).fill(Number.NaN);
  const { coords } = flat.lines;
  for (let k = 0; k < grid.x.length; k++) {
    const node = vertexNode[k];
    if (node < 0 || (grid.t !== null && grid.t[k] > 0)) continue;
    const v = grid.source[k];
    const x = coords[2 * v];
    const y = coords[2 * v + 1];
    if (
      Math.abs(x - fromGrid(nodeX[node])) > ROUNDED * GRID_STEP ||
      Math.abs(y - fromGrid(nodeY[node])) > ROUNDED * GRID_STEP
    )
      continue;
    if (!Number.isNaN(trueX[node])) {
      const before = x < trueX[node] || (x === trueX[node] && y < trueY[node]);
      if (!before || !isStop(stops.get(flat.curve[v]), x, y)) continue;
    }
    trueX[node] = x;
    trueY[node] = y;
  }
  return { nodeX, nodeY, x: trueX, y: trueY };
}

function isStop(stops: readonly CurveStop[] | undefined, x: number, y: number): boolean {
  return stops?.some((stop) => stop.x === x && stop.y === y) ?? false;
}

/** The unrounded point of a grid point; undefined where none is known. */
export function truePointAt(points: TruePoints, gridX: number, gridY: number): Point | undefined {
  const { nodeX, nodeY } = points;
  let low = 0;
  let high = nodeX.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (nodeY[middle] < gridY || (nodeY[middle] === gridY && nodeX[middle] < gridX)) low = middle + 1;
    else high = middle;
  }
  if (low === nodeX.length || nodeX[low] !== gridX || nodeY[low] !== gridY || Number.isNaN(points.x[low]))
    return undefined;
  return [points.x[low], points.y[low]];
}
