import type { Provenance } from './arrangement.js';
import type { GridLines } from './grid-lines.js';
import type { LineSet } from './line-set.js';

/** Fewer vertices than this fit into fast memory with all that is known of them, in any order. */
const MANY = 1 << 18;

/** Lines in an order of their places; the index that each had, and where each went. */
export interface PlacedLines {
  readonly lines: LineSet;
  readonly order: Uint32Array;
  readonly placeOf: Uint32Array;
}

/**
 * Many lines, those that start near each other after one another, by rows of the page; null for few. Nodes are numbered
 * by rows too: what is written down for them by lines in any order is spread over all of memory. The order decides
 * nothing.
 */
export function placeLines(lines: LineSet): PlacedLines | null {
  const { coords, starts, corners } = lines;
  if (coords.length < 2 * MANY) return null;
  const order = orderByCells(lines);
  const placed = new Float64Array(coords.length);
  const placedStarts = new Uint32Array(starts.length);
  const placeOf = new Uint32Array(order.length);
  for (let i = 0; i < order.length; i++) {
    placeOf[order[i]] = i;
    placedStarts[i + 1] = placedStarts[i] + starts[order[i] + 1] - starts[order[i]];
  }
  const placedCorners = corners === undefined ? null : new Uint8Array(corners.length);
  // Read in one go, and written wherever it belongs: the other way round the reading has to wait.
  for (let i = 0; i < order.length; i++) {
    const at = placedStarts[placeOf[i]];
    placed.set(coords.subarray(2 * starts[i], 2 * starts[i + 1]), 2 * at);
    if (corners !== undefined) placedCorners?.set(corners.subarray(starts[i], starts[i + 1]), at);
  }
  const set = { coords: placed, starts: placedStarts };
  return { lines: placedCorners === null ? set : { ...set, corners: placedCorners }, order, placeOf };
}

/** Indices of the lines by the cell that they start in, row by row; lines without a vertex anywhere. */
function orderByCells({ coords, starts }: LineSet): Uint32Array {
  const count = starts.length - 1;
  const rows = Math.ceil(Math.sqrt(count));
  const { x0, y0, x1, y1 } = boxOfStarts(coords, starts);
  const across = rows / (x1 - x0 || 1);
  const down = rows / (y1 - y0 || 1);
  const cells = new Uint32Array(count);
  const first = new Uint32Array(rows * rows + 1);
  for (let i = 0; i < count; i++) {
    const v = starts[i];
    if (v < starts[i + 1]) {
      const column = Math.min(rows - 1, Math.floor((coords[2 * v] - x0) * across));
      const row = Math.min(rows - 1, Math.floor((coords[2 * v + 1] - y0) * down));
      cells[i] = row * rows + column;
    }
    first[cells[i] + 1]++;
  }
  for (let cell = 0; cell < rows * rows; cell++) first[cell + 1] += first[cell];
  const order = new Uint32Array(count);
  for (let i = 0; i < count; i++) order[first[cells[i]]++] = i;
  return order;
}

/** The box around the points in which lines start. */
function boxOfStarts(coords: Float64Array, starts: Uint32Array) {
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (let i = 0; i + 1 < starts.length; i++) {
    const v = starts[i];
    if (v === starts[i + 1]) continue;
    const x = coords[2 * v];
    const y = coords[2 * v + 1];
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return { x0, y0, x1, y1 };
}

/** What placed lines drew, told of the lines as they were given, in their order. */
export function provenanceAsGiven(
  placed: Provenance,
  grid: GridLines,
  given: LineSet,
  { lines, order, placeOf }: PlacedLines,
): Provenance {
  const { segments, pieces } = stretchesByLine(placed, grid, lines.starts);
  const told = {
    pieceEdge: new Int32Array(placed.pieceEdge.length),
    pieceSegment: new Int32Array(placed.pieceSegment.length),
    segmentVertex: new Int32Array(placed.segmentVertex.length),
    segmentT: placed.segmentT === null ? null : new Float64Array(placed.segmentT.length),
  };
  const segmentAt = new Uint32Array(order.length);
  const pieceAt = new Uint32Array(order.length);
  for (let i = 0, segment = 0, piece = 0; i < order.length; i++) {
    const line = placeOf[i];
    segmentAt[line] = segment;
    pieceAt[line] = piece;
    segment += segments[line + 1] - segments[line];
    piece += pieces[line + 1] - pieces[line];
  }
  for (let line = 0; line < order.length; line++) {
    const vertices = given.starts[order[line]] - lines.starts[line];
    tellLine(placed, told, segments[line], segments[line + 1], segmentAt[line], vertices);
    const shift = segmentAt[line] - segments[line];
    tellPieces(placed, told, pieces[line], pieces[line + 1], pieceAt[line], shift);
  }
  return told;
}

/** Copies the welded segments `from … to - 1`. */
function tellLine(
  { segmentVertex, segmentT }: Provenance,
  told: Provenance,
  from: number,
  to: number,
  at: number,
  vertices: number,
): void {
  const { segmentVertex: vertexTold, segmentT: tTold } = told;
  const shift = at - from;
  for (let k = from; k < to; k++) vertexTold[k + shift] = segmentVertex[k] + vertices;
  if (segmentT === null || tTold === null) return;
  // Only split points are not at 0; the others need not be written.
  for (let k = from + 1; k < to; k++)
    if (segmentVertex[k] === segmentVertex[k - 1]) tTold[k + shift] = segmentT[k];
}

/** Copies the pieces `from … to - 1`. */
function tellPieces(
  { pieceEdge, pieceSegment }: Provenance,
  told: Provenance,
  from: number,
  to: number,
  at: number,
  segments: number,
): void {
  const { pieceEdge: edgeTold, pieceSegment: segmentTold } = told;
  const shift = at - from;
  for (let k = from; k < to; k++) {
    edgeTold[k + shift] = pieceEdge[k];
    segmentTold[k + shift] = pieceSegment[k] + segments;
  }
}

/** By placed line, its first welded segment and its first piece, and how many there are of all: lines of no length have none. */
function stretchesByLine(
  { pieceSegment, segmentVertex }: Provenance,
  { last }: GridLines,
  starts: Uint32Array,
): { readonly segments: Uint32Array; readonly pieces: Uint32Array } {
  const segments = new Uint32Array(starts.length);
  const pieces = new Uint32Array(starts.length);
  let segment = 0;
  let piece = 0;
  for (let line = 0; line < starts.length; line++) {
    segments[line] = segment;
    pieces[line] = piece;
    if (line + 1 === starts.length || segment === segmentVertex.length) continue;
    if (segmentVertex[segment] >= starts[line + 1]) continue;
    while (last[segment] === 0) segment++;
    segment++;
    while (piece < pieceSegment.length && pieceSegment[piece] < segment) piece++;
  }
  return { segments, pieces };
}
