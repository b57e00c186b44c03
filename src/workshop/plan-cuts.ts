import { demandStage, refuseArgument } from '../arguments.js';
import type { Finding } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import { sawAddOns } from './add-on-job.js';
import { bladeAdvice } from './blade-advice.js';
import { withReleases } from './blade-releases.js';
import { withBoardWays } from './board-ways.js';
import { type BridgeMemo, bridgeSearch } from './bridge-memo.js';
import { joinBridges, type WoodScene } from './bridges.js';
import { cautionsFor } from './cautions.js';
import { completeWorkshop } from './complete-workshop.js';
import type { Bridge, CutPlan, Offcut, Pass, PlanPiece, Workshop } from './cut-plan.js';
import { finishedScenes } from './finished-scenes.js';
import { glueUp } from './glue-up.js';
import { holesThatShow } from './holes-that-show.js';
import { sawLevels } from './level-job.js';
import { lineShapes } from './line-shapes.js';
import { type NeededWidth, neededWidth } from './needed-width.js';
import { boardSize, pieceOffcuts } from './offcuts.js';
import { sawPieces } from './piece-job.js';
import { bodyPieces, levelPieces } from './plan-pieces.js';
import { timeRange } from './saw-time.js';
import { withSpareSheets } from './spare-sheets.js';
import { stepsFromOutside } from './step-order.js';
import { makeTools, type Tools } from './tools.js';
import { waysMissing } from './ways-missing.js';

/**
 * Plans the whole job at the saw for a relief: settings of the stack in order, with their sheets, the cuts of
 * each with their starts, and what comes out.
 *
 * Input is any relief; what is not numbered is left standing. Output: plain data; the same input gives the same
 * plan. Findings: a stack higher than the saw takes, waste too narrow to drill in or to come through, sheets that no piece needs.
 *
 * 1. which sheets each line must be sawn through (sheet-sets.ts)
 * 2. when the recesses are sawn: the schedule with the fewest sheet moves (recess-schedule.ts)
 * 3. each setting: groups of lines by reach, holes, order, lead-ins (saw-setting.ts)
 * 4. add-ons, bridges, pieces, offcuts, totals
 *
 * Cost: about n log n in the regions and lines; docs/plan.md tells the method, its limits and its figures.
 *
 * @param widthFor how wide a bridge must be, mm; by default `neededWidth` with the workshop's numbers
 * @throws PlystepError 'bad-option' for a workshop that makes no sense, 'limit' above 30 sheets.
 */
export function planCuts(
  relief: Relief,
  given: Partial<Workshop> = {},
  widthFor: NeededWidth | null = null,
): CutPlan {
  return planAgain(relief, given, widthFor).plan;
}

/** A plan, and what may be reused after a change. */
export interface PlannedAgain {
  readonly plan: CutPlan;
  readonly memo: BridgeMemo;
  /** Pieces, sheets and blocks in which bridges were looked for now, and that were taken from before. */
  readonly fresh: number;
  readonly reused: number;
}

/**
 * `planCuts` for interactive use: the bridges of pieces, and of standing stock, that did not change since `before` are
 * taken over. The plan is the same as that of `planCuts`.
 *
 * @throws PlystepError 'bad-option', 'limit'
 */
export function planAgain(
  relief: Relief,
  given: Partial<Workshop> = {},
  widthFor: NeededWidth | null = null,
  before: BridgeMemo | null = null,
): PlannedAgain {
  demandStage(relief, ['relief'], 'planCuts');
  if (widthFor !== null && typeof widthFor !== 'function') {
    refuseArgument('planCuts', 'widthFor must be a function or null');
  }
  const workshop = completeWorkshop(given);
  const model: NeededWidth =
    widthFor === null ? (bridge) => neededWidth(bridge, given.bridges) : widthsOf(widthFor);
  const search = bridgeSearch(relief, workshop, widthFor, model, before);
  const scenes = finishedScenes(relief);
  const finished = scenes.flatMap(({ whole, fronts }) => [whole, ...fronts]).map(search.find);
  const plan = planWith(relief, workshop, joinBridges(finished), (standing) =>
    joinBridges([...finished, ...standing.map(search.find)]),
  );
  return { plan, memo: search.memo, ...search.counts };
}

