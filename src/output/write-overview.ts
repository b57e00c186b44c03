import { demandOptions, demandStage, demandTypes } from '../arguments.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { foldMarks } from './fold-marks.js';
import { regionLabels } from './overview-labels.js';
import { overviewLegend } from './overview-legend.js';
import { bridgeMarks, drillMarks, drillStarts, markBoxes } from './overview-marks.js';
import { borderLines, openingPattern, regionFills, veinLines } from './overview-regions.js';
import { overviewScene } from './overview-scene.js';
import { INK } from './palette.js';
import { element, svgDocument } from './svg-markup.js';
import { FONT_FAMILY } from './text-width.js';

/** Choices for the overview. */
export interface OverviewOptions {
  /** The heading of the legend. Default `Overview`. */
  readonly title?: string;
  /** Whether the legend and the scale bar are drawn. Default true. */
  readonly legend?: boolean;
  /** The stack was only assumed, to say what the numbers mean: heights and sheets are left out. Default false. */
  readonly assumedStack?: boolean;
}

export const DEFAULT_OVERVIEW_OPTIONS: Required<OverviewOptions> = {
  title: 'Overview',
  legend: true,
  assumedStack: false,
};

/** Room around the drawing, in units of the scene: callouts may stand in it. */
const MARGIN = 5;

/**
 * The whole drawing in one picture (SVG at true size, mm): each region with its number and id, depth as a
 * tint, and what the given stage knows beside: a map alone shows ids, a relief the numbers and heights, a plan
 * also the drilled starts and the narrow bridges.
 */
export function writeOverview(from: RegionMap | Relief | CutPlan, options: OverviewOptions = {}): string {
  demandStage(from, ['region map', 'relief', 'plan'], 'writeOverview');
  demandOptions(options, 'writeOverview', Object.keys(DEFAULT_OVERVIEW_OPTIONS));
  demandTypes(options, DEFAULT_OVERVIEW_OPTIONS, 'writeOverview');
  const { title, legend, assumedStack } = { ...DEFAULT_OVERVIEW_OPTIONS, ...options };
  const scene = overviewScene(from, assumedStack);
  const { drawing, unit } = scene;
  const margin = unit * MARGIN;
  const starts = drillStarts(scene);
  const below = drawing.y + drawing.height + margin;
  const key = legend ? overviewLegend(scene, title, below - unit, drawing) : null;
  const page = {
    x: (key?.left ?? drawing.x) - margin,
    y: drawing.y - margin,
    width: (key?.width ?? drawing.width) + 2 * margin,
    height: drawing.height + 2 * margin + (key?.height ?? 0),
  };
  const paper = element('rect', { ...page, fill: INK.paper });
  return svgDocument(page, title, `.type{font-family:${FONT_FAMILY}}`, [
    openingPattern(unit),
    paper,
    regionFills(scene),
    veinLines(scene),
    foldMarks(scene.map, 0.14 * unit, () => true),
    borderLines(scene),
    bridgeMarks(scene),
    drillMarks(scene, starts),
    regionLabels(scene, markBoxes(scene, starts)),
    key?.svg ?? '',
  ]);
}
