import { findMaterial } from '../../shared/tables/woods.js';
import type { Curve } from '../geometry/curve.js';
import { areaBoundary } from '../geometry/narrow/area-boundary.js';
import { type Neck, narrowPlaces } from '../geometry/narrow-places.js';
import { distance, type Point } from '../geometry/point.js';
import { boundaryLoops } from '../plane/boundary-loops.js';
import { loopCurves } from '../plane/edge-curves.js';
import { type Loop, OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import { sheetOf } from '../relief/stack-height.js';
import { frontsTogether } from './bridge-where.js';
import type { Bridge, Workshop } from './cut-plan.js';
import type { BridgeCase, NeededWidth } from './needed-width.js';

/** Material that hangs together, and how it is sawn: where bridges are looked for. */
export interface WoodScene {
  /** Region indices. */
  readonly regions: readonly number[];
  /** The board around the drawing belongs to it. */
  readonly board: boolean;
  /** Ids of its sheets. */
  readonly sheets: readonly string[];
  /** Height of what is in the saw, mm. */
  readonly heightSawn: number;
  /**
   * Recesses that are gone from it, each with the height at which it is sawn, mm: only what lies beside one is looked
   * for, since the piece at its whole height tells the rest. Absent: everything counts, and is sawn at `heightSawn`.
   */
  readonly recesses?: readonly (readonly [region: number, height: number])[];
  /** What to call it in `Bridge.where`. */
  readonly where: string;
}

/** A bridge as a scene tells it. */
export interface SceneBridge extends Bridge {
  /** It lies beside none of the scene's recesses, so it counts only where the whole piece has it too. Absent: it counts. */
  readonly elsewhere?: true;
}

/** Room around the drawing on a board that is larger, mm: the narrow places at its own edge are not ours. */
const BOARD_ROOM = 50;

/** Two chords whose ends lie nearer than this are one bridge, mm. */
const SAME_PLACE = 0.05;

/**
 * Bridges of a scene that are narrower than the material and the height ask for, from top to bottom.
 *
 * What is needed is the most that one of the sheets needs (needed-width.ts), for the way the bridge lies to its
 * grain; `widthFor` says it for one sheet. Cost: n log n in the boundaries of the scene.
 */
export function bridgesIn(
  relief: Relief,
  workshop: Workshop,
  scene: WoodScene,
  widthFor: NeededWidth,
): SceneBridge[] {
  const { map } = relief;
  const sheets = [...new Set(scene.sheets)].map((id) => sheetOf(relief.stack, id));
  const recessHeights = scene.recesses === undefined ? null : new Map(scene.recesses);
  const need = (height: number, across: Point | null): { needed: number; grainAngle: number | null } =>
    sheets
      .map((sheet) => caseOf(workshop, height, sheet, across))
      .map((bridge) => ({ needed: widthFor(bridge), grainAngle: bridge.grainAngle ?? null }))
      .reduce((most, one) => (one.needed > most.needed ? one : most));
  const loops = sceneLoops(map, scene);
  const boundary = areaBoundary(loops.map((loop) => loop.curves));
  return narrowPlaces(boundary, need(scene.heightSawn, null).needed).flatMap((neck): SceneBridge[] => {
    const beyond = atEnds(neck, (loop, curve) => loops[loop].beyond[curve] ?? OUTSIDE);
    const heights = beyond.map((r) => recessHeights?.get(r) ?? scene.heightSawn);
    const { needed, grainAngle } = need(Math.max(...heights), neck.across);
    if (neck.width >= needed) return [];
    const { at, from, to, width, length, effect } = neck;
    const regions = regionsAt(loops, neck);
    const side = neck.side === null ? null : { area: neck.side.area, lever: neck.side.lever };
    const elsewhere = recessHeights !== null && !beyond.some((r) => recessHeights.has(r));
    const bridge = {
      at,
      from,
      to,
      width,
      needed,
      where: scene.where,
      regions,
      effect,
      length,
      side,
      grainAngle,
    };
    return [elsewhere ? { ...bridge, elsewhere } : bridge];
  });
}

/** The milder one first. */
const EFFECTS: readonly Bridge['effect'][] = ['opens', 'hangs', 'parts'];

/**
 * The bridges of several scenes, each place once, in the order in which they first come. Of what the scenes say about
 * one place the worst counts: where more breaks, then where more is needed. The needed width is the most of all, so that
 * a bridge that wide passes everywhere. Front sheets of a piece that are narrow in one place are named
 * together. What lies elsewhere (see `SceneBridge`) adds no place and no name of its own.
 */
export function joinBridges(scenes: readonly (readonly SceneBridge[])[]): Bridge[] {
  const joined: Bridge[] = [];
  const known = new Map<string, number[]>();
  for (const { elsewhere, ...bridge } of scenes.flat()) {
    const keys = placesNear(bridge.at);
    const old = keys.flatMap((key) => known.get(key) ?? []).find((k) => isSame(joined[k], bridge));
    if (old !== undefined) {
      // In what is elsewhere all sheets of the piece are narrow, though it does most harm in the front ones.
      const where = elsewhere ? joined[old].where : frontsTogether(joined[old].where, bridge.where);
      const worst = worse(joined[old], bridge);
      joined[old] = where === null ? worst : { ...worst, where };
      continue;
    }
    if (elsewhere) continue;
    const [own] = keys;
    known.set(own, [...(known.get(own) ?? []), joined.length]);
    joined.push(bridge);
  }
  return joined;
}

function worse(one: Bridge, other: Bridge): Bridge {
  const harm = EFFECTS.indexOf(other.effect) - EFFECTS.indexOf(one.effect) || other.needed - one.needed;
  return { ...(harm > 0 ? other : one), needed: Math.max(one.needed, other.needed) };
}

/** @param across unit vector of the chord; null: the worst that can be */
function caseOf(workshop: Workshop, heightSawn: number, sheet: Sheet, across: Point | null): BridgeCase {
  const { material, thickness } = sheet;
  const kerf = workshop.blade.thickness;
  const grain = sheet.grain ?? null;
  // A board is alike in all directions; a wood whose grain is not known gets the model's middle value.
  const grainAngle =
    grain === null || findMaterial(material)?.kind === 'board' ? null : angleTo(grain, across);
  return { material, thickness, heightSawn, kerf, grainAngle };
}

/** Angle between the grain and the way a bridge runs, square to its chord: 0 to 90 degrees. */
function angleTo(grain: number, across: Point | null): number {
  if (across === null) return 90;
  const runs = (Math.atan2(across[0], -across[1]) * 180) / Math.PI;
  const apart = Math.abs((((runs - grain) % 180) + 180) % 180);
  return Math.min(apart, 180 - apart);
}

/** A closed line around a scene, and the regions on both sides of each of its curves; OUTSIDE: the board. */
interface SceneLoop {
  readonly curves: readonly Curve[];
  /** Those of the scene. */
  readonly regions: readonly number[];
  /** Those that are not of the scene. */
  readonly beyond: readonly number[];
}

function sceneLoops(map: RegionMap, scene: WoodScene): SceneLoop[] {
  const own = new Set(scene.regions);
  const walked = (loop: Loop): SceneLoop => {
    const parts = loop.map((step) => {
      const { left, right } = map.edges[step.edge];
      const region = own.has(left) ? left : own.has(right) ? right : OUTSIDE;
      return { curves: loopCurves(map, [step]), region, other: region === left ? right : left };
    });
    return {
      curves: parts.flatMap(({ curves }) => curves),
      regions: parts.flatMap(({ curves, region }) => curves.map(() => region)),
      beyond: parts.flatMap(({ curves, other }) => curves.map(() => other)),
    };
  };
  if (!scene.board) return boundaryLoops(map, scene.regions).map(walked);
  const open = map.regions.flatMap((region, r) => (own.has(r) || region.addOn ? [] : [r]));
  const board = { curves: boardOutline(map), regions: [], beyond: [] };
  return [board, ...boundaryLoops(map, open).map(walked)];
}

function boardOutline({ page }: RegionMap): Curve[] {
  const [x0, y0] = [page.x - BOARD_ROOM, page.y - BOARD_ROOM];
  const [x1, y1] = [page.x + page.width + BOARD_ROOM, page.y + page.height + BOARD_ROOM];
  const corners: Point[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return corners.map((from, i) => ({ kind: 'line', from, to: corners[(i + 1) % 4] }));
}

/** The regions of the scene at the ends of a chord. */
function regionsAt(loops: readonly SceneLoop[], neck: Neck): number[] {
  const found = atEnds(neck, (loop, curve) => loops[loop].regions[curve] ?? OUTSIDE);
  return [...new Set(found.filter((r) => r !== OUTSIDE))].sort((a, b) => a - b);
}

function atEnds<T>({ fromPlace, toPlace }: Neck, at: (loop: number, curve: number) => T): T[] {
  return [fromPlace, toPlace].map(({ loop, curve }) => at(loop, curve));
}

function isSame(a: Bridge, b: Bridge): boolean {
  const straight = distance(a.from, b.from) + distance(a.to, b.to);
  const turned = distance(a.from, b.to) + distance(a.to, b.from);
  return Math.min(straight, turned) < 2 * SAME_PLACE;
}

/** The cell of a point and those around it, in a grid much wider than `SAME_PLACE`. */
function placesNear([x, y]: Point): string[] {
  const [i, j] = [Math.round(x), Math.round(y)];
  const beside = [-1, 1].flatMap((d) => [
    `${i + d} ${j}`,
    `${i} ${j + d}`,
    `${i + d} ${j + d}`,
    `${i + d} ${j - d}`,
  ]);
  return [`${i} ${j}`, ...beside];
}
