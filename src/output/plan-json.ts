import { demandFindings, demandStage } from '../arguments.js';
import type { Finding } from '../finding.js';
import { pathData } from '../geometry/path-data.js';
import type { Point } from '../geometry/point.js';
import { boundaryLoops } from '../plane/boundary-loops.js';
import { loopCurves } from '../plane/edge-curves.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Frame, Joint, Role } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import type {
  Advice,
  BoardLump,
  Bridge,
  CutPlan,
  CutStart,
  CutStep,
  FallenWaste,
  GlueUp,
  LooseWaste,
  Offcut,
  Pass,
  PlanPiece,
  Workshop,
} from '../workshop/cut-plan.js';
import { type LineShapes, lineShapes } from '../workshop/line-shapes.js';
import { timeRange } from '../workshop/saw-time.js';
import { stepCurves } from '../workshop/step-curves.js';
import { regionPath } from './map-paths.js';
import { visibleTexts } from './visible-text.js';
import { wastePath } from './waste-path.js';

/** A start with the region named by its id. */
export type StartEntry = Omit<CutStart, 'region'> & { readonly region?: string };

/** One step: regions by id, the way of the blade as path data in mm. */
export interface StepEntry
  extends Omit<
    CutStep,
    | 'regions'
    | 'edges'
    | 'forward'
    | 'joint'
    | 'leadIn'
    | 'start'
    | 'fallsOut'
    | 'comesLoose'
    | 'wasteOff'
    | 'boardApart'
  > {
  readonly regions: readonly string[];
  /** Ids of the regions of each block that comes loose. */
  readonly comesLoose?: readonly (readonly string[])[];
  readonly wasteOff?: readonly WasteEntry[];
  readonly boardApart?: readonly LumpEntry[];
  readonly fallsOut?: readonly { readonly regions: readonly string[]; readonly sheets: readonly string[] }[];
  /** Ids of the pieces and add-ons that come free whole. */
  readonly pieces: readonly string[];
  /** In the order and direction of the blade, true curves. */
  readonly path: string;
  /** How much of the path's beginning only leads in, mm. */
  readonly leadIn: number;
  readonly start: StartEntry;
  /** Least and most minutes. */
  readonly minutesRange: readonly [least: number, most: number];
}

/** Waste of the board that comes off: its border as path data, for the even-odd rule. */
export interface WasteEntry extends Omit<LooseWaste, 'loops'> {
  readonly path: string;
}

/** Board with picture in it that is apart from the rest: ids of the regions. */
export interface LumpEntry extends Omit<BoardLump, 'regions'> {
  readonly regions: readonly string[];
}

export interface PassEntry extends Omit<Pass, 'steps' | 'blocks' | 'loose' | 'boardApart'> {
  readonly boardApart?: readonly LumpEntry[];
  readonly loose: readonly string[];
  /** Ids of the pieces that are loose. */
  readonly loosePieces: readonly string[];
  readonly blocks: readonly {
    readonly regions: readonly string[];
    readonly board: boolean;
    readonly area: number;
  }[];
  readonly steps: readonly StepEntry[];
  /** Least and most minutes. */
  readonly minutesRange: readonly [least: number, most: number];
}

/** A region as far as a plan speaks of it. */
export interface PlanRegion {
  readonly id: string;
  readonly role: Role | null;
  readonly depth: number | null;
  readonly name: string | null;
  readonly area: number;
  readonly labelPoint: Point;
  readonly path: string;
}

/** What `plystep plan --format json` prints: the whole job, regions by id, lengths in mm, areas in mm². */
export interface PlanReport {
  readonly schemaVersion: '1.0';
  readonly unit: 'mm';
  readonly joint: Joint;
  readonly frame: Frame;
  readonly page: RegionMap['page'];
  readonly digest: string;
  /** Front to back. */
  readonly stack: readonly Sheet[];
  readonly workshop: Workshop;
  readonly passes: readonly PassEntry[];
  readonly bridges: readonly (Omit<Bridge, 'regions'> & { readonly regions: readonly string[] })[];
  readonly pieces: readonly (Omit<PlanPiece, 'region' | 'regions'> & {
    readonly region: string;
    readonly regions: readonly string[];
  })[];
  readonly addOns: readonly {
    readonly id: string;
    readonly region: string;
    readonly sheets: readonly string[];
    readonly thickness: number;
    readonly seats: readonly string[];
    /** Its outline is lines of the drawing; false: a shape of its own that lies over other regions. */
    readonly shared: boolean;
  }[];
  readonly offcuts: readonly (Omit<Offcut, 'regions'> & {
    readonly regions: readonly string[];
    /** Outline of what is left within the drawing, for the even-odd rule. */
    readonly path: string;
  })[];
  readonly board: CutPlan['board'];
  readonly glueUp:
    | (Omit<GlueUp, 'addOns'> & {
        readonly addOns: readonly { readonly piece: string; readonly seats: readonly string[] }[];
      })
    | null;
  readonly advice: readonly Advice[];
  readonly totals: CutPlan['totals'];
  readonly cautions: readonly string[];
  readonly regions: readonly PlanRegion[];
  readonly findings: readonly Finding[];
}

