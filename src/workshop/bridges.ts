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
  /** What to call it in `Bridge.where`. */
  readonly where: string;
}

/** Room around the drawing on a board that is larger, mm: the narrow places at its own edge are not ours. */
const BOARD_ROOM = 50;

/** Two chords whose ends lie nearer than this are one bridge, mm. */
const SAME_PLACE = 0.05;

/**
 * Bridges that are narrower than the material and the height ask for: in the scenes in their order, each place
 * once, named by the first scene that has it. Per scene from top to bottom.
 *
 * What is needed is the most that one of the sheets needs (needed-width.ts), for the way the bridge lies to its
 * grain; `widthFor` says it for one sheet. Cost: n log n in the boundaries of each scene.
 */
export function findBridges(
  relief: Relief,
  workshop: Workshop,
  scenes: readonly WoodScene[],
  widthFor: NeededWidth,
  before: readonly Bridge[] = [],
): Bridge[] {
  const bridges: Bridge[] = [];
  const known = new Map<string, Bridge[]>();
  const remember = (bridge: Bridge): void => {
    const [key] = placesNear(bridge.at);
    const list = known.get(key);
    if (list === undefined) known.set(key, [bridge]);
    else list.push(bridge);
  };
  before.forEach(remember);
  for (const scene of scenes) {
    for (const bridge of bridgesIn(relief, workshop, scene, widthFor)) {
      if (placesNear(bridge.at).some((key) => known.get(key)?.some((old) => isSame(old, bridge)))) continue;
      remember(bridge);
      bridges.push(bridge);
    }
  }
  return bridges;
}

function bridgesIn(relief: Relief, workshop: Workshop, scene: WoodScene, widthFor: NeededWidth): Bridge[] {
  const { map } = relief;
  const sheets = [...new Set(scene.sheets)].map((id) => sheetOf(relief.stack, id));
  const need = (across: Point | null): number =>
    Math.max(...sheets.map((sheet) => widthFor(caseOf(workshop, scene, sheet, across))));
  const most = need(null);
  const loops = sceneLoops(map, scene);
  const boundary = areaBoundary(loops.map((loop) => loop.curves));
  return narrowPlaces(boundary, most).flatMap((neck): Bridge[] => {
    const needed = need(neck.across);
    if (neck.width >= needed) return [];
    const { at, from, to, width } = neck;
    const regions = regionsAt(loops, neck);
    return [{ at, from, to, width, needed, where: scene.where, regions, effect: neck.effect }];
  });
}

/** @param across unit vector of the chord; null: the worst that can be */
function caseOf(workshop: Workshop, scene: WoodScene, sheet: Sheet, across: Point | null): BridgeCase {
  const { material, thickness } = sheet;
  const { heightSawn } = scene;
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

/** A closed line around a scene, and the region of the scene beside each of its curves; OUTSIDE: the board. */
interface SceneLoop {
  readonly curves: readonly Curve[];
  readonly regions: readonly number[];
}

function sceneLoops(map: RegionMap, scene: WoodScene): SceneLoop[] {
  const own = new Set(scene.regions);
  const walked = (loop: Loop): SceneLoop => {
    const parts = loop.map((step) => {
      const { left, right } = map.edges[step.edge];
      const region = own.has(left) ? left : own.has(right) ? right : OUTSIDE;
      return { curves: loopCurves(map, [step]), region };
    });
    return {
      curves: parts.flatMap(({ curves }) => curves),
      regions: parts.flatMap(({ curves, region }) => curves.map(() => region)),
    };
  };
  if (!scene.board) return boundaryLoops(map, scene.regions).map(walked);
  const open = map.regions.flatMap((region, r) => (own.has(r) || region.addOn ? [] : [r]));
  const board = { curves: boardOutline(map), regions: [] };
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
  const found = [neck.fromPlace, neck.toPlace].map(
    ({ loop, curve }) => loops[loop].regions[curve] ?? OUTSIDE,
  );
  return [...new Set(found.filter((r) => r !== OUTSIDE))].sort((a, b) => a - b);
}

function isSame(a: Bridge, b: Bridge): boolean {
  const straight = distance(a.from, b.from) + distance(a.to, b.to);
  const turned = distance(a.from, b.to) + distance(a.to, b.from);
  return Math.min(straight, turned) < 2 * SAME_PLACE;
}

/** The cell of a point and those around it, in a grid much wider than `SAME_PLACE`. */
function placesNear([x, y]: Point): string[] {
  const [i, j] = [Math.round(x), Math.round(y)];
  const near = [-1, 0, 1].flatMap((di) => [-1, 0, 1].map((dj) => `${i + di} ${j + dj}`));
  return [`${i} ${j}`, ...near];
}
