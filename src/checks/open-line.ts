import { distance, type Point } from '../geometry/point.js';
import { edgePoints } from '../plane/edge-points.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { edgesOf, nearestOnEdge } from './near-line.js';
import { isOvershoot, overshoot } from './overshoot.js';
import { defineRule, type RuleFinding } from './rule.js';
import { type VeinTree, veinTrees } from './vein-trees.js';
import { nameOf, round2 } from './words.js';

/** Distance between a line and its chords when the direction of its end is taken, mm. */
const FLATNESS = 0.01;

const COS_45 = Math.SQRT1_2;

export interface OpenLineOptions {
  /** An end that heads for another line and comes this near to it, mm, was probably meant to reach it. */
  readonly near?: number;
}

/** A line that ends inside a region: a vein line, or an outline that was not closed. Page: docs/checks/open-line.md. */
export const openLine = defineRule<'open-line', OpenLineOptions>({
  id: 'open-line',
  group: 'lines',
  level: 'warning',
  summary: 'a line ends without meeting another',
  model: 'distance from the open end to the nearest other line that it heads for, give or take 45 degrees',
  defaults: { near: 2 },
  find: ({ relief }, { near }) => {
    const { map } = relief;
    const found: RuleFinding[] = [];
    const dashed = new Set(map.details.map(({ shape }) => shape));
    for (const tree of veinTrees(map)) {
      // A dashed line is meant to end, and was told of when it was read.
      if (tree.edges.every((e) => map.edges[e].shapes.every((shape) => dashed.has(shape)))) continue;
      if (isOvershoot(map, tree, overshoot.defaults.longest)) continue;
      const where =
        tree.region === OUTSIDE ? 'outside every region' : `inside ${nameOf(relief, tree.region)}`;
      const gap = smallestGap(map, tree);
      const close = gap !== null && gap.length <= near;
      const node = gap?.node ?? tree.ends[0];
      found.push({
        message: close
          ? `A line ends ${where}, ${round2(gap.length)} mm short of another line; it bounds nothing.`
          : `A line of ${round2(tree.length)} mm ends ${where}; it is sawn as a vein line and bounds nothing.`,
        at: map.nodes[node].at,
        regions: tree.region === OUTSIDE ? [] : [tree.region],
        ...sourceOf(map, tree),
        ...(close ? { measured: { value: gap.length, needed: 0, unit: 'mm' } } : { level: 'note' as const }),
        fix: close
          ? 'Draw it on to the line that is meant, or map with a larger gap tolerance.'
          : 'Leave it if a vein line is meant; else close the outline.',
      });
    }
    return found;
  },
});

/** The open end that comes nearest to a line which it heads for; null where there is none. */
function smallestGap(map: RegionMap, tree: VeinTree): { node: number; length: number } | null {
  const around = tree.region === OUTSIDE ? new Set(tree.edges) : edgesOf(map, tree.region);
  let best: { node: number; length: number } | null = null;
  for (const node of tree.ends) {
    const end = map.nodes[node].at;
    const last = tree.edges.find((edge) => map.edges[edge].from === node || map.edges[edge].to === node)!;
    const [headingX, headingY] = headingAtEnd(map, last, node);
    const ahead = (place: Point): boolean => {
      const [dx, dy] = [place[0] - end[0], place[1] - end[1]];
      return dx * headingX + dy * headingY >= COS_45 * Math.hypot(dx, dy);
    };
    let length = Number.POSITIVE_INFINITY;
    for (const edge of around) {
      if (edge !== last) length = Math.min(length, nearestOnEdge(map, edge, end, ahead).distance);
    }
    for (const partner of tree.ends) {
      const place = map.nodes[partner].at;
      if (partner !== node && ahead(place)) length = Math.min(length, distance(end, place));
    }
    if (length < (best?.length ?? Number.POSITIVE_INFINITY)) best = { node, length };
  }
  return best;
}

/** Unit vector in which a line arrives at one of its ends. */
function headingAtEnd(map: RegionMap, edge: number, node: number): Point {
  const points = edgePoints(map, edge, FLATNESS);
  if (map.edges[edge].to !== node) points.reverse();
  const [a, b] = points.slice(-2);
  const length = distance(a, b);
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

function sourceOf(map: RegionMap, tree: VeinTree): Pick<RuleFinding, 'source'> {
  const shape = map.shapes[map.edges[tree.edges[0]].shapes[0]];
  return shape === undefined ? {} : { source: shape.source };
}