/** @param findings what to list instead of the findings of the plan itself, for example those of all checks */
export function planReport(plan: CutPlan, findings: readonly Finding[] = plan?.findings): PlanReport {
  demandStage(plan, ['plan'], 'planReport');
  demandFindings(findings, 'planReport');
  const { relief, workshop, glueUp } = plan;
  const { map } = relief;
  const id = (region: number): string => map.regions[region].id;
  const ids = (regions: readonly number[]): string[] => regions.map(id);
  const shapes = lineShapes(map);
  const pieceOf = pieceNames(plan);
  return visibleTexts({
    schemaVersion: '1.0',
    unit: 'mm',
    joint: relief.joint,
    frame: relief.frame,
    page: map.page,
    digest: map.digest,
    stack: relief.stack.sheets,
    workshop,
    passes: plan.passes.map(({ boardApart, ...pass }) => ({
      ...pass,
      loose: ids(pass.loose),
      loosePieces: pieceOf(pass, { frees: 'piece', regions: pass.loose, sheets: pass.sheets }),
      blocks: pass.blocks.map((block) => ({ ...block, regions: ids(block.regions) })),
      ...lumpEntries(map, boardApart),
      steps: pass.steps.map((step) => stepEntry(plan, shapes, pass, step, pieceOf)),
      minutesRange: timeRange(workshop, pass.minutes),
    })),
    bridges: plan.bridges.map((bridge) => ({ ...bridge, regions: ids(bridge.regions) })),
    pieces: plan.pieces.map((piece) => ({
      ...piece,
      region: id(piece.region),
      regions: ids(piece.regions),
    })),
    addOns: relief.addOns.map(({ id: name, region, order, thickness, seats, shared }) => ({
      id: name,
      region: id(region),
      sheets: order,
      thickness,
      seats: ids(seats),
      shared,
    })),
    offcuts: plan.offcuts.map((offcut) => ({
      ...offcut,
      regions: ids(offcut.regions),
      path: pathData(boundaryLoops(map, offcut.regions).map((loop) => loopCurves(map, loop))),
    })),
    board: plan.board,
    glueUp:
      glueUp === null
        ? null
        : { ...glueUp, addOns: glueUp.addOns.map(({ piece, seats }) => ({ piece, seats: ids(seats) })) },
    advice: plan.advice,
    totals: plan.totals,
    cautions: plan.cautions,
    regions: relief.regions.map(({ role, depth, name }, r) => ({
      id: id(r),
      role,
      depth,
      name,
      area: map.regions[r].area,
      labelPoint: map.regions[r].labelPoint,
      path: regionPath(map, map.regions[r]),
    })),
    findings,
  });
}

function stepEntry(
  { relief: { map }, workshop }: CutPlan,
  shapes: LineShapes,
  pass: Pass,
  step: CutStep,
  pieceOf: PieceNames,
): StepEntry {
  const { kind, frees, sheets, length, corners, minutes } = step;
  const { region, ...start } = step.start;
  const fallen = ({ regions, sheets: out }: FallenWaste) => ({
    regions: regions.map((r) => map.regions[r].id),
    sheets: out,
  });
  return {
    kind,
    frees,
    regions: step.regions.map((r) => map.regions[r].id),
    ...(step.comesLoose === undefined
      ? {}
      : { comesLoose: step.comesLoose.map((lump) => lump.map((r) => map.regions[r].id)) }),
    ...(step.captive === undefined ? {} : { captive: true }),
    ...(step.fallsOut === undefined ? {} : { fallsOut: step.fallsOut.map(fallen) }),
    pieces: pieceOf(pass, step),
    sheets,
    path: pathData(stepCurves(map, step, shapes)),
    leadIn: step.edges.slice(0, step.leadIn).reduce((sum, e) => sum + map.edges[e].length, 0),
    start: region === undefined ? start : { ...start, region: map.regions[region].id },
    ...(step.waysIn === undefined ? {} : { waysIn: step.waysIn }),
    ...(step.wasteOff === undefined ? {} : { wasteOff: step.wasteOff.map(wasteEntry) }),
    ...lumpEntries(map, step.boardApart),
    ...(step.heldBy === undefined ? {} : { heldBy: step.heldBy }),
    length,
    corners,
    minutes,
    minutesRange: timeRange(workshop, minutes),
  };
}

function lumpEntries(
  map: RegionMap,
  boardApart: Pass['boardApart'] | undefined,
): { boardApart?: LumpEntry[] } {
  if (boardApart === undefined) return {};
  return {
    boardApart: boardApart.map(({ place, regions }) => ({
      place,
      regions: regions.map((r) => map.regions[r].id),
    })),
  };
}

function wasteEntry({ sheets, place, area, loops }: LooseWaste): WasteEntry {
  return { sheets, place, area, path: wastePath(loops, WASTE_DIGITS) };
}

/** Its border is chords of the lines, which lie as far off as a hundredth. */
const WASTE_DIGITS = 3;

type PieceNames = (pass: Pass, step: Pick<CutStep, 'frees' | 'regions' | 'sheets'>) => string[];

/** The ids of the pieces that come free with a step. */
export function pieceNames(plan: CutPlan): PieceNames {
  const { relief } = plan;
  const byRegion = new Map<string, string>();
  for (const { id, region, sheets } of plan.pieces) {
    byRegion.set(relief.joint === 'pieces' ? `${region}` : `${sheets[0]} ${region}`, id);
  }
  const addOns = new Map(relief.addOns.map(({ region, id }) => [region, id]));
  return (pass, step) => {
    if (step.frees !== 'piece') return [];
    const names = step.regions.map((r) => {
      if (pass.phase === 'add-ons') return addOns.get(r);
      return byRegion.get(relief.joint === 'pieces' ? `${r}` : `${step.sheets[0]} ${r}`);
    });
    return names.filter((name) => name !== undefined);
  };
}
