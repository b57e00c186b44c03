import { pointAt } from '../curve.js';
import { curveArea } from '../curve-area.js';
import type { AreaBoundary } from './area-boundary.js';
import type { BoundaryPlace } from './shortest-chord.js';

/** For each loop the true area under its first k curves, as given, about its first point. */
export function areaSums(b: AreaBoundary): Float64Array[] {
  return b.loops.map((loop) => {
    const sums = new Float64Array(loop.length + 1);
    loop.forEach((c, k) => {
      sums[k + 1] = sums[k] + curveArea(c, 0, 1, loop[0].from);
    });
    return sums;
  });
}

/**
 * True area enclosed by the walk from one place to another of a loop, inside on the right, and the straight way back,
 * mm²; negative where that goes round what is not inside.
 */
export function walkedArea(
  b: AreaBoundary,
  sums: readonly Float64Array[],
  from: BoundaryPlace,
  to: BoundaryPlace,
): number {
  const backwards = b.sense[from.loop] < 0;
  return backwards ? -givenArea(b, sums, to, from) : givenArea(b, sums, from, to);
}

/** The same, walking the loop as it is given. */
function givenArea(
  b: AreaBoundary,
  sums: readonly Float64Array[],
  from: BoundaryPlace,
  to: BoundaryPlace,
): number {
  const loop = b.loops[from.loop];
  const origin = loop[0].from;
  const wraps = to.curve < from.curve || (to.curve === from.curve && to.t < from.t);
  const open = wraps ? b.area[from.loop] - pathArea(b, sums, to, from) : pathArea(b, sums, from, to);
  const [p, q] = [from, to].map(({ curve, t }) => pointAt(loop[curve], t));
  const back = ((q[0] - origin[0]) * (p[1] - origin[1]) - (q[1] - origin[1]) * (p[0] - origin[0])) / 2;
  return open + back;
}

function pathArea(
  b: AreaBoundary,
  sums: readonly Float64Array[],
  from: BoundaryPlace,
  to: BoundaryPlace,
): number {
  const loop = b.loops[from.loop];
  const origin = loop[0].from;
  if (from.curve === to.curve) return curveArea(loop[from.curve], from.t, to.t, origin);
  return (
    curveArea(loop[from.curve], from.t, 1, origin) +
    (sums[from.loop][to.curve] - sums[from.loop][from.curve + 1]) +
    curveArea(loop[to.curve], 0, to.t, origin)
  );
}
