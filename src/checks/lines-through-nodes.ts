import { distance, type Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';

/** Two edges that go on in each other at a node where others meet them too. */
export interface LineThroughNode {
  readonly edges: readonly [number, number];
  /** The line through the node, as far as asked for to both sides. */
  readonly chain: readonly Point[];
}

/** Points nearer to each other than this are one, mm: an end of a true curve and its node on the grid. */
const SAME = 0.003;

/** Cosine of the turn at a node up to which a line goes on (40°); more is a corner. */
const GOES_ON = 0.77;

/**
 * Lines that pass a node without a corner, cut in two there by what else ends at it. `points` are those of each
 * edge, from its first node on. In the order of the nodes.
 *
 * @param reach length of line to both sides, mm
 */
export function linesThroughNodes(
  map: RegionMap,
  points: readonly (readonly Point[])[],
  reach: number,
): LineThroughNode[] {
  const ends: { edge: number; forward: boolean }[][] = map.nodes.map(() => []);
  map.edges.forEach(({ from, to }, edge) => {
    if (points[edge].length < 2) return;
    ends[from].push({ edge, forward: true });
    ends[to].push({ edge, forward: false });
  });
  return ends.flatMap((here) => {
    if (here.length < 2) return [];
    const arms = here.map(({ edge, forward }) => ({ edge, arm: armOf(points[edge], forward, reach) }));
    return arms.flatMap((one, i) =>
      arms.slice(i + 1).flatMap((other): LineThroughNode[] => {
        if (one.arm.length < 2 || other.arm.length < 2 || !goesOn(one.arm, other.arm)) return [];
        const chain = [...one.arm].reverse().concat(other.arm.slice(1));
        return [{ edges: [one.edge, other.edge], chain }];
      }),
    );
  });
}

/** The beginning of an edge as seen from one of its nodes. */
function armOf(points: readonly Point[], forward: boolean, reach: number): Point[] {
  const count = points.length;
  const at = (k: number): Point => points[forward ? k : count - 1 - k];
  const arm = [at(0)];
  let length = 0;
  for (let k = 1; k < count && length < reach; k++) {
    const step = distance(arm[arm.length - 1], at(k));
    if (step < SAME) continue;
    arm.push(at(k));
    length += step;
  }
  return arm;
}

function goesOn(one: readonly Point[], other: readonly Point[]): boolean {
  const [ux, uy] = [one[0][0] - one[1][0], one[0][1] - one[1][1]];
  const [vx, vy] = [other[1][0] - other[0][0], other[1][1] - other[0][1]];
  return ux * vx + uy * vy > GOES_ON * Math.hypot(ux, uy) * Math.hypot(vx, vy);
}
