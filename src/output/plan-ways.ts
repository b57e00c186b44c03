import type { Bounds, Point } from '../geometry/point.js';
import type { CutPlan, CutStep } from '../workshop/cut-plan.js';
import { wayIn } from './plan-way-in.js';
import type { SegmentField } from './segment-field.js';

/** How the blade comes through the waste of the board to a step. */
export interface BoardWay {
  /** From the edge of the board, or from a way that is open, to the start. */
  readonly points: readonly Point[];
  /** It was sawn for an earlier step. */
  readonly isOpen: boolean;
}

/** The ways in through the waste of the board, by step: one that is open is taken again, or branched off. */
export function boardWays(
  plan: CutPlan,
  outline: () => SegmentField,
  drawing: Bounds,
): ReadonlyMap<CutStep, BoardWay> {
  const ways = new Map<CutStep, BoardWay>();
  const sawn: { readonly points: readonly Point[]; readonly sheets: readonly string[] }[] = [];
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
      const isOpen = open.some((way) => isSame(way.points, points));
      if (!isOpen) sawn.push({ points, sheets });
      ways.set(step, { points, isOpen });
    }
  }
  return ways;
}

function isSame(a: readonly Point[], b: readonly Point[]): boolean {
  return a.length === b.length && a.every((p, i) => p[0] === b[i][0] && p[1] === b[i][1]);
}
