import type { CutPlan, CutStep } from '../workshop/cut-plan.js';
import { edgesOf, nearestOnEdge } from './near-line.js';
import { defineRule, type RuleFinding } from './rule.js';
import { enough, round2 } from './words.js';

export interface HoleNearLineOptions {
  /** Least wood between the rim of a drilled hole and the nearest other line, mm. */
  readonly wood?: number;
}

/** A line within this distance of the middle of a hole is the line that the hole was drilled on, mm. */
const ON_THE_LINE = 0.05;

/** A drilled hole that comes too near to a line that is kept. Page: docs/checks/hole-near-line.md. */
export const holeNearLine = defineRule<'hole-near-line', HoleNearLineOptions>({
  id: 'hole-near-line',
  group: 'strength',
  level: 'warning',
  summary: 'a drilled hole comes too near to another line',
  model: 'distance from the rim of the hole to the nearest line that it was not drilled on',
  // Less breaks out under the bit; common practice, no source.
  defaults: { wood: 0.4 },
  find: ({ plan }, { wood }) => {
    if (plan === null) return [];
    return plan.passes.flatMap(({ steps }) => steps.flatMap((step) => findAt(plan, step, wood) ?? []));
  },
});

function findAt(plan: CutPlan, step: CutStep, wood: number): RuleFinding | null {
  const { start } = step;
  if (start.kind !== 'drill' || start.diameter === null) return null;
  const { map } = plan.relief;
  const around = new Set<number>(start.region === undefined ? [] : [start.region]);
  for (const edge of step.edges) {
    for (const side of [map.edges[edge].left, map.edges[edge].right]) if (side >= 0) around.add(side);
  }
  const edges = new Set([...around].flatMap((region) => [...edgesOf(map, region)]));
  let nearest = Number.POSITIVE_INFINITY;
  for (const edge of edges) {
    const { distance } = nearestOnEdge(map, edge, start.at);
    if (distance > ON_THE_LINE && distance < nearest) nearest = distance;
  }
  const left = nearest - start.diameter / 2;
  if (left >= wood) return null;
  return {
    message: `The hole of ${round2(start.diameter)} mm comes within ${round2(Math.max(0, left))} mm of another line.`,
    at: start.at,
    regions: step.regions,
    measured: { value: Math.max(0, left), needed: wood, unit: 'mm' },
    fix: `Move the lines ${enough(wood - left)} mm further apart, drill with a smaller bit, or start at another place.`,
  };
}
