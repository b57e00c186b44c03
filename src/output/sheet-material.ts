import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';

/** No material of the relief here: an offcut, a hole, or the outside. */
export const NOTHING = -1;

/**
 * What a sheet of the stack carries in each region: the index of the body (joint `pieces`), 0 (joint
 * `continuous`), or `NOTHING`. Same index as `map.regions`; add-ons that lie over the drawing carry nothing.
 *
 * - pieces: a body of n sheets is made of the sheets in its `order`; a recess `down` sheets deep takes the
 *   first `down` of them away.
 * - continuous: the k-th sheet from the back is level k, and carries each region that keeps k or more sheets.
 *
 * @param sheet index into `relief.stack.sheets`, 0 in front.
 */
export function sheetMaterial(relief: Relief, sheet: number): Int32Array {
  const { sheets } = relief.stack;
  const level = sheets.length - sheet;
  return Int32Array.from(relief.regions, (region, index) => {
    if (relief.map.regions[index].addOn || region.depth === null) return NOTHING;
    if (relief.joint === 'continuous') return region.depth >= level ? 0 : NOTHING;
    if (region.body === null) return NOTHING;
    const place = relief.bodies[region.body].order.lastIndexOf(sheets[sheet].id);
    return place >= region.down ? region.body : NOTHING;
  });
}

/** The edges where the material of a sheet ends or changes from one body to another: the lines to cut. */
export function materialEdges(map: RegionMap, material: Int32Array): number[] {
  const on = (region: number): number => (region === OUTSIDE ? NOTHING : material[region]);
  const edges: number[] = [];
  map.edges.forEach((edge, index) => {
    if (on(edge.left) !== on(edge.right)) edges.push(index);
  });
  return edges;
}

/** Area of the material on a sheet, mm². */
export function materialArea(map: RegionMap, material: Int32Array): number {
  return map.regions.reduce((sum, region, index) => sum + (material[index] === NOTHING ? 0 : region.area), 0);
}
