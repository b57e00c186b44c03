import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { NOTHING } from '../../src/output/sheet-material.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { OUTSIDE, type RegionMap } from '../../src/plane/region-map.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseSidecar } from '../../src/relief/parse-sidecar.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { Joint, Relief } from '../../src/relief/relief.js';
import type { CutPlan } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { ROOT, textOf } from '../structure/source-files.js';

/** Drawings that every writer is tried on: path without ending. */
export const JOBS = [
  'docs/examples/pond',
  'fixtures/harbour/harbour',
  'fixtures/fretwork/fretwork',
  'fixtures/owl/owl',
] as const;

const maps = new Map<string, RegionMap>();

/** The map of a drawing of the package; each is made once. */
export function mapOf(path: string): RegionMap {
  let map = maps.get(path);
  if (map === undefined) {
    map = mapRegions(readDrawing(textOf(`${path}.svg`)));
    maps.set(path, map);
  }
  return map;
}

/** The relief of a drawing of the package with its sidecar, where it has one. */
export function reliefOf(path: string, joint?: Joint): Relief {
  const sidecar = existsSync(join(ROOT, `${path}.plystep.json`))
    ? parseSidecar(textOf(`${path}.plystep.json`))
    : null;
  return buildRelief(mapOf(path), {
    stack: sidecar?.stack ?? parseStack('4x 3 mm birch'),
    joint: joint ?? sidecar?.joint ?? 'pieces',
    frame: sidecar?.frame ?? 'cut',
    sidecar: sidecar?.numbers ?? [],
  });
}

const plans = new Map<string, CutPlan>();

/** The plan of a drawing of the package; each is made once. */
export function planOf(path: string): CutPlan {
  let plan = plans.get(path);
  if (plan === undefined) {
    plan = planCuts(reliefOf(path));
    plans.set(path, plan);
  }
  return plan;
}

/**
 * Groups of regions that a sheet shows as one area, since no line between them is drawn: the areas to find when
 * the sheet is read back. Regions that flow into the outside, and add-ons, are left out.
 */
export function shownGroups(map: RegionMap, material: Int32Array): number[][] {
  const parent = Array.from({ length: map.regions.length + 1 }, (_, i) => i);
  const outside = map.regions.length;
  const find = (start: number): number => {
    let i = start;
    while (parent[i] !== i) i = parent[i];
    return i;
  };
  const place = (region: number): number => (region === OUTSIDE ? outside : region);
  const carried = (region: number): number => (region === OUTSIDE ? NOTHING : material[region]);
  for (const edge of map.edges) {
    if (carried(edge.left) === carried(edge.right)) parent[find(place(edge.left))] = find(place(edge.right));
  }
  const groups = new Map<number, number[]>();
  map.regions.forEach((region, index) => {
    if (region.addOn || find(index) === find(outside)) return;
    groups.set(find(index), [...(groups.get(find(index)) ?? []), index]);
  });
  return [...groups.values()];
}
