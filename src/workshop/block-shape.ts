import { OUTSIDE } from '../plane/region-map.js';
import { splitByNodes } from './areas.js';
import type { Block } from './cut-plan.js';
import type { StandingStock } from './standing-stock.js';
import { boxSize, runBounds } from './targets.js';

/**
 * A block as the blade meets it. A loose block is taken onto the saw table by itself, so that all around it, and
 * all that lies in its holes, is air. The air around it is its edge: the blade comes in from there without being
 * threaded.
 */
export interface BlockShape {
  readonly regions: readonly number[];
  /** Whether a region stands in it. The board around the drawing is waste, so air to the blade: OUTSIDE is not. */
  has(region: number): boolean;
  /** The lines in it and around it, ascending. */
  readonly lines: readonly number[];
  hasLine(edge: number): boolean;
  /** Lines beside air: those of the edge first, then those of each hole. */
  readonly air: readonly (readonly number[])[];
  /** The index into `air` of a line, undefined where the block is on both sides of it. */
  airOf(edge: number): number | undefined;
}

/** The shapes of blocks that stand side by side, same index as `blocks`. Cost: linear in the lines. */
export function blockShapes(stock: StandingStock, blocks: readonly Block[]): BlockShape[] {
  const { map, counted } = stock;
  const blockOf = new Int32Array(map.regions.length).fill(-1);
  blocks.forEach(({ regions }, b) => {
    for (const r of regions) blockOf[r] = b;
  });
  const board = blocks.findIndex((block) => block.board);
  const sideOf = (region: number): number => (region === OUTSIDE ? -1 : blockOf[region]);
  const lines: number[][] = blocks.map(() => []);
  const border: number[][] = blocks.map(() => []);
  map.edges.forEach(({ left, right }, e) => {
    if (counted[e] === 0) return;
    const sides = new Set([sideOf(left), sideOf(right)]);
    if (left === OUTSIDE || right === OUTSIDE) sides.add(board);
    const inside = left !== OUTSIDE && right !== OUTSIDE && sides.size === 1;
    for (const b of sides) {
      if (b < 0) continue;
      lines[b].push(e);
      if (!inside) border[b].push(e);
    }
  });
  return blocks.map(({ regions }, b) => {
    const air = airAround(stock, border[b], b === board);
    const airOf = new Map(air.flatMap((run, k) => run.map((e) => [e, k] as const)));
    const own = new Set(lines[b]);
    return {
      regions,
      has: (region) => region !== OUTSIDE && blockOf[region] === b,
      lines: lines[b],
      hasLine: (edge) => own.has(edge),
      air,
      airOf: (edge) => airOf.get(edge),
    };
  });
}

/** The lines beside air, sorted into the edge of the block and its holes. */
function airAround(stock: StandingStock, border: readonly number[], board: boolean): number[][] {
  const runs = splitByNodes(stock.map, border);
  const atEdge = board ? runs.map((run) => run.some((e) => isOutside(stock, e))) : largest(stock, runs);
  return [runs.filter((_, i) => atEdge[i]).flat(), ...runs.filter((_, i) => !atEdge[i])];
}

function isOutside({ map }: StandingStock, edge: number): boolean {
  return map.edges[edge].left === OUTSIDE || map.edges[edge].right === OUTSIDE;
}

/** Of closed lines around a thing without a board, the one that lies around all others is its outline. */
function largest({ shapes }: StandingStock, runs: readonly (readonly number[])[]): boolean[] {
  if (runs.length < 2) return runs.map(() => true);
  const sizes = runs.map((run) => boxSize(runBounds(shapes, run)));
  const outer = sizes.indexOf(Math.max(...sizes));
  return runs.map((_, i) => i === outer);
}
