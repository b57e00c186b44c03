import { boundsOf, type Point } from '../geometry/point.js';
import { OUTSIDE, type Region, type RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { depthTint, INK } from './palette.js';
import type { PageBox } from './svg-markup.js';

/** What an overview is drawn from: as much as is known. */
export interface OverviewScene {
  readonly map: RegionMap;
  readonly relief: Relief | null;
  readonly plan: CutPlan | null;
  /** The box around all lines, mm; the page where there are none. */
  readonly drawing: PageBox;
  /** The measure for type and line widths, mm: the picture stays readable whatever its size. */
  readonly unit: number;
  /** Number of sheets in the stack; 0 where no stack is known. */
  readonly sheets: number;
  /** The stack was only assumed: nothing is said about heights. */
  readonly assumedStack: boolean;
}

/** A picture is about this many units across: type of one unit reads well when it is printed on one page. */
const UNITS_ACROSS = 120;

/** A unit is no smaller than this, mm: the picture of a small drawing is printed at true size too. */
const LEAST_UNIT = 0.8;

/** Collects what is known of a map, a relief or a plan. */
export function overviewScene(from: RegionMap | Relief | CutPlan, assumedStack: boolean): OverviewScene {
  const plan = 'relief' in from ? from : null;
  const relief = plan?.relief ?? ('map' in from ? (from as Relief) : null);
  const map = relief?.map ?? (from as RegionMap);
  const drawing = linesBox(map);
  return {
    map,
    relief,
    plan,
    drawing,
    unit: Math.max(LEAST_UNIT, Math.sqrt(drawing.width * drawing.height * 1.3) / UNITS_ACROSS),
    sheets: relief?.stack.sheets.length ?? 0,
    assumedStack,
  };
}

function linesBox(map: RegionMap): PageBox {
  const [x0, y0, x1, y1] = boundsOf(map.nodes.map((node) => node.at).concat(map.regions.flatMap(corners)));
  return x0 > x1 ? map.page : { x: x0, y: y0, width: Math.max(x1 - x0, 1), height: Math.max(y1 - y0, 1) };
}

const corners = ({ bounds }: Region): Point[] => [
  [bounds[0], bounds[1]],
  [bounds[2], bounds[3]],
];

/** The number of sheets that show as this region's tint; null: unnumbered; 0: an opening. */
export function shownDepth(scene: OverviewScene, region: number): number | null {
  const number = scene.relief?.regions[region];
  if (number === undefined || number.role === null) return null;
  if (number.role === 'opening' || number.role === 'void') return 0;
  return number.depth;
}

/** The fill of a region: a tint, or the hatch of openings. */
export function regionFill(scene: OverviewScene, region: number): string {
  const depth = shownDepth(scene, region);
  if (depth === null) return INK.unnumbered;
  return depth === 0 ? 'url(#opening)' : depthTint(depth, scene.sheets);
}

/** Height of what shows at a region, mm: 0 outside and in openings, null where unknown. */
export function shownHeight(scene: OverviewScene, region: number): number | null {
  if (region === OUTSIDE) return 0;
  return scene.relief?.regions[region].height ?? null;
}
