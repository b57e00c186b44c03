import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { isAddOnEdge } from './sheet-sets.js';

/**
 * How many sheets stay at each region of a continuous relief, counted from the back. 0 for openings, voids and
 * regions without a number.
 */
export function keptLevels(relief: Relief): Int32Array {
  return Int32Array.from(relief.regions, ({ body, down }, r) =>
    body === null || relief.map.regions[r].addOn ? 0 : Math.max(0, relief.bodies[body].sheets - down),
  );
}

/**
 * For one sheet of a continuous relief, `level` counted from 1 at the back: 1 where a line is sawn, by edge.
 * A vein is sawn in the sheet that shows.
 */
export function levelLines(relief: Relief, levels: Int32Array, level: number): Int32Array {
  const { map, frame } = relief;
  const carried = (region: number): boolean => region !== OUTSIDE && levels[region] >= level;
  return Int32Array.from(map.edges, ({ left, right, kind }, e) => {
    if (isAddOnEdge(map, e)) return 0;
    if (kind !== 'border') return left !== OUTSIDE && levels[left] === level ? 1 : 0;
    if (frame === 'board-edge' && (left === OUTSIDE || right === OUTSIDE)) return 0;
    return carried(left) !== carried(right) ? 1 : 0;
  });
}
