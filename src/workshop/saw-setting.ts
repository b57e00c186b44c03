import type { Finding } from '../finding.js';
import { distance, type Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import {
  type Access,
  accessOf,
  EDGE,
  type Place,
  placesBeside,
  type Reaches,
  reachesOf,
  regionsInHole,
} from './access.js';
import { blockShapes } from './block-shape.js';
import type { Block, CutStart, CutStep, Workshop } from './cut-plan.js';
import { threadingHole } from './default-workshop.js';
import type { DrillRules } from './drill-in-waste.js';
import { findDrillSite, isSingleRun } from './drill-start.js';
import { type FreedBy, freedBy, looseAlready, watchTargets } from './freed-regions.js';
import { leadIn } from './lead-in.js';
import { someLineAt } from './line-graph.js';
import { type LumpWatch, watchLumps } from './loose-lumps.js';
import { emptyReach, type Reach } from './reach.js';
import { sawMinutes } from './saw-time.js';
import { holdsAll, type SheetSet, sheetPlaces } from './sheet-sets.js';
import { isOpen, isParted, type StandingStock } from './standing-stock.js';
import { orderGroups, orderTargets } from './step-order.js';
import type { Target } from './targets.js';
import { countCorners, type LineWalk, walkCurves, walkLines } from './walk-lines.js';

/** One setting of the saw. */
export interface Setting {
  readonly stock: StandingStock;
  readonly held: SheetSet;
  /** Ids of the sheets held, front to back. */
  readonly sheets: readonly string[];
  /** mm */
  readonly height: number;
  readonly workshop: Workshop;
  readonly rules: DrillRules;
  /** By region: how many lines lie between it and the outside. */
  readonly depths: Int32Array;
}

/** What a setting saws. */
export interface SawnSetting {
  readonly steps: readonly CutStep[];
  /** Regions of pieces that were loose from the start. */
  readonly loose: readonly number[];
  readonly findings: readonly Finding[];
}

/**
 * Saws the targets of one setting, and leaves the stock as it is afterwards.
 *
 * 1. One block after the other: each lies on the saw table by itself (block-shape.ts).
 * 2. Its lines are grouped by reach (access.ts): one hole or threading a group at most, which is the least.
 * 3. Groups that lie inside others come first, and what the edge reaches, and so holds them, comes last. Each is
 *    sawn in one go, so no group is threaded twice.
 * 4. In a group, cutouts and what lies further inside come first (step-order.ts). Where such a step can't be
 *    reached yet, the blade goes in along lines that are sawn anyway, the shortest way (lead-in.ts).
 * 5. After each step, whatever has nothing left to hold it comes free with it, named or not.
 *
 * @param watched what may come free although no step here saws it
 * @param blocks what stands on the table
 */
export function sawSetting(
  setting: Setting,
  targets: readonly Target[],
  watched: readonly Target[],
  blocks: readonly Block[],
): SawnSetting {
  const { stock, held } = setting;
  const waste = new Uint8Array(stock.map.regions.length);
  const now = new Uint8Array(stock.map.edges.length);
  for (const target of targets) {
    if (target.kind === 'cutout') for (const r of target.regions) waste[r] = 1;
    for (const e of target.lines) if (isWanted(setting, e)) now[e] = 1;
  }
  const hole = threadingHole(setting.workshop);
  const watch = watchTargets([...targets, ...watched]);
  const steps: CutStep[] = [];
  const findings: Finding[] = [];
  const loose = targets.flatMap((target) => {
    const idle = target.frees === 'piece' && !target.lines.some((e) => isWanted(setting, e));
    return idle ? looseAlready(stock, held, target) : [];
  });
  const lumps = watchLumps(stock, held);
  const veins = veinsInPieces(setting, targets);
  const byBlock = targetsByBlock(setting, targets, blocks);
  blockShapes(stock, blocks).forEach((block, b) => {
    if (byBlock[b].length === 0) return;
    const access = accessOf(stock, held, block, waste, now);
    const reaches = reachesOf(access, (r) => 2 * stock.map.regions[r].labelRoom >= hole);
    const run = { setting, access, reaches, reach: emptyReach(access), watch, veins, lumps, steps, findings };
    const groups = groupTargets(setting, reaches, byBlock[b]);
    const { clampSide } = setting.workshop;
    const inner = orderGroups(stock.map, groups.inner, lastPlace(run), clampSide);
    for (const group of [...inner, groups.atEdge]) {
      sawGroup(run, orderTargets(stock.map, setting.depths, group, clampSide));
    }
  });
  const apart = lumps.lumps();
  const told = steps.map((step, i) => (apart[i].length === 0 ? step : { ...step, comesLoose: apart[i] }));
  return { steps: told, loose, findings };
}

/** What the work on one block passes around. */
interface SettingRun {
  readonly setting: Setting;
  readonly access: Access;
  readonly reaches: Reaches;
  readonly reach: Reach;
  readonly watch: ReturnType<typeof watchTargets>;
  readonly veins: ReadonlyMap<Target, readonly Target[]>;
  readonly lumps: LumpWatch;
  readonly steps: CutStep[];
  readonly findings: Finding[];
}

/** The line is still to be sawn through one of the sheets held. */
function isWanted({ stock, held }: Setting, edge: number): boolean {
  return (stock.needed[edge] & ~stock.sawn[edge] & held) !== 0;
}

/** The targets that are still to be sawn, by the block that they are sawn from. */
function targetsByBlock(setting: Setting, targets: readonly Target[], blocks: readonly Block[]): Target[][] {
  const { map } = setting.stock;
  const blockOf = new Int32Array(map.regions.length).fill(-1);
  blocks.forEach(({ regions }, b) => {
    for (const r of regions) blockOf[r] = b;
  });
  const lists: Target[][] = blocks.map(() => []);
  for (const target of targets) {
    const line = target.lines.find((e) => isWanted(setting, e));
    if (line === undefined) continue;
    const { left, right } = map.edges[line];
    const region = [...target.regions, left, right].find((r) => r !== OUTSIDE && blockOf[r] >= 0);
    if (region !== undefined) lists[blockOf[region]].push(target);
  }
  return lists;
}

/** Targets that the blade gets to one from the other, and those that it gets to from the edge. */
function groupTargets(
  setting: Setting,
  reaches: Reaches,
  targets: readonly Target[],
): { readonly inner: Target[][]; readonly atEdge: Target[] } {
  const groups = new Map<number, Target[]>();
  for (const target of targets) {
    const group = reaches.groupOf(target.lines.find((e) => isWanted(setting, e))!);
    const list = groups.get(group);
    if (list === undefined) groups.set(group, [target]);
    else list.push(target);
  }
  const atEdge = groups.get(reaches.edgeGroup) ?? [];
  groups.delete(reaches.edgeGroup);
  return { inner: [...groups.values()], atEdge };
}

function sawGroup(run: SettingRun, targets: readonly Target[]): void {
  let begun = false;
  const saw = (target: Target): void => {
    const lines = target.lines.filter((e) => isWanted(run.setting, e));
    if (lines.length === 0) return;
    for (const vein of veinsBefore(run, target, lines)) saw(vein);
    const left = lines.filter((e) => isWanted(run.setting, e));
    if (left.length === 0) return;
    sawTarget(run, target, left, begun ? null : enterGroup(run, target, left));
    begun = true;
  };
  for (const target of targets) saw(target);
}

/** The veins of each piece, by the target of the piece. */
function veinsInPieces({ stock }: Setting, targets: readonly Target[]): Map<Target, Target[]> {
  const pieceAt = new Map<number, Target>();
  for (const target of targets) {
    if (target.frees === 'piece') for (const r of target.regions) pieceAt.set(r, target);
  }
  const veins = new Map<Target, Target[]>();
  for (const target of targets) {
    const piece = target.kind === 'vein' ? pieceAt.get(stock.map.edges[target.lines[0]].left) : undefined;
    if (piece !== undefined) veins.set(piece, [...(veins.get(piece) ?? []), target]);
  }
  return veins;
}

/** Veins to be sawn before a target, since it frees the pieces that they are in. */
function veinsBefore(run: SettingRun, target: Target, lines: readonly number[]): readonly Target[] {
  const { setting, access, reach, veins } = run;
  if (veins.size === 0 || target.kind === 'vein') return [];
  const { stock, held } = setting;
  const nodes = lines.flatMap((e) => [stock.map.edges[e].from, stock.map.edges[e].to]);
  const way = nodes.some((node) => reach.isReached(node)) ? [] : (leadIn(access, reach, nodes) ?? []);
  const sawn = new Set([...lines, ...way.map((step) => step.edge)]);
  const freed = new Set([...sawn].flatMap((e) => run.watch.get(e) ?? []));
  return [...freed].flatMap((piece) => {
    const own = veins.get(piece);
    if (own === undefined || !piece.border.every((e) => sawn.has(e) || isParted(stock, e, held))) return [];
    return own.filter((vein) => vein.lines.some((e) => isWanted(setting, e)));
  });
}

/** How the blade comes into a group: what the first step of the group says of its start. */
interface Entry {
  readonly start: Omit<CutStart, 'at'> & { readonly at: Point | null };
  /** The node to walk from, the step to set out with, and the joint of its line; null for any that is reached. */
  readonly from: {
    readonly node: number;
    readonly first: LineWalk[number] | null;
    readonly joint: number;
  } | null;
}

function enterGroup(run: SettingRun, target: Target, lines: readonly number[]): Entry {
  const { reaches, reach, setting } = run;
  const { map } = setting.stock;
  const group = reaches.groupOf(lines[0]);
  if (group === reaches.edgeGroup) {
    reach.enterPlace(EDGE);
    return { start: { kind: 'edge', at: null, diameter: null, threaded: false }, from: null };
  }
  const open = reaches.openPlaces.get(group);
  if (open !== undefined) {
    const hole = bestHole(run, open, target, lines);
    reach.enterPlace(hole);
    const at = map.regions[widestIn(run, hole)].labelPoint;
    return { start: { kind: 'open', at, diameter: null, threaded: true }, from: null };
  }
  const found = findDrillSite(setting, target, lines, reaches.waste.get(group) ?? []);
  run.findings.push(...found.findings);
  const { site } = found;
  const drilled = { kind: 'drill', diameter: site.bit.diameter, bit: site.bit.name, threaded: true } as const;
  if (site.where === 'waste') reach.enterPlace(site.region);
  const place =
    site.where === 'waste'
      ? { where: site.where, clearance: site.clearance, region: site.region }
      : { where: site.where };
  const { begin } = site;
  const node = begin === null ? map.edges[lines[0]].from : nodeOf(run, begin);
  if (site.where === 'line') reach.enterNode(node);
  const own = begin !== null && lines.includes(begin.edge);
  const first = own ? { edge: begin.edge, forward: begin.forward } : null;
  const joint = own && isSingleRun(map, lines) ? begin.joint : 0;
  return { start: { ...drilled, ...place, at: site.at }, from: { node, first, joint } };
}

function nodeOf({ setting }: SettingRun, begin: { edge: number; forward: boolean }): number {
  const { from, to } = setting.stock.map.edges[begin.edge];
  return begin.forward ? from : to;
}

/** The widest hole beside the lines, else the nearest one. */
function bestHole(
  { access }: SettingRun,
  holes: readonly Place[],
  target: Target,
  lines: readonly number[],
): Place {
  const { regions } = access.stock.map;
  const widest = (hole: Place) => regions[widestIn({ access }, hole)];
  const touching = holes.filter((hole) => access.block.air[-1 - hole].some((e) => lines.includes(e)));
  if (touching.length > 0) {
    return touching.reduce((a, b) => (widest(b).labelRoom > widest(a).labelRoom ? b : a));
  }
  const far = (hole: Place): number => distance(widest(hole).labelPoint, target.at);
  return holes.reduce((a, b) => (far(b) < far(a) ? b : a));
}

/** The widest region beside the line of a hole. */
function widestIn({ access }: Pick<SettingRun, 'access'>, hole: Place): number {
  const { regions } = access.stock.map;
  return regionsInHole(access, hole).reduce((a, b) => (regions[b].labelRoom > regions[a].labelRoom ? b : a));
}

function sawTarget(run: SettingRun, target: Target, lines: readonly number[], entry: Entry | null): void {
  const { setting, access, reach, reaches } = run;
  const { stock } = setting;
  const nodes = lines.flatMap((e) => [stock.map.edges[e].from, stock.map.edges[e].to]);
  const reached = nodes.filter((node) => reach.isReached(node));
  const way = reached.length === 0 ? (leadIn(access, reach, nodes) ?? []) : [];
  for (const { edge } of way) sawLine(run, edge);
  const rest = lines.filter((e) => isWanted(setting, e));
  const from = startNode(run, rest, entry, way);
  const by = comesBy(run, way.length > 0 ? startOf(stock, way[0]) : from);
  const first = entry?.from?.node === from ? entry.from.first : null;
  const walk = walkLines(stock, rest, from, reach.isReached, first);
  for (const { edge } of walk) sawLine(run, edge);
  const whole = [...way, ...walk];
  const joint = way.length === 0 && first !== null ? (entry?.from?.joint ?? 0) : 0;
  const runs = walkCurves(stock, whole, joint);
  const begin = walkCurves(stock, walk, joint)[0][0].from;
  const inEdgeGroup = reaches.groupOf(lines[0]) === reaches.edgeGroup;
  const atEdge = inEdgeGroup && (by === 'board' || by === 'gap');
  const later = way.length > 0 ? 'line' : atEdge ? 'edge' : 'open';
  const given = entry?.start ?? { kind: later, at: null, diameter: null, threaded: false };
  const kind = given.kind === 'edge' ? later : given.kind;
  const at = given.at ?? runs[0][0].from;
  const start = { ...given, kind, at, begin, ...(kind === 'drill' ? {} : { by }) } as CutStart;
  const freed = freedBy(stock, setting.held, run.watch, target, whole);
  for (const r of freed.opened) reach.opened(r);
  run.lumps.stepDone(
    whole.map((step) => step.edge),
    freed.opened,
  );
  const length = whole.reduce((sum, { edge }) => sum + stock.map.edges[edge].length, 0);
  const corners = countCorners(runs);
  const { threaded } = start;
  const work = { length, height: setting.height, corners, threaded, drilled: kind === 'drill' };
  run.steps.push({
    kind: target.kind,
    regions: freed.regions,
    sheets: setting.sheets,
    edges: whole.map((step) => step.edge),
    forward: whole.map((step) => step.forward),
    joint,
    leadIn: way.length,
    frees: freed.what,
    ...fallsOut(setting, freed.partly),
    start,
    length,
    corners,
    minutes: sawMinutes(setting.workshop, work),
  });
}

function fallsOut({ held, sheets }: Setting, partly: FreedBy['partly']): Pick<CutStep, 'fallsOut'> {
  if (partly.length === 0) return {};
  const places = sheetPlaces(held);
  return {
    fallsOut: partly.map(({ regions, sheets: out }) => ({
      regions,
      sheets: sheets.filter((_, i) => holdsAll(out, 1 << places[i])),
    })),
  };
}

/** What the blade comes through to a node, by what is beside it; of several the most open. */
function comesBy({ access }: SettingRun, node: number): CutStart['by'] {
  const { stock, held } = access;
  const found = new Set<CutStart['by']>();
  someLineAt(stock.graph, node, (edge) => {
    if (!access.block.hasLine(edge)) return false;
    const { left, right } = stock.map.edges[edge];
    placesBeside(access, edge, (place) => {
      if (place >= 0) found.add(isOpen(stock, place, held) ? 'gap' : 'waste');
      else found.add(stock.frame === 'cut' && (left === OUTSIDE || right === OUTSIDE) ? 'board' : 'gap');
    });
    return false;
  });
  return (['gap', 'board', 'waste'] as const).find((by) => found.has(by)) ?? 'kerf';
}

function startOf({ map }: StandingStock, { edge, forward }: LineWalk[number]): number {
  return forward ? map.edges[edge].from : map.edges[edge].to;
}

/** Where the walk along the own lines begins: the end of the lead-in, the drilled place, or a reached node. */
function startNode(run: SettingRun, lines: readonly number[], entry: Entry | null, way: LineWalk): number {
  const { map } = run.setting.stock;
  const last = way[way.length - 1];
  if (last !== undefined) return last.forward ? map.edges[last.edge].to : map.edges[last.edge].from;
  const nodes = lines.flatMap((e) => [map.edges[e].from, map.edges[e].to]);
  const wanted = entry?.from?.node;
  if (wanted !== undefined && nodes.includes(wanted)) return wanted;
  const reached = nodes.filter((node) => run.reach.isReached(node));
  const choice = reached.length > 0 ? reached : nodes;
  const here = wanted === undefined ? lastPlace(run) : map.nodes[wanted].at;
  const far = (node: number): number => (here === null ? 0 : distance(map.nodes[node].at, here));
  return choice.reduce((a, b) => (far(b) < far(a) ? b : a));
}

/** Where the blade was left. */
function lastPlace({ steps, setting }: Pick<SettingRun, 'steps' | 'setting'>): Point | null {
  const step = steps[steps.length - 1];
  if (step === undefined) return null;
  const edge = setting.stock.map.edges[step.edges[step.edges.length - 1]];
  const node = step.forward[step.forward.length - 1] ? edge.to : edge.from;
  return setting.stock.map.nodes[node].at;
}

function sawLine({ setting, reach }: SettingRun, edge: number): void {
  setting.stock.sawn[edge] |= setting.held;
  const { from, to } = setting.stock.map.edges[edge];
  if (reach.isReached(from)) reach.enterNode(from);
  if (reach.isReached(to)) reach.enterNode(to);
}