function planWith(
  relief: Relief,
  workshop: Workshop,
  finished: readonly Bridge[],
  allBridges: (standing: readonly WoodScene[]) => Bridge[],
): CutPlan {
  const avoid: Point[] = finished.flatMap(({ from, to }) => [from, to]);
  const tools = makeTools(workshop, relief.stack, stepsFromOutside(relief.map), avoid);
  const job = relief.joint === 'pieces' ? planPieces(relief, tools) : planLevels(relief, tools);
  const bridges = allBridges(job.standing);
  const shapes = lineShapes(relief.map);
  const addOns = sawAddOns(relief, shapes, tools);
  const sawn = withBoardWays(relief, [...job.passes, ...addOns.passes], shapes, workshop);
  const passes = withReleases(sawn, workshop);
  return {
    relief,
    workshop,
    passes,
    bridges,
    pieces: job.pieces,
    offcuts: job.offcuts,
    board: boardSize(relief),
    glueUp: relief.joint === 'pieces' ? glueUp(relief) : null,
    advice: bladeAdvice(passes, shapes, workshop, relief.stack),
    totals: totalsOf(workshop, passes, job.pieces.length),
    cautions: cautionsFor(relief, passes),
    findings: [
      ...job.findings,
      ...addOns.findings,
      ...holesThatShow(passes, [...job.findings, ...addOns.findings]),
      ...heightFindings(workshop, passes),
      ...unused(relief, passes),
      ...waysMissing(relief, passes),
    ],
  };
}

interface PlannedJob {
  readonly passes: readonly Pass[];
  readonly pieces: readonly PlanPiece[];
  readonly offcuts: readonly Offcut[];
  readonly findings: readonly Finding[];
  /** Stock that is left standing while the job is under way. */
  readonly standing: readonly WoodScene[];
}

function planPieces(relief: Relief, tools: Tools): PlannedJob {
  const { passes, findings, stock, demand, standing } = sawPieces(relief, tools);
  return {
    standing,
    passes,
    findings,
    pieces: withSpareSheets(relief, bodyPieces(relief), passes),
    offcuts: pieceOffcuts(relief, stock, demand, passes),
  };
}

function planLevels(relief: Relief, tools: Tools): PlannedJob {
  const { passes, findings, parts, offcuts } = sawLevels(relief, tools);
  const pieces = levelPieces(relief, parts);
  const named = offcuts.map((offcut) => ({
    ...offcut,
    pieces: pieces.filter((piece) => piece.sheets[0] === offcut.sheet).map((piece) => piece.id),
  }));
  return { passes, findings, pieces, offcuts: named, standing: [] };
}

function totalsOf(workshop: Workshop, passes: readonly Pass[], pieces: number): CutPlan['totals'] {
  const steps = passes.flatMap((pass) => pass.steps);
  const sum = <T>(list: readonly T[], value: (item: T) => number): number =>
    list.reduce((total, item) => total + value(item), 0);
  const minutes = workshop.setupMinutes + sum(passes, (pass) => pass.minutes);
  return {
    pieces,
    cutLength: sum(steps, (step) => step.length),
    wayLength: sum(steps, ({ waysIn = [] }) => sum(waysIn, (way) => way.length)),
    drillStarts: steps.filter((step) => step.start.kind === 'drill').length,
    threadings: steps.filter((step) => step.start.threaded).length,
    releases: steps.filter((step) => step.start.released).length,
    sheetMoves: sum(passes, (pass) => pass.moves.length),
    minutes,
    minutesRange: timeRange(workshop, minutes),
  };
}

function heightFindings(workshop: Workshop, passes: readonly Pass[]): Finding[] {
  const highest = Math.max(0, ...passes.map((pass) => pass.height));
  if (highest <= workshop.maxHeight) return [];
  const pass = passes.find((p) => p.height === highest)!;
  return [
    {
      rule: 'stack-too-high',
      level: 'error',
      message:
        `${pass.sheets.length} sheets together are ${highest.toFixed(1)} mm high; ` +
        `the saw takes ${workshop.maxHeight.toFixed(1)} mm.`,
      at: null,
      regions: [],
      fix: 'Take thinner or fewer sheets, or build the relief with continuous sheets, which are sawn one by one.',
      measured: { value: highest, needed: workshop.maxHeight, unit: 'mm' },
    },
  ];
}

function unused(relief: Relief, passes: readonly Pass[]): Finding[] {
  const used = new Set(passes.flatMap((pass) => pass.sheets));
  const idle = relief.stack.sheets.filter((sheet) => !used.has(sheet.id)).map((sheet) => sheet.id);
  if (idle.length === 0 || passes.length === 0) return [];
  return [
    {
      rule: 'unused-sheet',
      level: 'note',
      message: `No piece needs ${idle.length === 1 ? 'sheet' : 'sheets'} ${idle.join(', ')}.`,
      at: null,
      regions: [],
      fix: 'Leave it out of the stack: the lower it is, the easier it saws.',
    },
  ];
}

/** The caller's own widths, if they are some. */
function widthsOf(widthFor: NeededWidth): NeededWidth {
  return (bridge) => {
    const width: unknown = widthFor(bridge);
    if (typeof width !== 'number' || !(width >= 0 && width < Number.POSITIVE_INFINITY))
      return refuseArgument('planCuts', `widthFor must give a width in mm, from 0; it gave ${String(width)}`);
    return width;
  };
}
