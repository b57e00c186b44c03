import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { type Area, areaOf, joinAreas, splitByNodes } from './areas.js';
import type { RecessGroup } from './recess-groups.js';
import { frontSheets, type SheetDemand, type SheetSet } from './sheet-sets.js';
import { isDue, isParted, type StandingStock } from './standing-stock.js';
import {
  blockTarget,
  cutoutTarget,
  outlineTargets,
  type Target,
  veinTarget,
  watchedWaste,
} from './targets.js';

/** All that is to be sawn out of a stack of pieces, worked out once. */
export interface PieceAreas {
  /** Openings that share border and body. */
  readonly openings: readonly Area[];
  readonly voids: readonly Area[];
  /** By body: its regions, openings left out. */
  readonly bodies: readonly (readonly number[])[];
}

export function pieceAreas(relief: Relief, demand: SheetDemand): PieceAreas {
  const { map } = relief;
  const { body, kept } = demand;
  const bodies: number[][] = relief.bodies.map(() => []);
  relief.regions.forEach((_, r) => {
    if (body[r] >= 0 && kept[r] !== 0) bodies[body[r]].push(r);
  });
  return {
    openings: joinAreas(
      map,
      body.map((b, r) => (kept[r] === 0 ? b : -1)),
    ),
    voids: joinAreas(
      map,
      relief.regions.map(({ role }, r) => (role === 'void' && !map.regions[r].addOn ? 0 : -1)),
    ),
    bodies,
  };
}

/** The targets of pass n, and what may come free beside them. */
export function passTargets(
  stock: StandingStock,
  demand: SheetDemand,
  areas: PieceAreas,
  recesses: readonly RecessGroup[],
  pass: number,
): { targets: Target[]; watched: Target[] } {
  const { map, shapes } = stock;
  const held = frontSheets(pass);
  const targets: Target[] = [];
  const watched = recesses.map(({ area, sheets }) => watchedWaste(map, area, sheets));
  for (const area of areas.openings) {
    if (demand.passOf[demand.body[area.regions[0]]] === pass) targets.push(cutoutTarget(map, area, held));
  }
  for (const area of areas.voids) {
    if (closes(stock, area, held)) targets.push(cutoutTarget(map, area, held));
    else watched.push(watchedWaste(map, area, held));
  }
  areas.bodies.forEach((regions, body) => {
    if (demand.passOf[body] !== pass || regions.length === 0) return;
    for (const region of regions) targets.push(...veinsIn(stock, region, held));
    targets.push(...outlineTargets(map, shapes, areaOf(map, regions), held));
  });
  return { targets, watched };
}

/** All that still holds a void in place is sawn in this setting. */
function closes(stock: StandingStock, area: Area, held: SheetSet): boolean {
  if (area.touchesOutside && stock.frame === 'cut') return false;
  const open = area.border.filter((e) => !isParted(stock, e, held));
  return open.length > 0 && open.every((e) => isDue(stock, e, held));
}

function veinsIn(stock: StandingStock, region: number, held: SheetSet): Target[] {
  const { map, shapes, needed } = stock;
  const veins = map.regions[region].veins.filter((e) => needed[e] !== 0);
  return splitByNodes(map, veins).map((lines) => veinTarget(map, shapes, held, lines));
}

/** What has to be sawn before the recesses of a slot: openings and veins in them, and what they go around. */
export function beforeRecesses(
  stock: StandingStock,
  demand: SheetDemand,
  areas: PieceAreas,
  groups: readonly RecessGroup[],
  held: SheetSet,
): Target[] {
  const { map, shapes } = stock;
  const targets: Target[] = [];
  const first = new Set(groups.flatMap((group) => group.firstLines));
  for (const area of areas.openings) {
    if (area.border.some((e) => first.has(e))) targets.push(cutoutTarget(map, area, held));
  }
  for (const group of groups) {
    for (const region of group.area.regions) targets.push(...veinsIn(stock, region, held));
  }
  const islands = new Set<number>();
  for (const group of groups) {
    const lines = group.islandLines.filter((e) => !isParted(stock, e, held));
    for (const run of splitByNodes(map, lines)) {
      for (const e of run) {
        for (const r of [map.edges[e].left, map.edges[e].right]) {
          if (r !== OUTSIDE && demand.body[r] >= 0 && demand.body[r] !== group.body)
            islands.add(demand.body[r]);
        }
      }
      targets.push(blockTarget(map, shapes, group.area.regions, held, run));
    }
  }
  for (const body of [...islands].sort((a, b) => a - b)) {
    if (frontSheets(demand.passOf[body]) !== held) continue;
    targets.push(...outlineTargets(map, shapes, areaOf(map, areas.bodies[body]), held));
  }
  return targets;
}

/** The step for each recess: the lines that go just as deep. */
export function recessTargets(stock: StandingStock, groups: readonly RecessGroup[]): Target[] {
  return groups.map(({ area, sheets }) => {
    const lines = area.border.filter((e) => stock.needed[e] === sheets);
    return cutoutTarget(stock.map, area, sheets, lines);
  });
}
