import { areaBoundary } from '../geometry/narrow/area-boundary.js';
import { distance, lerp, type Point } from '../geometry/point.js';
import { thinEnds } from '../geometry/thin-ends.js';
import { boundaryLoops } from '../plane/boundary-loops.js';
import { loopCurves } from '../plane/edge-curves.js';
import { loopPoints } from '../plane/edge-points.js';
import { regionAt } from '../plane/region-at.js';
import type { Loop } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { type CheckInput, defineRule, type RuleFinding, type RuleUnit } from './rule.js';
import { woodParts } from './wood-parts.js';
import { placeOf, round2 } from './words.js';

/** Distance between an outline and its chords while sharp turns are looked for, mm. */
const FLATNESS = 0.01;

/** Outlines that nowhere turn this far, radians, within a short length have no tips. */
const SHARP_TURN = (2 * Math.PI) / 3;

/** Sums of angles round in their last bits. */
const ROUNDING = 1e-9;

export interface WeakTipOptions {
  /** Wood narrower than this is thin, mm. */
  readonly width?: number;
  /** Longest thin end that holds, mm. */
  readonly longest?: number;
}

/** A sharp, thin end of a piece. Page: docs/checks/weak-tip.md. */
export const weakTip = defineRule<'weak-tip', WeakTipOptions>({
  id: 'weak-tip',
  group: 'strength',
  level: 'warning',
  summary: 'a piece ends in a long, thin tip',
  model:
    'length over which the end stays thin: the width is that of the largest disc in the wood, and a straight tip of angle a is thin for about width / (2 tan(a/2))',
  // Tips of less than about 28 degrees; common practice, no source.
  defaults: { width: 1.5, longest: 3 },
  find: (input, options) => tipUnits(input, options).flatMap((unit) => unit.find()),
  units: tipUnits,
});

/** One unit for each part. */
function tipUnits({ relief }: CheckInput, options: Required<WeakTipOptions>): RuleUnit[] {
  const { width, longest } = options;
  return woodParts(relief).map(({ name, regions }) => ({
    key: `${name} ${regions.join(' ')} ${width} ${longest}`,
    find: () => findTips(relief, regions, name, options),
  }));
}

function findTips(
  relief: Relief,
  wood: readonly number[],
  name: string,
  { width, longest }: Required<WeakTipOptions>,
): RuleFinding[] {
  if (width === 0) return [];
  const loops = boundaryLoops(relief.map, wood);
  const narrow = wood.every((region) => 2 * relief.map.regions[region].labelRoom < width);
  const sharp = (loop: Loop): boolean => turnsSharply(loopPoints(relief.map, loop, FLATNESS), width);
  if (!narrow && !loops.some(sharp)) return [];
  const curves = loops.map((loop) => loopCurves(relief.map, loop));
  const { ends, outlines } = thinEnds(areaBoundary(curves), width, { least: longest / width });
  const blunt = Math.ceil((2 * Math.atan(width / (2 * longest)) * 180) / Math.PI);
  const fix = `Make the tip blunter, ${blunt}° or more, round it off, or let its neighbour take it over.`;
  const regions = [wood[0]];
  const tips = ends.map(({ tip, root, length, angle }) => ({
    message: `A tip of ${name}${angle === null ? '' : ` (${Math.round(angle)}°)`} is narrower than ${width} mm for its last ${round2(length)} mm.`,
    at: tip,
    regions: wood.length === 1 ? regions : regionsNear(relief, lerp(tip, lerp(root[0], root[1], 0.5), 0.5)),
    measured: { value: length, needed: longest, unit: 'mm' },
    fix,
  }));
  const thin = outlines.map(({ widest }) => ({
    message: `${name} is at most ${round2(widest)} mm wide, all of it a thin end.`,
    at: placeOf(relief, wood[0]),
    regions,
    measured: { value: widest, needed: width, unit: 'mm' },
    fix,
  }));
  return [...tips, ...thin];
}

function regionsNear(relief: Relief, at: Point): number[] {
  const region = regionAt(relief.map, at);
  return region < 0 ? [] : [region];
}

/**
 * Whether a closed outline turns to the left, the wood's side, by `SHARP_TURN` within the length that an arc
 * of radius `width` needs for it. Where it does not, a disc wider than `width` fits in everywhere along it, so
 * this spares the search for thin ends in most pieces.
 */
function turnsSharply(points: readonly Point[], width: number): boolean {
  const count = points.length;
  const at = (k: number): Point => points[k % count];
  const window = SHARP_TURN * width;
  let [first, turned, length] = [0, 0, 0];
  for (let last = 0; last < 2 * count; last++) {
    turned += leftTurn(at(last + count - 1), at(last), at(last + 1));
    while (length > window || (first < last && turned < 0)) {
      turned -= leftTurn(at(first + count - 1), at(first), at(first + 1));
      length -= distance(at(first), at(first + 1));
      first++;
    }
    if (turned >= SHARP_TURN - ROUNDING) return true;
    length += distance(at(last), at(last + 1));
  }
  return false;
}

/** How far the outline turns to the left at `b`, radians. */
function leftTurn(a: Point, b: Point, c: Point): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return -Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}
