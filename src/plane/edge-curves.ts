import { demandList, demandMembers, isMembers, refuseArgument } from '../arguments.js';
import { type Curve, subCurve } from '../geometry/curve.js';
import { distance, type Point } from '../geometry/point.js';
import type { Loop, MapEdge, RegionMap } from './region-map.js';

/** Ends that miss each other by less than this, mm, are one: the rounding of parameters. */
const SAME_END = 1e-9;

/** Asked for each edge of a map, so it looks before it calls. */
function demandLines(map: Pick<RegionMap, 'curves' | 'nodes'>, call: string): void {
  if (Array.isArray(map?.curves) && Array.isArray(map.nodes)) return;
  demandMembers(map, ['curves', 'nodes'], call, 'a region map (from mapRegions)');
}

/**
 * The true line of an edge from its `from` node to its `to` node, as curves that join: each piece of a source
 * curve, its ends moved onto the nodes' true points and onto each other (by the weld tolerance at most).
 */
export function edgeCurves(map: Pick<RegionMap, 'curves' | 'nodes'>, edge: MapEdge): Curve[] {
  demandLines(map, 'edgeCurves');
  const whole = Array.isArray(edge?.pieces) && map.nodes[edge.from] && map.nodes[edge.to];
  if (!whole) refuseArgument('edgeCurves', 'an edge of the map (of map.edges) is needed');
  const curves = edge.pieces.map(({ curve, t0, t1 }) => subCurve(map.curves[curve], t0, t1));
  const joints: Point[] = [map.nodes[edge.from].truePoint];
  for (let i = 1; i < curves.length; i++) joints.push(curves[i].from);
  joints.push(map.nodes[edge.to].truePoint);
  return curves
    .map((curve, i) => withEnds(curve, joints[i], joints[i + 1]))
    .filter((curve) => curve.kind !== 'line' || distance(curve.from, curve.to) > SAME_END);
}

/** The curves of a loop, in order. */
export function loopCurves(map: Pick<RegionMap, 'curves' | 'nodes' | 'edges'>, loop: Loop): Curve[] {
  demandLines(map, 'loopCurves');
  if (!Array.isArray(loop)) demandList(loop, 'loopCurves', 'loop');
  return loop.flatMap((step) => {
    if (!isMembers(step)) refuseArgument('loopCurves', 'the steps of a loop are { edge, forward }');
    const { edge, forward } = step;
    const curves = edgeCurves(map, map.edges[edge]);
    return forward ? curves : curves.reverse().map(turnRound);
  });
}

const turnRound = (curve: Curve): Curve => subCurve(curve, 1, 0);

/** The curve with its ends moved: Bézier controls go along with their end, arcs keep their ellipse. */
function withEnds(curve: Curve, from: Point, to: Point): Curve {
  if (curve.from === from && curve.to === to) return curve;
  // The difference first: a point that is moved by nothing stays as it is, to the last digit.
  const shift = (p: Point, a: Point, b: Point): Point => [p[0] + (b[0] - a[0]), p[1] + (b[1] - a[1])];
  switch (curve.kind) {
    case 'cubic':
      return {
        kind: 'cubic',
        from,
        control1: shift(curve.control1, curve.from, from),
        control2: shift(curve.control2, curve.to, to),
        to,
      };
    default:
      return { ...curve, from, to };
  }
}
