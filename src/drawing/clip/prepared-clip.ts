import type { Curve } from '../../geometry/curve.js';
import type { Bounds, Point } from '../../geometry/point.js';
import {
  buildChordSet,
  type ChordSet,
  type CountWork,
  chordsNear,
  ON_EDGE,
  windingsAt,
} from './chord-set.js';
import type { ClipPart, ClipRegion } from './clip-region.js';
import { regionOutline } from './region-outline.js';

/** Inside, outside, or on the edge of a region. */
export type Side = 1 | -1 | 0;

/** A region made ready for many questions. */
export interface PreparedClip {
  readonly region: ClipRegion;
  /** See `plainBox`. */
  readonly box: Bounds | null;
  readonly set: ChordSet;
  /** All parts of the region and of the regions around it: outline i of `set` is that of part i. */
  readonly parts: readonly ClipPart[];
  /** The edge of the region, see `regionOutline`; worked out when it is first asked for. */
  outline(): readonly Curve[];
  /** The side of a point; `blunt` leaves out edges, so that every point is inside or outside. */
  sideOf(p: Point, blunt?: boolean): Side;
}

/** Flattens the outlines of a region and of all regions that it refers to. `box`: its `plainBox`. */
export function prepareClip(region: ClipRegion, box: Bounds | null, count: CountWork): PreparedClip {
  const numbers = new Map<ClipPart, number>();
  const parts: ClipPart[] = [];
  const pending: ClipRegion[] = [region];
  const seen = new Set<ClipRegion>();
  for (let at = pending.pop(); at !== undefined; at = pending.pop()) {
    if (seen.has(at)) continue;
    seen.add(at);
    if (at.within) pending.push(at.within);
    for (const part of at.parts) {
      if (numbers.has(part)) continue;
      count(1);
      numbers.set(part, parts.length);
      parts.push(part);
      if (part.within) pending.push(part.within);
    }
  }
  const curves: Curve[] = [];
  const outlines: number[] = [];
  for (const [i, part] of parts.entries()) {
    for (const curve of part.outline.flatMap((subpath) => subpath.curves)) {
      curves.push(curve);
      outlines.push(i);
    }
  }
  const set = buildChordSet(curves, Uint32Array.from(outlines), count);
  const windings = new Int32Array(parts.length);
  const edges = new Uint8Array(parts.length);
  const sideOf = (p: Point, blunt = false): Side => {
    windingsAt(set, p, windings, count);
    edges.fill(0);
    if (!blunt) {
      chordsNear(set, p, ON_EDGE, (chord) => {
        edges[set.outlineOf[set.curveOf[chord]]] = 1;
        return undefined;
      });
    }
    const sides = new Map<ClipRegion, Side>();
    return regionSide(region, sides, (part) => {
      count(1);
      const i = numbers.get(part) ?? 0;
      if (edges[i] === 1) return 0;
      return (part.rule === 'nonzero' ? windings[i] !== 0 : windings[i] % 2 !== 0) ? 1 : -1;
    });
  };
  let outline: readonly Curve[] | null = null;
  const outlineOnce = (): readonly Curve[] => {
    outline ??= regionOutline(set, (p) => sideOf(p, true) > 0, count);
    return outline;
  };
  return { region, box, set, parts, sideOf, outline: outlineOnce };
}

/**
 * Union of the parts is the greatest side, intersection with what is around the least. `sides`: those of the regions
 * asked for already, since many parts may be clipped by one region whose parts are clipped by one …
 */
function regionSide(
  region: ClipRegion,
  sides: Map<ClipRegion, Side>,
  sideOfPart: (part: ClipPart) => Side,
): Side {
  const known = sides.get(region);
  if (known !== undefined) return known;
  let least: Side = 1;
  for (let at: ClipRegion | null = region; at !== null && least > -1; at = at.within) {
    let most: Side = -1;
    for (const part of at.parts) {
      let side = sideOfPart(part);
      if (side > most && part.within) side = min(side, regionSide(part.within, sides, sideOfPart));
      if (side > most) most = side;
      if (most === 1) break;
    }
    least = min(least, most);
  }
  sides.set(region, least);
  return least;
}

function min(a: Side, b: Side): Side {
  return a < b ? a : b;
}
