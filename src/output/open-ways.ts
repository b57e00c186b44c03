import type { Bounds, Point } from '../geometry/point.js';
import { segmentMeetsBox } from '../geometry/segment-meeting.js';
import type { CutStep, LooseWaste, Pass, WayIn } from '../workshop/cut-plan.js';
import { lengthOf, pointAlong } from './plan-marks.js';
import type { Progress } from './plan-progress.js';

/** Ways in through the waste of the board that are open, as a plan is walked through. */
export interface OpenWays {
  /** Those in view that the blade may come in or go out by before a step: none where it stays in the picture. */
  before(pass: Pass, step: CutStep, progress: Progress, view: Bounds): readonly (readonly Point[])[];
  /** Takes the step as done. */
  saw(step: CutStep): void;
}

export function openWays(): OpenWays {
  const sawn: { readonly way: WayIn; readonly sheets: readonly string[] }[] = [];
  return {
    before(pass, step, progress, view) {
      if (!goesByWay(step)) return [];
      const own = new Set((step.waysIn ?? []).map(({ points }) => points.join(' ')));
      const off = progress.wasteOff(pass.sheets).filter(({ standing }) => standing === 'open');
      return sawn.flatMap(({ way: { points }, sheets }) =>
        step.sheets.every((id) => sheets.includes(id)) &&
        !own.has(points.join(' ')) &&
        isSeen(points, view) &&
        !isGone(
          points,
          off.map(({ waste }) => waste),
        )
          ? [points]
          : [],
      );
    },
    saw({ waysIn = [], sheets }) {
      for (const way of waysIn) if (way.from !== 'open') sawn.push({ way, sheets });
    },
  };
}

/** The blade comes in from outside, or goes out to come in by another way. */
export function goesByWay({ start, waysIn = [] }: CutStep): boolean {
  return (
    start.outside === true ||
    waysIn.some(({ from }) => from === 'way' || (from === 'edge' && start.released !== true))
  );
}

/** Some of a way is in view; a level way has a box without height. */
function isSeen(points: readonly Point[], view: Bounds): boolean {
  return points.slice(1).some((to, i) => segmentMeetsBox(points[i], to, view));
}

/** To both sides of a way the waste has come off: looked at so far from its middle, mm. */
const ASIDE = 0.5;

function isGone(points: readonly Point[], off: readonly LooseWaste[]): boolean {
  const middle = pointAlong(points, lengthOf(points) / 2);
  if (middle === null) return true;
  const [[x, y], [ux, uy]] = middle;
  return [1, -1].every((side) => {
    const at: Point = [x - side * ASIDE * uy, y + side * ASIDE * ux];
    return off.some(({ loops }) => isInLoops(loops, at));
  });
}

function isInLoops(loops: readonly (readonly Point[])[], [x, y]: Point): boolean {
  let crossings = 0;
  for (const loop of loops) {
    loop.forEach(([ax, ay], i) => {
      const [bx, by] = loop[(i + 1) % loop.length];
      if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) crossings++;
    });
  }
  return crossings % 2 === 1;
}
