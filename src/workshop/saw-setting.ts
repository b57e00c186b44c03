import type { Finding } from '../finding.js';
import { distance, type Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import { type Access, accessOf, linesAround, type Reaches, reachesOf } from './access.js';
import { blockShapes } from './block-shape.js';
import type { Block, CutStart, CutStep, Workshop } from './cut-plan.js';
import { threadingHole } from './default-workshop.js';
import type { DrillRules } from './drill-in-waste.js';
import { type FreedBy, freedBy, looseAlready, watchTargets } from './freed-regions.js';
import { type BlockRun, comesBy, type Entry, enterAtEdge, enterGroup } from './group-entry.js';
import { leadIn } from './lead-in.js';
import { someLineAt } from './line-graph.js';
import { type LumpWatch, watchLumps } from './loose-lumps.js';
import { emptyReach } from './reach.js';
import { sawMinutes } from './saw-time.js';
import { holdsAll, type SheetSet, sheetPlaces } from './sheet-sets.js';
import { isKerf, isParted, type StandingStock } from './standing-stock.js';
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
    for (const group of inner) {
      if (sawGroup(run, orderTargets(stock.map, setting.depths, group, clampSide)) === 'inside') takeOut(run);
    }
    sawGroup(run, orderTargets(stock.map, setting.depths, groups.atEdge, clampSide));
  });
  const apart = lumps.lumps();
  const told = steps.map((step, i) => (apart[i].length === 0 ? step : { ...step, comesLoose: apart[i] }));
  return { steps: told, loose, findings };
}

/** What the work on one block passes around. */
interface SettingRun extends BlockRun {
  readonly watch: ReturnType<typeof watchTargets>;
  readonly veins: ReadonlyMap<Target, readonly Target[]>;
  readonly lumps: LumpWatch;
  readonly steps: CutStep[];
}

/** The line is still to be sawn through one of the sheets held. */
function isWanted({ stock, held }: Setting, edge: number): boolean {
  return (stock.needed[edge] & ~stock.sawn[edge] & held) !== 0;
}

/**
 * The targets that are still to be sawn, by the block that they are sawn from. A body whose parts meet in a point may stand
 * in several: each saws its own lines of it.
 */
