import { distance, type Point } from '../geometry/point.js';
import { edgePoints } from '../plane/edge-points.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { linesThroughNodes } from './lines-through-nodes.js';
import { type CheckInput, defineRule, type RuleFinding, type RuleUnit } from './rule.js';
import { enough, round2 } from './words.js';

export interface TightTurnOptions {
  /** Smallest radius that a blade follows, in widths of the blade. */
  readonly widths?: number;
  /** Turns of less than this, degrees, are made in any radius. */
  readonly turn?: number;
}

/** Distance between a curve and its chords when turns are measured, mm: well under any blade's width. */
const FLATNESS = 0.005;

/** A corner as sharp as this, radians, is made by turning on the spot or by two cuts, not by following a curve. */
const SHARP = (40 * Math.PI) / 180;

/** A curve that turns tighter than the blade can follow. Page: docs/checks/tight-turn.md. */
export const tightTurn = defineRule<'tight-turn', TightTurnOptions>({
  id: 'tight-turn',
  group: 'strength',
  level: 'warning',
  summary: 'a curve turns tighter than the blade can follow',
  model:
    'radius of the curve over the stretch in which it makes the turn, against the width of the blade: a blade turns about its back and needs at least its own width for it',
  defaults: { widths: 1, turn: 90 },
  find: (input, options) => turnUnits(input, options).flatMap((unit) => unit.find()),
  units: turnUnits,
});

/** One unit: turns depend on the lines and the blade only. */
function turnUnits({ relief, workshop }: CheckInput, options: Required<TightTurnOptions>): RuleUnit[] {
  const { name, width } = workshop.blade;
  const find = (): RuleFinding[] => findTurns(relief.map, name, width * options.widths, options.turn);
  return [{ key: `${name} ${width} ${options.widths} ${options.turn}`, find }];
}

function findTurns(map: RegionMap, blade: string, needed: number, turn: number): RuleFinding[] {
  const angle = (turn * Math.PI) / 180;
  const found: RuleFinding[] = [];
  const report = (tight: Turn, edges: readonly number[]): void => {
    const sides = edges.flatMap((edge) => [map.edges[edge].left, map.edges[edge].right]);
    found.push({
      message: `A line turns in a radius of ${round2(tight.radius)} mm; the ${blade} blade needs ${round2(needed)} mm.`,
      at: tight.at,
      regions: [...new Set(sides)].filter((side) => side !== OUTSIDE).sort((a, b) => a - b),
      measured: { value: tight.radius, needed, unit: 'mm' },
      fix: `Ease the curve to a radius of ${enough(needed)} mm, make it a sharp corner that is cut from both sides, or use a narrower blade.`,
    });
  };
  const points = map.edges.map(({ pieces }, edge) =>
    pieces.every(({ curve }) => curve < 0) ? [] : edgePoints(map, edge, FLATNESS),
  );
  const reported = new Set<number>();
  points.forEach((chain, edge) => {
    const tight = tightestTurnOf(chain, angle);
    if (tight === null || tight.radius >= needed) return;
    reported.add(edge);
    report(tight, [edge]);
  });
  for (const { edges, chain } of linesThroughNodes(map, points, needed * angle)) {
    if (edges.some((edge) => reported.has(edge))) continue;
    const tight = tightestTurnOf(chain, angle);
    if (tight === null || tight.radius >= needed) continue;
    for (const edge of edges) reported.add(edge);
    report(tight, edges);
  }
  return found;
}

interface Turn {
  readonly at: Point;
  /** mm */
  readonly radius: number;
}

/**
 * The tightest stretch of a chain of points that turns by `angle` radians to one side: length by angle. Sharp
 * corners end a stretch.
 */
function tightestTurnOf(points: readonly Point[], angle: number): Turn | null {
  let best: Turn | null = null;
  let first = 1;
  let turned = 0;
  const turns = points.map((_, k) => turnAt(points, k));
  const half = (k: number): number => distance(points[k], points[k + 1]) / 2;
  let length = 0;
  for (let k = 1; k + 1 < points.length; k++) {
    const follows =
      k > first && Math.sign(turns[k]) === Math.sign(turns[k - 1]) && Math.abs(turns[k - 1]) < SHARP;
    if (Math.abs(turns[k]) >= SHARP || !follows) {
      first = k;
      turned = 0;
      length = 0;
      if (Math.abs(turns[k]) >= SHARP) continue;
    }
    turned += Math.abs(turns[k]);
    length += half(k - 1) + half(k);
    while (turned - Math.abs(turns[first]) >= angle) {
      turned -= Math.abs(turns[first]);
      length -= half(first - 1) + half(first);
      first++;
    }
    if (turned >= angle && length / turned < (best?.radius ?? Number.POSITIVE_INFINITY)) {
      best = { at: points[Math.floor((first + k) / 2)], radius: length / turned };
    }
  }
  return best;
}

/** The signed turn at an inner point, radians. */
function turnAt(points: readonly Point[], k: number): number {
  if (k === 0 || k + 1 >= points.length) return 0;
  const [a, b, c] = [points[k - 1], points[k], points[k + 1]];
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}
