import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { defineRule, type RuleFinding } from './rule.js';
import { type VeinTree, veinTrees } from './vein-trees.js';
import { round2 } from './words.js';

export interface OvershootOptions {
  /** A line that runs on past a crossing by no more than this, mm, was probably meant to end there. */
  readonly longest?: number;
}

/** A line that runs a little past the one it should end on. Page: docs/checks/overshoot.md. */
export const overshoot = defineRule<'overshoot', OvershootOptions>({
  id: 'overshoot',
  group: 'lines',
  level: 'warning',
  summary: 'a line runs a little past the one that it should end on',
  model: 'length of the line past the crossing',
  defaults: { longest: 1 },
  find: ({ relief }, { longest }) => {
    const { map } = relief;
    const found: RuleFinding[] = [];
    for (const tree of veinTrees(map)) {
      if (!isOvershoot(map, tree, longest)) continue;
      const shape = map.shapes[map.edges[tree.edges[0]].shapes[0]];
      found.push({
        message: `A line runs ${round2(tree.length)} mm past the one that it meets; the saw would leave a nick.`,
        at: map.nodes[tree.ends[0]].at,
        regions: tree.region === OUTSIDE ? [] : [tree.region],
        ...(shape === undefined ? {} : { source: shape.source }),
        measured: { value: tree.length, needed: 0, unit: 'mm' },
        fix: 'Trim the line back to the crossing.',
      });
    }
    return found;
  },
});

/** Whether a tree is one short end of a line that goes on at the other side of the border it stands on. */
export function isOvershoot(map: RegionMap, tree: VeinTree, longest: number): boolean {
  if (tree.edges.length !== 1 || tree.feet.length !== 1 || tree.length > longest) return false;
  const drawnBy = new Set(map.edges[tree.edges[0]].shapes);
  return tree.footEdges.some((edge) => map.edges[edge].shapes.some((shape) => drawnBy.has(shape)));
}
