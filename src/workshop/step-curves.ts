import type { Curve } from '../geometry/curve.js';
import type { RegionMap } from '../plane/region-map.js';
import type { CutStep } from './cut-plan.js';
import { type LineShapes, lineShapes } from './line-shapes.js';
import { walkCurves } from './walk-lines.js';

/**
 * The true curves that a step saws, one list for each run without a break, in the order and direction of the
 * blade; the lead-in comes first.
 */
export function stepCurves(
  map: RegionMap,
  step: Pick<CutStep, 'edges' | 'forward' | 'joint'>,
  shapes: LineShapes = lineShapes(map),
): Curve[][] {
  const walk = step.edges.map((edge, i) => ({ edge, forward: step.forward[i] }));
  return walkCurves({ map, shapes }, walk, step.joint);
}
