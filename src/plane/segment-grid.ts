import type { GridLines } from './grid-lines.js';
import { Int32List } from './growing.js';
import type { Scratch } from './scratch.js';
import { findChains, type SegmentChains } from './segment-chains.js';
import { inBlocks, inBlocksBackwards, within } from './steps.js';

/** Chains of segments binned in a uniform grid of square cells of `2^shift` grid steps. */
export interface SegmentGrid extends SegmentChains {
  /** Corner of cell 0, grid steps. */
  readonly x0: number;
  readonly y0: number;
  readonly shift: number;
  readonly columns: number;
  readonly rows: number;
  /** Cell k holds the chains `chains[cellStart[k] … cellStart[k + 1] - 1]`, ascending. */
  readonly cellStart: Int32Array;
  readonly chains: Int32Array;
  /** Chains in the fullest cell. */
  readonly fullest: number;
}

/** Cells per segment at most, so that memory stays proportional to the input. */
const CELLS_PER_SEGMENT = 2;

/** Registers every chain in all cells that its segments meet, and perhaps more, with a margin of at least one step. */
export function* registerSegments(lines: GridLines, scratch: Scratch): Generator<number, SegmentGrid> {
  const frame = chooseCells(lines);
  yield 0.1;
  const found = yield* within(findChains(lines, 1 << frame.shift, scratch), 0.1, 0.3);
  const cells = frame.columns * frame.rows;
  const cellStart = scratch.int32(cells + 1);
  const count = found.first.length;
  const room = count + (count >> 1) + 64;
  const entries: Entries = {
    cell: new Int32List(scratch.brief.int32(room)),
    chain: new Int32List(scratch.brief.int32(room)),
  };
  const enterBlock = (from: number, to: number): void =>
    visitBlock(lines, frame, found, from, to, cellStart, entries);
  yield* inBlocks(count, enterBlock, 0.3, 0.8);
  let sum = 0;
  let fullest = 0;
  for (let c = 0; c < cells; c++) {
    const n = cellStart[c];
    if (n > fullest) fullest = n;
    sum += n;
    cellStart[c] = sum;
  }
  cellStart[cells] = sum;
  const chains = scratch.int32(sum);
  // Each cell is filled from its end, so the entries come backwards.
  yield* inBlocksBackwards(sum, (from, to) => fillCells(entries, cellStart, chains, from, to), 0.8, 1);
  const { x0, y0, shift, columns, rows } = frame;
  return { x0, y0, shift, columns, rows, first: found.first, end: found.end, cellStart, chains, fullest };
}

/** That a chain is in a cell, in the order of the chains. */
interface Entries {
  readonly cell: Int32List;
  readonly chain: Int32List;
}

function visitBlock(
  lines: GridLines,
  frame: Frame,
  found: SegmentChains,
  from: number,
  to: number,
  counts: Int32Array,
  entries: Entries,
): void {
  for (let c = from; c < to; c++) visit(lines, frame, found, c, counts, entries);
}

function fillCells(
  entries: Entries,
  cellStart: Int32Array,
  chains: Int32Array,
  from: number,
  to: number,
): void {
  const cell = entries.cell.data;
  const chain = entries.chain.data;
  for (let i = to - 1; i >= from; i--) chains[--cellStart[cell[i]]] = chain[i];
}

interface Frame {
  readonly x0: number;
  readonly y0: number;
  readonly shift: number;
  readonly columns: number;
  readonly rows: number;
}

function chooseCells({ x, y, last }: GridLines): Frame {
  let x0 = 0;
  let y0 = 0;
  let x1 = 0;
  let y1 = 0;
  let span = 0;
  let segments = 0;
  for (let k = 0; k < x.length; k++) {
    const px = x[k];
    const py = y[k];
    if (k === 0) {
      x0 = x1 = px;
      y0 = y1 = py;
    }
    if (px < x0) x0 = px;
    else if (px > x1) x1 = px;
    if (py < y0) y0 = py;
    else if (py > y1) y1 = py;
    if (last[k] === 0 && k + 1 < x.length) {
      const dx = x[k + 1] - px;
      const dy = y[k + 1] - py;
      span += Math.max(dx < 0 ? -dx : dx, dy < 0 ? -dy : dy);
      segments++;
    }
  }
  const width = x1 - x0 + 4;
  const height = y1 - y0 + 4;
  const count = Math.max(1, segments);
  const spread = Math.sqrt((width * height) / count);
  const mean = span / count;
  const wanted = Math.max(2, spread < mean ? spread : Math.min(spread, 2 * mean));
  let shift = Math.max(1, Math.round(Math.log2(wanted)));
  const limit = CELLS_PER_SEGMENT * count + 16;
  while ((Math.floor(width / 2 ** shift) + 1) * (Math.floor(height / 2 ** shift) + 1) > limit) shift++;
  return {
    x0: Math.floor(x0) - 1,
    y0: Math.floor(y0) - 1,
    shift,
    columns: (width >> shift) + 1,
    rows: (height >> shift) + 1,
  };
}

/** Enters chain c in the cells that it meets. */
function visit(
  { x, y }: GridLines,
  frame: Frame,
  { first, end }: SegmentChains,
  c: number,
  counts: Int32Array,
  entries: Entries,
): void {
  const { shift, columns } = frame;
  const a = first[c];
  const b = end[c];
  const axr = x[a] - frame.x0;
  const ayr = y[a] - frame.y0;
  const bxr = x[b] - frame.x0;
  const byr = y[b] - frame.y0;
  const left = axr < bxr ? axr : bxr;
  const right = axr < bxr ? bxr : axr;
  const top = ayr < byr ? ayr : byr;
  const bottom = ayr < byr ? byr : ayr;
  const column0 = (left - 1) >> shift;
  const column1 = (right + 1) >> shift;
  const row0 = (top - 1) >> shift;
  const row1 = (bottom + 1) >> shift;
  if (row0 === row1 || column0 === column1 || ayr === byr || b - a > 1) {
    for (let row = row0; row <= row1; row++) {
      for (let cell = row * columns + column0; cell <= row * columns + column1; cell++)
        enter(cell, c, counts, entries);
    }
    return;
  }
  const slope = (bxr - axr) / (byr - ayr);
  for (let row = row0; row <= row1; row++) {
    // The part of the segment in this row of cells, a step more on every side.
    let y0 = (row << shift) - 1;
    let y1 = ((row + 1) << shift) + 1;
    if (y0 < top) y0 = top;
    if (y1 > bottom) y1 = bottom;
    const xa = axr + (y0 - ayr) * slope;
    const xb = axr + (y1 - ayr) * slope;
    let from = (xa < xb ? xa : xb) - 1.5;
    let to = (xa < xb ? xb : xa) + 1.5;
    if (from < left - 1) from = left - 1;
    if (to > right + 1) to = right + 1;
    const last = row * columns + (Math.floor(to) >> shift);
    for (let cell = row * columns + (Math.floor(from) >> shift); cell <= last; cell++)
      enter(cell, c, counts, entries);
  }
}

function enter(cell: number, chain: number, counts: Int32Array, entries: Entries): void {
  counts[cell]++;
  entries.cell.push(cell);
  entries.chain.push(chain);
}
