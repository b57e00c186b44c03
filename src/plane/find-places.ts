import { pointAt } from '../geometry/curve.js';
import { hypotenuse } from '../geometry/point.js';
import type { FlatLines, MapCurve } from './flat-lines.js';
import type { GridLines } from './grid-lines.js';
import { parameterOn } from './net.js';
import type { Meetings } from './snap-round.js';
import { inBlocks, isTurnEnd } from './steps.js';

/** A curve at a place: its parameter there, and whether the place lies inside one of its chords. */
export interface Incidence {
  readonly curve: number;
  readonly t: number;
  readonly inside: boolean;
}

/** A node that lies inside a chord of a true curve; grid steps. */
export interface Place {
  readonly x: number;
  readonly y: number;
  /** All curves that pass through it, in the order of their segments. */
  readonly list: readonly Incidence[];
}

/** Half the range of parameters around the chord's guess in which the nearest point is looked for. */
export const WINDOW = 0.05;

/**
 * Where nodes will lie inside chords of true curves, by y, then x: from what the segments meet, before there are nodes.
 * Yields the share of the work done.
 */
export function* findPlaces(
  curves: readonly MapCurve[],
  flat: FlatLines,
  grid: GridLines,
  meetings: Meetings,
): Generator<number, Place[]> {
  const copies = copiesBy(meetings);
  const found = new PlaceSet();
  const isBent = (k: number): boolean => curves[flat.curve[grid.source[k]]].curve.kind !== 'line';
  const count = meetings.segment.length;
  yield* inBlocks(count, (from, to) => markPlaces(meetings, copies, isBent, found, from, to), 0, 0.2);
  addSplits(grid, isBent, found);
  if (found.size === 0) return [];
  yield* inBlocks(count, (from, to) => tellMeetings(meetings, copies, found, from, to), 0.2, 0.4);
  yield* inBlocks(grid.x.length, (from, to) => tellEnds(grid, found, from, to), 0.4, 0.6);
  const places: Place[] = [];
  for (const { x, y, segments } of found.sorted()) {
    if (isTurnEnd(places.length)) yield 0.6 + (0.4 * places.length) / found.size;
    places.push({ x, y, list: incidencesAt(curves, flat, grid, x, y, segments) });
  }
  return places;
}

/** Marks where some meetings lie on chords of true curves. */
function markPlaces(
  { segment, x, y }: Meetings,
  copies: ReadonlyMap<number, number[]>,
  isBent: (k: number) => boolean,
  found: PlaceSet,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) {
    const bent = isBent(segment[i]) || (copies.size > 0 && copies.get(segment[i])?.some(isBent) === true);
    if (bent) found.add(x[i], y[i]);
  }
}

/** Tells the places of some meetings. */
function tellMeetings(
  { segment, x, y }: Meetings,
  copies: ReadonlyMap<number, number[]>,
  found: PlaceSet,
  from: number,
  to: number,
): void {
  for (let i = from; i < to; i++) found.at(x[i], y[i])?.push(segment[i], ...(copies.get(segment[i]) ?? []));
}

/** Tells the places at the ends of some segments of these. */
function tellEnds(grid: GridLines, found: PlaceSet, from: number, to: number): void {
  for (let k = from; k < to; k++) {
    if (!isSegment(grid, k)) continue;
    found.at(roundX(grid, k), roundY(grid, k))?.push(k);
    found.at(roundX(grid, k + 1), roundY(grid, k + 1))?.push(k);
  }
}

/** The copies of each segment that is drawn again. */
function copiesBy({ copyOf }: Meetings): Map<number, number[]> {
  const copies = new Map<number, number[]>();
  if (copyOf === null) return copies;
  for (let k = 0; k < copyOf.length; k++) {
    if (copyOf[k] === k) continue;
    const list = copies.get(copyOf[k]);
    if (list === undefined) copies.set(copyOf[k], [k]);
    else list.push(k);
  }
  return copies;
}

