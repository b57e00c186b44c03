import { type Bounds, joinBounds } from '../geometry/point.js';
import type { CutStep } from '../workshop/cut-plan.js';
import type { PlanCanvas } from './plan-canvas.js';
import { stepView } from './plan-picture.js';

/** Up to so many steps every step has a picture of its own. */
const EACH_ITS_OWN = 300;

/** Steps in one picture, where there are more. */
const MOST_STEPS = 6;

/** What a picture of several steps shows is no wider than this, mm. */
const WIDEST = 60;

/**
 * Sorts the steps of a plan into those that share a picture: each by itself, but in a plan of hundreds of steps, some
 * that follow one another and lie side by side. By the number of the first step, counted from 1.
 */
export function stepGroups(canvas: PlanCanvas): ReadonlyMap<number, readonly CutStep[]> {
  const { passes } = canvas.plan;
  const many = passes.reduce((sum, pass) => sum + pass.steps.length, 0) > EACH_ITS_OWN;
  const groups = new Map<number, CutStep[]>();
  let number = 0;
  for (const pass of passes) {
    let group: CutStep[] = [];
    let shown: Bounds | null = null;
    for (const step of pass.steps) {
      number++;
      const view = many ? stepView(canvas, step) : null;
      const joined: Bounds | null = view === null || shown === null ? view : joinBounds(shown, view);
      const fits = joined !== null && joined[2] - joined[0] <= WIDEST && group.length < MOST_STEPS;
      if (fits && group.length > 0) {
        group.push(step);
        shown = joined;
        continue;
      }
      group = [step];
      shown = view;
      groups.set(number, group);
    }
  }
  return groups;
}
