import { type Bounds, distanceToSegment, type Point } from '../geometry/point.js';
import type { CutPlan, CutStep } from '../workshop/cut-plan.js';
import { wayIn } from './plan-way-in.js';
import type { SegmentField } from './segment-field.js';

/** How the blade comes through the waste of the board to a step. */
export interface BoardWay {
  /** From the edge of the board, or from a way that is open, to the start. */
  readonly points: readonly Point[];
  /** It was sawn for an earlier step. */
  readonly isOpen: boolean;
  /** It begins at another way. */
  readonly branches: boolean;
  /** How many ways lead in from the edge of the board by then, with this one. */
  readonly fromEdge: number;
}

/** The ways in through the waste of the board, by step: one that is open is taken again, or branched off. */
export function boardWays(
  plan: CutPlan,
  outline: () => SegmentField,
  drawing: Bounds,
): ReadonlyMap<CutStep, BoardWay> {
  const ways = new Map<CutStep, BoardWay>();
  const sawn: {
    readonly points: readonly Point[];
    readonly sheets: readonly string[];
    readonly branches: boolean;
  }[] = [];
  for (const { phase, sheets, steps } of plan.passes) {
    if (phase === 'add-ons') continue;
    for (const step of steps) {
      if (step.start.by !== 'board') continue;
      const open = sawn.filter((way) => sheets.every((id) => way.sheets.includes(id)));
      const points = wayIn(
        outline(),
        drawing,
        step.start.at,
        open.map((way) => way.points),
      );
      if (points.length === 0) continue;
      const known = open.find((way) => isSame(way.points, points));
      const branches = known?.branches ?? open.some((way) => liesOn(way.points, points[0]));
      if (known === undefined) sawn.push({ points, sheets, branches });
      const fromEdge = sawn.filter(
        (way) => !way.branches && sheets.some((id) => way.sheets.includes(id)),
      ).length;
      ways.set(step, { points, isOpen: known !== undefined, branches, fromEdge });
    }
  }
  return ways;
}

function isSame(a: readonly Point[], b: readonly Point[]): boolean {
  return a.length === b.length && a.every((p, i) => p[0] === b[i][0] && p[1] === b[i][1]);
}

/** How near counts as on a way, mm. */
const ON_WAY = 0.01;

function liesOn(way: readonly Point[], at: Point): boolean {
  return way.slice(1).some((to, i) => distanceToSegment(at, way[i], to) < ON_WAY);
}
