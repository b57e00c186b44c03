import { pointAt } from '../geometry/curve.js';
import { lerp, type Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';

/** A region as messages call it: its id, and its name where it has one. */
export function nameOf(relief: Relief, region: number): string {
  const { id } = relief.map.regions[region];
  const { name } = relief.regions[region];
  return name === null || name === id ? id : `${id} (${name})`;
}

/** Several regions in a message, the first five by name. */
export function namesOf(relief: Relief, regions: readonly number[]): string {
  const shown = regions.slice(0, 5).map((region) => nameOf(relief, region));
  const more = regions.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${more} more`;
  const last = shown.pop();
  return shown.length === 0 ? (last ?? 'none') : `${shown.join(', ')} and ${last}`;
}

/** Where to point at in a region. */
export function placeOf(relief: Relief, region: number): Point {
  return relief.map.regions[region].labelPoint;
}

/** The middle of the longest of some edges, on the true line. */
export function edgePlace(map: RegionMap, edges: readonly number[]): Point | null {
  let longest = edges[0];
  for (const edge of edges) if (map.edges[edge].length > map.edges[longest].length) longest = edge;
  if (longest === undefined) return null;
  const { pieces, from, to } = map.edges[longest];
  const piece = pieces[Math.floor(pieces.length / 2)];
  const curve = piece === undefined ? undefined : map.curves[piece.curve];
  if (curve === undefined) return lerp(map.nodes[from].at, map.nodes[to].at, 0.5);
  return pointAt(curve, (piece.t0 + piece.t1) / 2);
}

/** A number for a message, with at most two decimals. */
export function round2(value: number): number {
  return Math.round(value * 100) / 100;
}

/** A length that is enough, for a fix: rounded up to tenths of a mm. */
export function enough(value: number): number {
  return Math.ceil(value * 10 - ROUNDING) / 10;
}

/** What is this near to a tenth is one, in tenths. */
const ROUNDING = 1e-6;

/** `1 sheet`, `3 sheets`. */
export function countOf(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
