import type { AreaBoundary } from './area-boundary.js';
import type { OppositePlace } from './opposite-places.js';

/** Most segments across between two places that count as next to each other. */
const NEIGHBOURS = 2;

/**
 * Leaves out places that need no further look: between two chords of curves, vertex after vertex, the width can't
 * rise by more than flattening itself does, so of a row of such places only the valleys count, where they are `rise`
 * deep, and of each valley the lowest place, the first and the last as low. `places` in the order of their
 * vertices, and so is the result.
 */
export function valleys(b: AreaBoundary, places: readonly OppositePlace[], rise: number): OppositePlace[] {
  const kept = new Set<OppositePlace>();
  for (const row of rowsOf(b, places)) {
    for (const place of valleysOfRow(row, rise)) kept.add(place);
  }
  return places.filter((place) => kept.has(place));
}

/** Rows of places that follow each other on both sides. */
function rowsOf(b: AreaBoundary, places: readonly OppositePlace[]): OppositePlace[][] {
  const rows: OppositePlace[][] = [];
  let open: OppositePlace[][] = [];
  for (const place of places) {
    const before = b.prev[place.vertex];
    open = open.filter((row) => lastOf(row).vertex === before || lastOf(row).vertex === place.vertex);
    const row = open.find((r) => lastOf(r).vertex === before && follows(b, lastOf(r), place));
    if (row !== undefined) {
      row.push(place);
      continue;
    }
    const fresh = [place];
    rows.push(fresh);
    open.push(fresh);
  }
  return rows;
}

function lastOf(row: readonly OppositePlace[]): OppositePlace {
  return row[row.length - 1];
}

/** Whether the boundary between two places is a chord of a curve, and few chords of one curve across. */
function follows(b: AreaBoundary, one: OppositePlace, next: OppositePlace): boolean {
  if (isStraight(b, one.vertex)) return false;
  // Across, the boundary is walked the other way.
  let segment = next.segment;
  if (segment === one.segment) return true;
  for (let i = 0; i < NEIGHBOURS; i++) {
    const after = b.next[segment];
    if (isStraight(b, segment) || b.curve[after] !== b.curve[segment] || b.loop[after] !== b.loop[segment])
      return false;
    segment = after;
    if (segment === one.segment) return true;
  }
  return false;
}

function isStraight(b: AreaBoundary, segment: number): boolean {
  return b.loops[b.loop[segment]][b.curve[segment]].kind === 'line';
}

/** The lowest place of each valley that is `rise` deep on both sides, with the first and the last as low. */
function valleysOfRow(row: readonly OppositePlace[], rise: number): OppositePlace[] {
  const found: OppositePlace[] = [];
  let start = 0;
  let lowest = 0;
  let highest = 0;
  let falling = true;
  const close = (end: number): void => {
    const floor = row[lowest].width + rise;
    const low = row.slice(start, end).filter((p) => p.width <= floor);
    found.push(row[lowest], low[0], low[low.length - 1]);
  };
  for (let i = 1; i < row.length; i++) {
    if (falling) {
      if (row[i].width < row[lowest].width) lowest = i;
      if (row[i].width > row[lowest].width + rise) {
        close(i);
        falling = false;
        highest = i;
      }
      continue;
    }
    if (row[i].width > row[highest].width) highest = i;
    if (row[i].width < row[highest].width - rise) {
      falling = true;
      start = highest;
      lowest = i;
    }
  }
  if (falling) close(row.length);
  return found;
}
