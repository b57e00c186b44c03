import type { RegionMap } from '../plane/region-map.js';
import { BEFORE, NEVER } from './board-lumps.js';
import { isAddOnEdge } from './sheet-sets.js';

/** Follows a setting step by step, to tell in the end when each line parted its sides. */
export interface PartingWatch {
  /** By edge, as `boardLumps` asks for it. */
  readonly partedAt: Int32Array;
  /** A step has sawn these lines, and these regions are gone with it. */
  stepDone(step: number, lines: readonly number[], gone: readonly number[]): void;
}

/** @param isParted nothing holds at the line any more, in all the sheets held */
export function watchParting(map: RegionMap, isParted: (edge: number) => boolean): PartingWatch {
  const partedAt = Int32Array.from(map.edges, ({ kind }, e) =>
    kind !== 'border' || isAddOnEdge(map, e) || isParted(e) ? BEFORE : NEVER,
  );
  return {
    partedAt,
    stepDone(step, lines, gone) {
      const look = (e: number): void => {
        if (partedAt[e] === NEVER && isParted(e)) partedAt[e] = step;
      };
      lines.forEach(look);
      for (const r of gone) for (const loop of map.regions[r].loops) for (const { edge } of loop) look(edge);
    },
  };
}