function targetsByBlock(setting: Setting, targets: readonly Target[], blocks: readonly Block[]): Target[][] {
  const { map } = setting.stock;
  const blockOf = new Int32Array(map.regions.length).fill(-1);
  blocks.forEach(({ regions }, b) => {
    for (const r of regions) blockOf[r] = b;
  });
  const lists: Target[][] = blocks.map(() => []);
  for (const target of targets) {
    const own = new Set(target.regions);
    const parts = new Map<number, number[]>();
    for (const line of target.lines.filter((e) => isWanted(setting, e))) {
      const { left, right } = map.edges[line];
      const sides = [left, right].sort((a, b) => Number(own.has(b)) - Number(own.has(a)));
      const region = [...sides, ...target.regions].find((r) => r !== OUTSIDE && blockOf[r] >= 0);
      if (region === undefined) continue;
      const part = parts.get(blockOf[region]);
      if (part === undefined) parts.set(blockOf[region], [line]);
      else part.push(line);
    }
    for (const [b, lines] of parts) lists[b].push(parts.size === 1 ? target : { ...target, lines });
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

/**
 * Saws a group, and tells where the blade is then: inside, where the edge does not reach it, so that it has to be taken
 * out; or outside. A piece that goes around all that is sawn is taken off the blade, which is outside from then on.
 */
function sawGroup(run: SettingRun, targets: readonly Target[]): 'inside' | 'outside' {
  let at: 'inside' | 'outside' | 'taken out' | null = null;
  const saw = (target: Target): void => {
    const lines = target.lines.filter((e) => isWanted(run.setting, e));
    if (lines.length === 0) return;
    for (const vein of veinsBefore(run, target, lines)) saw(vein);
    const left = lines.filter((e) => isWanted(run.setting, e));
    if (left.length === 0) return;
    const entry =
      at === null ? enterGroup(run, target, left) : at === 'taken out' ? enterAtEdge(run.reach) : null;
    if (entry !== null) at = entry.start.kind === 'edge' ? 'outside' : 'inside';
    const opened = sawTarget(run, target, left, entry);
    if (at !== 'inside' || !opened.some((r) => isAtEdge(run.access, r))) return;
    takeOut(run);
    at = 'taken out';
  };
  for (const target of targets) saw(target);
  return at === 'inside' ? 'inside' : 'outside';
}

/** The blade can't leave where it is after the last step, unless it is unclamped. */
function takeOut({ steps }: SettingRun): void {
  const last = steps.length - 1;
  steps[last] = { ...steps[last], captive: true };
}

function isAtEdge(access: Access, region: number): boolean {
  return linesAround(access, region).some((e) => access.block.airOf(e) === 0);
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

/** Saws one target; the regions that are open from then on. */
function sawTarget(
  run: SettingRun,
  target: Target,
  lines: readonly number[],
  entry: Entry | null,
): readonly number[] {
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
  const walk = walkLines(stock, rest, from, reach, first);
  for (const { edge } of walk) sawLine(run, edge);
  const whole = [...way, ...walk];
  const joint = way.length === 0 && first !== null ? (entry?.from?.joint ?? 0) : 0;
  const runs = walkCurves(stock, whole, joint);
  const begin = walkCurves(stock, walk, joint)[0][0].from;
  const inEdgeGroup = entry?.start.kind === 'edge' || reaches.groupOf(lines[0]) === reaches.edgeGroup;
  const atEdge = inEdgeGroup && (by === 'board' || by === 'gap');
  const later = way.length > 0 ? 'line' : atEdge ? 'edge' : 'open';
  const given = entry?.start ?? { kind: later, at: null, diameter: null, threaded: false };
  const kind = given.kind === 'edge' ? later : given.kind;
  const at = given.at ?? runs[0][0].from;
  const outside = entry?.start.kind === 'edge' ? ({ outside: true } as const) : {};
  const start = { ...given, kind, at, begin, ...(kind === 'drill' ? {} : { by }), ...outside } as CutStart;
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
  return freed.opened;
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

function startOf({ map }: StandingStock, { edge, forward }: LineWalk[number]): number {
  return forward ? map.edges[edge].from : map.edges[edge].to;
}

/** Where the walk along the own lines begins: the end of the lead-in, the drilled place, or a reached node. */
function startNode(run: SettingRun, lines: readonly number[], entry: Entry | null, way: LineWalk): number {
  const { reaches } = run;
  const { map } = run.setting.stock;
  const last = way[way.length - 1];
  if (last !== undefined) return last.forward ? map.edges[last.edge].to : map.edges[last.edge].from;
  const nodes = lines.flatMap((e) => [map.edges[e].from, map.edges[e].to]);
  const wanted = entry?.from?.node;
  if (wanted !== undefined && nodes.includes(wanted)) return wanted;
  const reached = nodes.filter((node) => run.reach.isReached(node));
  const atEdge = reaches.groupOf(lines[0]) === reaches.edgeGroup;
  const choice = reached.length === 0 ? nodes : atEdge ? leastWaste(run, reached) : reached;
  const here = wanted === undefined ? lastPlace(run) : map.nodes[wanted].at;
  const far = (node: number): number => (here === null ? 0 : distance(map.nodes[node].at, here));
  return choice.reduce((a, b) => (far(b) < far(a) ? b : a));
}

/**
 * Of nodes that the edge reaches those that are open by now; where none is, those at the waste of the board; else those
 * that the blade gets to through waste that stands in the block. So no way is sawn through waste that is not needed.
 */
function leastWaste(run: SettingRun, nodes: readonly number[]): readonly number[] {
  const { stock, held } = run.setting;
  const isOpenAt = (node: number): boolean =>
    someLineAt(stock.graph, node, (e) => run.access.block.hasLine(e) && isKerf(stock, e, held));
  const open = nodes.filter((node) => isOpenAt(node) || comesBy(run, node) === 'gap');
  if (open.length > 0) return open;
  const outer = nodes.filter((node) => comesBy(run, node) === 'board');
  return outer.length > 0 ? outer : nodes;
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
