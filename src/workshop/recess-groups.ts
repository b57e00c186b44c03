import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { type Area, joinAreas, splitByNodes } from './areas.js';
import type { LineShapes } from './line-shapes.js';
import type { RecessClass } from './recess-schedule.js';
import { countSheets, holdsAll, type SheetDemand, type SheetSet } from './sheet-sets.js';
import { acrossEdge } from './standing-stock.js';
import { boxSize, runBounds } from './targets.js';

/** Neighbouring regions of one body that are cut out of the same sheets: sawn as one. */
export interface RecessGroup {
  readonly area: Area;
  readonly body: number;
  /** The sheets that it goes through. */
  readonly sheets: SheetSet;
  /** Lines inside it that part whole pieces from it: they have to be sawn through and lifted out first. */
  readonly islandLines: readonly number[];
  /** Openings of the same body beside it, and veins in it, that have to be sawn first: by line. */
  readonly firstLines: readonly number[];
  /** Indices of the groups that have to come before: deeper ones beside it. */
  readonly after: readonly number[];
}

/** All recesses of a relief of pieces, grouped; in the order of their first regions. */
export function recessGroups(
  relief: Relief,
  demand: SheetDemand,
  needed: Int32Array,
  shapes: LineShapes,
): RecessGroup[] {
  const { map } = relief;
  const { body, kept, cutout } = demand;
  const keyOf = new Map<string, number>();
  const keys = relief.regions.map((_, r) => {
    if (body[r] < 0 || kept[r] === 0 || cutout[r] === 0) return -1;
    const name = `${body[r]} ${cutout[r]}`;
    if (!keyOf.has(name)) keyOf.set(name, keyOf.size);
    return keyOf.get(name)!;
  });
  const areas = joinAreas(map, keys);
  const groupOf = new Map<number, number>();
  areas.forEach(({ regions }, g) => {
    for (const r of regions) groupOf.set(r, g);
  });
  return areas.map((area, g) => {
    const r = area.regions[0];
    const inside = new Set(area.regions);
    const across = area.border.map((e) => {
      const { left, right } = map.edges[e];
      return acrossEdge(map, e, inside.has(left) ? left : right);
    });
    const inHoles = holeLines(map, shapes, area.border);
    const islandLines = area.border.filter(
      (e, i) => inHoles.has(e) && across[i] !== OUTSIDE && body[across[i]] !== body[r],
    );
    const openings = area.border.filter(
      (_, i) => across[i] !== OUTSIDE && body[across[i]] === body[r] && kept[across[i]] === 0,
    );
    const veins = area.regions.flatMap((region) => map.regions[region].veins.filter((e) => needed[e] !== 0));
    const deeper = across.flatMap((other) => {
      const group = groupOf.get(other);
      return group !== undefined && group !== g && holdsAll(cutout[other], cutout[r]) ? [group] : [];
    });
    return {
      area,
      body: body[r],
      sheets: cutout[r],
      islandLines,
      firstLines: [...openings, ...veins],
      after: [...new Set(deeper)].sort((a, b) => a - b),
    };
  });
}

/** The lines around an area that are not on its outer border. */
function holeLines(map: RegionMap, shapes: LineShapes, border: readonly number[]): ReadonlySet<number> {
  const runs = splitByNodes(map, border);
  if (runs.length < 2) return new Set();
  const sizes = runs.map((run) => boxSize(runBounds(shapes, run)));
  const outer = sizes.indexOf(Math.max(...sizes));
  return new Set(runs.flatMap((run, i) => (i === outer ? [] : run)));
}

/** Groups that are alike for the schedule, and the class of each group. */
export interface RecessClasses {
  readonly classes: readonly RecessClass[];
  readonly classOf: readonly number[];
}

/** Sorts groups into classes. A group comes no earlier than those it has to follow. */
export function classifyRecesses(
  groups: readonly RecessGroup[],
  demand: SheetDemand,
  needed: Int32Array,
  total: number,
): RecessClasses {
  const classes: RecessClass[] = [];
  const known = new Map<string, number>();
  const classOf: number[] = new Array(groups.length).fill(-1);
  const classify = (g: number): number => {
    if (classOf[g] >= 0) return classOf[g];
    const group = groups[g];
    const after = [...new Set(group.after.map(classify))].sort((a, b) => a - b);
    const own = group.islandLines.map((e) => countSheets(needed[e]));
    const item: RecessClass = {
      sheets: group.sheets,
      earliest: Math.min(total, ...own, ...after.map((c) => classes[c].earliest)),
      latest: demand.passOf[group.body],
      beforeAll: own.length === 0 && after.every((c) => classes[c].beforeAll),
      front: group.firstLines.length > 0 ? demand.passOf[group.body] : 0,
      after,
    };
    const name = JSON.stringify(item);
    if (!known.has(name)) {
      known.set(name, classes.length);
      classes.push(item);
    }
    classOf[g] = known.get(name)!;
    return classOf[g];
  };
  for (const g of groups.keys()) classify(g);
  return { classes, classOf };
}