/** Adds the points that the weld put on chords of true curves. */
function addSplits(grid: GridLines, isBent: (k: number) => boolean, found: PlaceSet): void {
  const { t, source } = grid;
  if (t === null) return;
  for (let v = 0; v < t.length; v++) {
    if (t[v] === 0 || !isBent(v)) continue;
    const before = v > 0 && source[v - 1] === source[v] && isSegment(grid, v - 1);
    if (before || isSegment(grid, v)) found.add(roundX(grid, v), roundY(grid, v));
  }
}

/** Whether a segment starts at vertex k that rounding leaves longer than nothing. */
function isSegment(grid: GridLines, k: number): boolean {
  if (k + 1 >= grid.x.length || grid.last[k] === 1) return false;
  return roundX(grid, k) !== roundX(grid, k + 1) || roundY(grid, k) !== roundY(grid, k + 1);
}

const roundX = ({ x }: GridLines, v: number): number => Math.floor(x[v] + 0.5);
const roundY = ({ y }: GridLines, v: number): number => Math.floor(y[v] + 0.5);

function incidencesAt(
  curves: readonly MapCurve[],
  flat: FlatLines,
  grid: GridLines,
  x: number,
  y: number,
  segments: number[],
): Incidence[] {
  const list: Incidence[] = [];
  segments.sort((a, b) => a - b);
  for (let i = 0; i < segments.length; i++) {
    const k = segments[i];
    if (i > 0 && segments[i - 1] === k) continue;
    const curve = flat.curve[grid.source[k]];
    const isFrom = roundX(grid, k) === x && roundY(grid, k) === y;
    const isTo = roundX(grid, k + 1) === x && roundY(grid, k + 1) === y;
    const t = parameterOn(curves, grid, flat, k, isFrom ? 0 : isTo ? 1 : -1, x, y);
    if (list.some((other) => other.curve === curve && isNear(curves[curve], other.t, t))) continue;
    const split = isFrom ? k : k + 1;
    const inside =
      (!isFrom && !isTo) || (grid.t !== null && grid.t[split] > 0 && grid.source[split] === grid.source[k]);
    list.push({ curve, t, inside });
  }
  return list;
}

function isNear({ curve }: MapCurve, s: number, t: number): boolean {
  if (s === t) return true;
  const [ax, ay] = pointAt(curve, s);
  const [bx, by] = pointAt(curve, t);
  // A curve comes back to a node only by a way that is longer than a loop of flattening size.
  return Math.abs(s - t) < WINDOW && hypotenuse(bx - ax, by - ay) < 0.01;
}

/** Grid points are this far apart at most, in steps: both coordinates in one number. */
const SPAN = 2 ** 26;

/** Entries of the filter: most points that are asked for are no places, and seen to be none by it. */
const FILTER_BITS = 13;

/** Grid points with the segments that pass through them. */
class PlaceSet {
  private readonly byKey = new Map<number, number[]>();
  private readonly filter = new Uint8Array(1 << FILTER_BITS);

  get size(): number {
    return this.byKey.size;
  }

  add(x: number, y: number): void {
    if (this.at(x, y) !== undefined) return;
    this.filter[slotOf(x, y)] = 1;
    this.byKey.set(y * SPAN + x, []);
  }

  at(x: number, y: number): number[] | undefined {
    return this.filter[slotOf(x, y)] === 0 ? undefined : this.byKey.get(y * SPAN + x);
  }

  /** By y, then x. */
  sorted(): { x: number; y: number; segments: number[] }[] {
    return [...this.byKey]
      .map(([key, segments]) => {
        const y = Math.round(key / SPAN);
        return { x: key - y * SPAN, y, segments };
      })
      .sort((a, b) => a.y - b.y || a.x - b.x);
  }
}

const slotOf = (x: number, y: number): number =>
  (Math.imul(x, 0x9e3779b1) ^ Math.imul(y, 0x85ebca77)) >>> (32 - FILTER_BITS);
