import type { Bit } from '../../shared/tables/drills.js';
import { distance, type Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Area } from './areas.js';
import { gatherChords, isInside, roomAround } from './clearance.js';
import { CLEARANCE_TOLERANCE, type LineShapes } from './line-shapes.js';
import { type Corner, loopCorners } from './loop-corners.js';

/** A hole to be drilled, and where the blade goes from it onto the line. */
export interface DrillSite {
  readonly at: Point;
  readonly bit: Bit;
  readonly where: 'waste' | 'line';
  /** From the rim to the nearest line, mm; 0 on a line. */
  readonly clearance: number;
  /** Region index of the waste; -1 on a line. */
  readonly region: number;
  /** Where the cut begins; null where it doesn't matter. */
  readonly begin: Corner | null;
}

/** What a hole has to keep to; lengths in mm. */
export interface DrillRules {
  /** Ascending. */
  readonly bits: readonly Bit[];
  /** The narrowest hole that lets the blade through. */
  readonly hole: number;
  /** Clearance between the rim and the lines. */
  readonly margin: number;
  /** By so much a hole is wider than the diagonal of the blade. */
  readonly clearance: number;
  /** Whether a place is too near to the end of a thin bridge. */
  readonly nearBridge: (at: Point) => boolean;
}

/** A bit with its margin takes up to this part of the room there is: the largest that is still comfortable. */
const COMFORTABLE = 0.7;

/** No further from its corner than this many times the least possible: else it isn't near it any more. */
const NEAR = 3;

/** A corner sharper than this is a good place to begin, radians. */
const GOOD_CORNER = (150 * Math.PI) / 180;

/**
 * The best place for a hole in waste: the largest standard bit that is comfortable, its disc and the margin
 * wholly inside the waste, near the sharpest corner that is away from thin bridges. Null where no bit that
 * passes the blade fits.
 */
export function drillInWaste(
  map: RegionMap,
  shapes: LineShapes,
  waste: Area,
  rules: DrillRules,
): DrillSite | null {
  const borders = new Set(waste.border);
  const chords = gatherChords(shapes, waste.border);
  const regions = [...waste.regions].sort((a, b) => map.regions[b].labelRoom - map.regions[a].labelRoom);
  const widest = map.regions[regions[0]];
  const fitting = rules.bits.filter((bit) => bit.diameter >= rules.hole).reverse();
  const needs = (bit: Bit): number => bit.diameter / 2 + rules.margin + CLEARANCE_TOLERANCE;
  const comfortable = fitting.filter((bit) => needs(bit) <= COMFORTABLE * widest.labelRoom);
  const corners = regions.flatMap((r) =>
    map.regions[r].loops.flatMap((loop) => loopCorners(map, shapes, r, loop, (e) => borders.has(e))),
  );
  const ranked = rankCorners(corners, rules.nearBridge);
  for (const bit of comfortable.length > 0 ? comfortable : fitting) {
    const need = needs(bit);
    for (const begin of ranked) {
      const at = centreAt(begin, need);
      if (at === null || !isInside(chords, at)) continue;
      const room = roomAround(chords, at);
      if (room < need - ROUNDING) continue;
      return siteOf(at, bit, room, regions, begin);
    }
    const room = roomAround(chords, widest.labelPoint);
    if (room < need) continue;
    const begin = nearestCorner(ranked, widest.labelPoint);
    return siteOf(widest.labelPoint, bit, room, regions, begin);
  }
  return null;
}

/** A centre worked out to lie just so far from two lines misses it by rounding, mm. */
const ROUNDING = 1e-9;

function siteOf(
  at: Point,
  bit: Bit,
  room: number,
  regions: readonly number[],
  begin: Corner | null,
): DrillSite {
  const clearance = room - bit.diameter / 2;
  return { at, bit, where: 'waste', clearance, region: regions[0], begin };
}

/** The centre of a disc that touches both lines of a corner from inside, or null where it lies far from it. */
function centreAt({ at, angle, inward }: Corner, radius: number): Point | null {
  const half = Math.sin(Math.min(angle, Math.PI) / 2);
  if (half * NEAR < 1) return null;
  const d = radius / half;
  return [at[0] + inward[0] * d, at[1] + inward[1] * d];
}

/** Best places to begin first: away from bridges, then sharp corners, then smooth places, then reflex ones. */
function rankCorners(corners: readonly Corner[], nearBridge: DrillRules['nearBridge']): Corner[] {
  const rankOf = (corner: Corner): number => {
    const late = nearBridge(corner.at) ? 10 : 0;
    if (corner.angle <= GOOD_CORNER) return late + corner.angle / Math.PI;
    return late + (corner.angle <= Math.PI * 1.01 ? 2 : 3);
  };
  return corners
    .map((corner, i) => ({ corner, i, rank: rankOf(corner) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i)
    .map(({ corner }) => corner);
}

function nearestCorner(corners: readonly Corner[], at: Point): Corner | null {
  return corners.reduce<Corner | null>(
    (best, c) => (best === null || distance(c.at, at) < distance(best.at, at) ? c : best),
    null,
  );
}
