import type { Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { woodLevels } from './material.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { namesOf } from './words.js';

/** Wood that hangs together in a point only: it breaks, or was never joined. Page: docs/checks/touch-in-point.md. */
export const touchInPoint = defineRule<'touch-in-point', NoOptions>({
  id: 'touch-in-point',
  group: 'build',
  level: 'warning',
  summary: 'wood touches in a point only',
  model: null,
  defaults: {},
  find: ({ relief }) => {
    const levels = woodLevels(relief);
    const found: RuleFinding[] = [];
    forEachCrossing(relief, (at, edges) => {
      const level = pinchedLevel(relief, levels, edges);
      if (level === 0) return;
      const around = new Set(
        edges.flatMap((edge) => [relief.map.edges[edge].left, relief.map.edges[edge].right]),
      );
      const wood = [...around].filter((r) => r !== OUTSIDE && levels[r] >= level).sort((a, b) => a - b);
      const where = level === 1 ? '' : ` in the sheet of level ${level}`;
      found.push({
        message: `${namesOf(relief, wood)} ${wood.length === 1 ? 'meets itself' : 'meet'} in a single point${where}; nothing holds there.`,
        at,
        regions: wood,
        fix: 'Draw the wood wider there, by at least the width of a bridge, or part it by a gap.',
      });
    });
    return found;
  },
});

/** Calls back for every node where four or more borders meet. */
function forEachCrossing(relief: Relief, visit: (at: Point, edges: readonly number[]) => void): void {
  const { map } = relief;
  const degree = new Int32Array(map.nodes.length);
  const isBorder = (edge: number): boolean => map.edges[edge].kind === 'border' && !overOthers(relief, edge);
  map.edges.forEach(({ from, to }, edge) => {
    if (!isBorder(edge)) return;
    degree[from]++;
    degree[to]++;
  });
  const at = new Map<number, number[]>();
  map.edges.forEach(({ from, to }, edge) => {
    if (!isBorder(edge)) return;
    for (const node of [from, to]) {
      if (degree[node] < 4) continue;
      const list = at.get(node);
      if (list === undefined) at.set(node, [edge]);
      else list.push(edge);
    }
  });
  for (const [node, edges] of at) visit(map.nodes[node].at, edges);
}

function overOthers(relief: Relief, edge: number): boolean {
  const { left, right } = relief.map.edges[edge];
  return (relief.map.regions[left]?.addOn ?? false) || (relief.map.regions[right]?.addOn ?? false);
}

/**
 * The lowest level at which wood and air change four times or more around a node: 0 where there is none. As
 * pieces all wood is glued up to one body, so that only the lowest level counts.
 */
function pinchedLevel(relief: Relief, levels: Float64Array, edges: readonly number[]): number {
  const most = relief.joint === 'pieces' ? 1 : relief.stack.sheets.length;
  const has = (region: number, level: number): boolean => region !== OUTSIDE && levels[region] >= level;
  for (let level = 1; level <= most; level++) {
    const changes = edges.filter((edge) => {
      const { left, right } = relief.map.edges[edge];
      return has(left, level) !== has(right, level);
    });
    if (changes.length >= 4) return level;
  }
  return 0;
}
