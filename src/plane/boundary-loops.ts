import { edgePoints } from './edge-points.js';
import type { Loop, LoopStep, RegionMap } from './region-map.js';

/** Distance between a line and its chords when directions at a node are compared, mm. */
const FLATNESS = 0.005;

/**
 * The closed walks around the union of some regions, with the union on the left. Where the union touches
 * itself in a point, a walk stays with the wood that it comes along, so it never crosses itself there.
 */
export function boundaryLoops(map: RegionMap, regions: readonly number[]): Loop[] {
  const inside = new Set(regions);
  const steps: LoopStep[] = [];
  for (const region of regions) {
    for (const { edge } of map.regions[region].loops.flat()) {
      const { left, right } = map.edges[edge];
      if (left === right || inside.has(left) === inside.has(right)) continue;
      steps.push({ edge, forward: inside.has(left) });
    }
  }
  return joinSteps(map, steps);
}

/** Steps with one union on the left, all that there are around it, as closed walks that do not cross themselves. */
export function joinSteps(map: RegionMap, steps: readonly LoopStep[]): Loop[] {
  const leaving = new Map<number, LoopStep[]>();
  for (const step of steps) {
    const node = startOf(map, step);
    const list = leaving.get(node);
    if (list === undefined) leaving.set(node, [step]);
    else list.push(step);
  }
  const used = new Set<LoopStep>();
  const loops: Loop[] = [];
  for (const first of steps) {
    if (used.has(first)) continue;
    const loop: LoopStep[] = [];
    for (let step = first; !used.has(step); step = nextStep(map, step, leaving)) {
      used.add(step);
      loop.push(step);
    }
    loops.push(loop);
  }
  return loops;
}

function startOf(map: RegionMap, { edge, forward }: LoopStep): number {
  return forward ? map.edges[edge].from : map.edges[edge].to;
}

function endOf(map: RegionMap, { edge, forward }: LoopStep): number {
  return forward ? map.edges[edge].to : map.edges[edge].from;
}

/** The walk's next step: the first one in the turn through the wood, from the way back round to the left. */
function nextStep(
  map: RegionMap,
  step: LoopStep,
  leaving: ReadonlyMap<number, readonly LoopStep[]>,
): LoopStep {
  const choices = leaving.get(endOf(map, step))!;
  if (choices.length === 1) return choices[0];
  const back = headingFrom(map, { edge: step.edge, forward: !step.forward });
  const turn = (choice: LoopStep): number => {
    const angle = headingFrom(map, choice) - back;
    return angle <= 0 ? angle + 2 * Math.PI : angle;
  };
  return choices.reduce((best, choice) => (turn(choice) < turn(best) ? choice : best));
}

/** Direction in which a step leaves its first node, radians from +x towards +y. */
function headingFrom(map: RegionMap, { edge, forward }: LoopStep): number {
  const points = edgePoints(map, edge, FLATNESS);
  const [a, b] = forward ? [points[0], points[1]] : [points[points.length - 1], points[points.length - 2]];
  return Math.atan2(b[1] - a[1], b[0] - a[0]);
}
