import { type Curve, reverseCurve } from '../geometry/curve.js';
import { distance, type Point } from '../geometry/point.js';
import type { Loop, LoopStep } from '../plane/region-map.js';
import { headingOf, type LineShapes } from './line-shapes.js';
import type { Reach } from './reach.js';
import type { StandingStock } from './standing-stock.js';

/** Lines in the order in which the blade goes along them; a step need not start where the one before ends. */
export type LineWalk = Loop;

/** A turn sharper than this is a corner: the blade is turned on the spot or backed out. Degrees. */
export const SHARP_TURN = 45;

/**
 * Puts lines into an order that a blade can follow: along the straightest way on from `start`, and when it can
 * get no further, on from the nearest node that is reached by then: what the blade has come past on the way, and what
 * is open beside that, counts too. Lines that can't be reached even so come last, in the given order.
 *
 * @param reach is told where the blade comes to
 * @param first the step to set out with, at `start`; null for any
 */
export function walkLines(
  stock: StandingStock,
  lines: readonly number[],
  start: number,
  reach: Pick<Reach, 'isReached' | 'enterNode'>,
  first: LoopStep | null = null,
): LineWalk {
  const { map, shapes } = stock;
  const left = new Set(lines);
  const ends = new Map<number, number[]>();
  for (const edge of lines) {
    const { from, to } = map.edges[edge];
    for (const node of from === to ? [from] : [from, to]) {
      const list = ends.get(node);
      if (list === undefined) ends.set(node, [edge]);
      else list.push(edge);
    }
  }
  const walk: LoopStep[] = [];
  const passed = new Set<number>([start]);
  let at = start;
  let heading: Point | null = null;
  while (left.size > 0) {
    const choice = (ends.get(at) ?? []).filter((e) => left.has(e));
    const step =
      walk.length === 0 && first !== null ? first : straightest(shapes, map.edges, choice, at, heading);
    if (step === null) {
      at = nextStart(stock, left, at, (node) => passed.has(node) || reach.isReached(node));
      heading = null;
      continue;
    }
    left.delete(step.edge);
    walk.push(step);
    const back = shapes.heading(step.edge, !step.forward);
    heading = [-back[0], -back[1]];
    const before = at;
    at = step.forward ? map.edges[step.edge].to : map.edges[step.edge].from;
    passed.add(at);
    if (reach.isReached(before)) reach.enterNode(at);
  }
  return walk;
}

function straightest(
  shapes: LineShapes,
  edges: StandingStock['map']['edges'],
  choice: readonly number[],
  at: number,
  heading: Point | null,
): LoopStep | null {
  let best: LoopStep | null = null;
  let bestTurn = Number.NEGATIVE_INFINITY;
  for (const edge of choice) {
    const { from, to } = edges[edge];
    for (const forward of [true, false]) {
      if ((forward ? from : to) !== at) continue;
      const out = shapes.heading(edge, forward);
      const along = heading === null ? 0 : out[0] * heading[0] + out[1] * heading[1];
      if (best === null || along > bestTurn) [best, bestTurn] = [{ edge, forward }, along];
    }
  }
  return best;
}

function nextStart(
  { map }: StandingStock,
  left: ReadonlySet<number>,
  at: number,
  isReached: (node: number) => boolean,
): number {
  const here = map.nodes[at].at;
  let [best, bestDistance, bestReached] = [-1, Number.POSITIVE_INFINITY, false];
  for (const edge of left) {
    const { from, to } = map.edges[edge];
    for (const node of [from, to]) {
      const reached = isReached(node);
      const far = distance(here, map.nodes[node].at);
      if (best < 0 || (reached && !bestReached) || (reached === bestReached && far < bestDistance)) {
        [best, bestDistance, bestReached] = [node, far, reached];
      }
    }
  }
  return best;
}

/**
 * The curves along a walk, one list for each unbroken run. With `joint`, the walk starts at that joint between
 * the curves of its first line (as walked), and comes back to it at the end of the first run, which is closed.
 */
export function walkCurves(
  stock: Pick<StandingStock, 'map' | 'shapes'>,
  walk: LineWalk,
  joint = 0,
): Curve[][] {
  const { map, shapes } = stock;
  const runs: Curve[][] = [];
  let end = -1;
  walk.forEach(({ edge, forward }) => {
    const { from, to } = map.edges[edge];
    const curves = forward ? [...shapes.curves(edge)] : [...shapes.curves(edge)].reverse().map(reverseCurve);
    if ((forward ? from : to) === end) runs[runs.length - 1].push(...curves);
    else runs.push(curves);
    end = forward ? to : from;
  });
  if (joint > 0) runs[0] = [...runs[0].slice(joint), ...runs[0].slice(0, joint)];
  return runs;
}

/** How many corners the blade turns on the way along runs of curves. */
export function countCorners(runs: readonly (readonly Curve[])[]): number {
  const limit = Math.cos((SHARP_TURN * Math.PI) / 180);
  let corners = 0;
  for (const run of runs) {
    for (let i = 1; i < run.length; i++) {
      const back = headingOf(reverseCurve(run[i - 1]));
      const out = headingOf(run[i]);
      if (-(back[0] * out[0] + back[1] * out[1]) < limit) corners++;
    }
  }
  return corners;
}
