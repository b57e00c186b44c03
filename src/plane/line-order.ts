import type { Provenance } from './arrangement.js';
import type { LineSet } from './line-set.js';
import type { GridLines } from './weld.js';

/** Fewer vertices than this fit into fast memory with all that is known of them, in any order. */
const MANY = 1 << 18;

/** Lines in an order of their places, and the index that each had. */
export interface PlacedLines {
  readonly lines: LineSet;
  readonly order: Uint32Array;
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
  const placedCorners = corners === undefined ? null : new Uint8Array(corners.length);
  let at = 0;
  for (let i = 0; i < order.length; i++) {
    const from = starts[order[i]];
    const to = starts[order[i] + 1];
    placed.set(coords.subarray(2 * from, 2 * to), 2 * at);
    if (corners !== undefined) placedCorners?.set(corners.subarray(from, to), at);
    at += to - from;
    placedStarts[i + 1] = at;
  }
  const set = { coords: placed, starts: placedStarts };
  return { lines: placedCorners === null ? set : { ...set, corners: placedCorners }, order };
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

/** Welded segments and pieces of one line: the first of them, and how many there are. */
interface Stretch {
  readonly segment: number;
  readonly segments: number;
  readonly piece: number;
  readonly pieces: number;
}

/** What placed lines drew, told of the lines as they were given, in their order. */
export function provenanceAsGiven(
  placed: Provenance,
  grid: GridLines,
  given: LineSet,
  { lines, order }: PlacedLines,
): Provenance {
  const stretches = stretchesByLine(placed, grid, lines.starts, order);
  const { pieceEdge, pieceSegment, segmentVertex, segmentT } = placed;
  const told = {
    pieceEdge: new Int32Array(pieceEdge.length),
    pieceSegment: new Int32Array(pieceSegment.length),
    segmentVertex: new Int32Array(segmentVertex.length),
    segmentT: segmentT === null ? null : new Float64Array(segmentT.length),
  };
  const placeOf = new Uint32Array(order.length);
  for (let i = 0; i < order.length; i++) placeOf[order[i]] = i;
  let segment = 0;
  let piece = 0;
  for (let i = 0; i < order.length; i++) {
    const own = stretches[i];
    if (own === undefined) continue;
    const vertices = given.starts[i] - lines.starts[placeOf[i]];
    for (let k = 0; k < own.segments; k++)
      told.segmentVertex[segment + k] = segmentVertex[own.segment + k] + vertices;
    if (segmentT !== null)
      told.segmentT?.set(segmentT.subarray(own.segment, own.segment + own.segments), segment);
    told.pieceEdge.set(pieceEdge.subarray(own.piece, own.piece + own.pieces), piece);
    for (let k = 0; k < own.pieces; k++)
      told.pieceSegment[piece + k] = pieceSegment[own.piece + k] + segment - own.segment;
    segment += own.segments;
    piece += own.pieces;
  }
  return told;
}

/** By given line, what it drew; undefined for lines of no length. */
function stretchesByLine(
  { pieceSegment, segmentVertex }: Provenance,
  { last }: GridLines,
  starts: Uint32Array,
  order: Uint32Array,
): (Stretch | undefined)[] {
  const stretches = new Array<Stretch | undefined>(order.length);
  let piece = 0;
  let line = 0;
  for (let segment = 0; segment < segmentVertex.length; ) {
    let end = segment + 1;
    while (last[end - 1] === 0) end++;
    while (starts[line + 1] <= segmentVertex[segment]) line++;
    const first = piece;
    while (piece < pieceSegment.length && pieceSegment[piece] < end) piece++;
    stretches[order[line]] = { segment, segments: end - segment, piece: first, pieces: piece - first };
    segment = end;
  }
  return stretches;
}
