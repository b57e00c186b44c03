import type { Relief } from '../relief/relief.js';
import type { CutStep, Pass } from './cut-plan.js';

/** The step is sawn in the block that the board belongs to. */
export function isOnBoard({ map }: Relief, { blocks }: Pass, step: CutStep): boolean {
  if (blocks.length < 2) return blocks[0]?.board ?? true;
  const { left, right } = map.edges[step.edges[step.edges.length - 1]];
  const block =
    blocks.find(({ regions }) => regions.includes(left)) ??
    blocks.find(({ regions }) => regions.includes(right));
  return block?.board ?? true;
}
