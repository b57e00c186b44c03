import { distance, lerp, type Point } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import { boundaryLoops } from './boundary-loops.js';
import { loopPoints } from './edge-points.js';
import { defineRule, type RuleFinding } from './rule.js';
import { nameOf, round2 } from './words.js';

export interface WeakTipOptions {
  /** How far behind the point the width is taken, mm. */
  readonly reach?: number;
  /** Width that the wood needs there, mm. */
  readonly width?: number;
}

/** Distance between a line and its chords when tips are measured, mm. */
const FLATNESS = 0.01;

/** A point is a tip where the outline turns at least this far, radians, within the width asked for. */
const TIP_TURN = (120 * Math.PI) / 180;

/** A sharp, thin corner of a piece. Page: docs/checks/weak-tip.md. */
export const weakTip = defineRule<'weak-tip', WeakTipOptions>({
  id: 'weak-tip',
  group: 'strength',
  level: 'warning',
  summary: 'a piece ends in a thin, sharp tip',
  model: 'width of the wood some millimetres behind the point, measured along both sides',
  // A tip of less than about 29 degrees; common practice, no source.
  defaults: { reach: 3, width: 1.5 },
  find: ({ relief }, options) => {
    const found: RuleFinding[] = [];
    for (const { region, wood } of bodiesOfWood(relief)) {
      for (const loop of boundaryLoops(relief.map, wood)) {
        for (const tip of weakTips(loopPoints(relief.map, loop, FLATNESS), options)) {
          found.push({
            message: `A tip of ${nameOf(relief, region)} is ${round2(tip.width)} mm wide ${options.reach} mm behind its point.`,
            at: tip.at,
            regions: [region],
            measured: { value: tip.width, needed: options.width, unit: 'mm' },
            fix: 'Round the tip off, make it blunter, or let its neighbour take it over.',
          });
        }
      }
    }
    return found;
  },
});

/** The regions whose outline each body has: the piece with its recesses; as continuous sheets, each region. */
function bodiesOfWood(relief: Relief): { region: number; wood: number[] }[] {
  return relief.bodies.map(({ region, recesses, covered }) => ({
    region,
    wood: [region, ...recesses, ...covered.filter((place) => relief.regions[place].depth !== 0)],
  }));
}

interface Tip {
  readonly at: Point;
  /** mm */
  readonly width: number;
}

/** The thin tips of a closed outline with the wood on its left, each once. */
function weakTips(points: readonly Point[], options: Required<WeakTipOptions>): Tip[] {
  const count = points.length;
  if (count < 3) return [];
  const sides = points.map((p, k) => distance(p, points[(k + 1) % count]));
  const around = sides.reduce((sum, side) => sum + side, 0);
  if (around <= 2 * options.reach) return [];
  const turns = points.map((p, k) => leftTurn(points[(k + count - 1) % count], p, points[(k + 1) % count]));
  const tips: Tip[] = [];
  for (let first = 0; first < count; first++) {
    if (turns[first] <= 0) continue;
    let turned = 0;
    let length = 0;
    let last = first;
    while (turned < TIP_TURN && length <= options.width && last - first < count) {
      turned += turns[last % count];
      if (turned < TIP_TURN) length += sides[last++ % count];
    }
    if (turned < TIP_TURN || length > options.width) continue;
    const ahead = along(points, sides, last % count, options.reach, 1);
    const behind = along(points, sides, first, options.reach, -1);
    const width = distance(ahead, behind);
    const at = lerp(points[first], points[last % count], 0.5);
    if (width < options.width && !tips.some((tip) => distance(tip.at, at) < options.width))
      tips.push({ at, width });
  }
  return tips;
}

/** How far the outline turns to the left at `b`, radians. */
function leftTurn(a: Point, b: Point, c: Point): number {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]];
  return -Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
}

/** The point `reach` mm along the outline from one of its points, forwards or backwards. */
function along(
  points: readonly Point[],
  sides: readonly number[],
  from: number,
  reach: number,
  way: 1 | -1,
): Point {
  const count = points.length;
  let left = reach;
  let at = from;
  for (;;) {
    const next = (at + way + count) % count;
    const side = sides[way === 1 ? at : next];
    if (side >= left) return side === 0 ? points[at] : lerp(points[at], points[next], left / side);
    left -= side;
    at = next;
  }
}
