import type { Finding } from '../finding.js';
import { distance, type Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import { type Access, EDGE, type Place, placesBeside, type Reaches, regionsInHole } from './access.js';
import type { CutStart } from './cut-plan.js';
import { findDrillSite, isSingleRun } from './drill-start.js';
import { someLineAt } from './line-graph.js';
import type { Reach } from './reach.js';
import type { Setting } from './saw-setting.js';
import { isOpen } from './standing-stock.js';
import type { Target } from './targets.js';
import type { LineWalk } from './walk-lines.js';

/** A block while it is sawn, as far as the blade's ways are concerned. */
export interface BlockRun {
  readonly setting: Setting;
  readonly access: Access;
  readonly reaches: Reaches;
  readonly reach: Reach;
  readonly findings: Finding[];
}

/** How the blade comes into a group: what the first step of the group says of its start. */
export interface Entry {
  readonly start: Omit<CutStart, 'at'> & { readonly at: Point | null };
  /** The node to walk from, the step to set out with, and the joint of its line; null for any that is reached. */
  readonly from: {
    readonly node: number;
    readonly first: LineWalk[number] | null;
    readonly joint: number;
  } | null;
}

/** Leads the blade to the first target of a group: in from the edge, through a hole that is there, or a new one. */
export function enterGroup(run: BlockRun, target: Target, lines: readonly number[]): Entry {
  const { reaches, reach, setting } = run;
  const { map } = setting.stock;
  const group = reaches.groupOf(lines[0]);
  if (group === reaches.edgeGroup) return enterAtEdge(reach);
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

/** The blade comes in from the edge of the block. */
export function enterAtEdge(reach: Reach): Entry {
  reach.enterPlace(EDGE);
  return { start: { kind: 'edge', at: null, diameter: null, threaded: false }, from: null };
}

function nodeOf({ setting }: BlockRun, begin: { edge: number; forward: boolean }): number {
  const { from, to } = setting.stock.map.edges[begin.edge];
  return begin.forward ? from : to;
}

/** The widest hole beside the lines, else the nearest one. */
function bestHole(
  { access }: BlockRun,
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
function widestIn({ access }: Pick<BlockRun, 'access'>, hole: Place): number {
  const { regions } = access.stock.map;
  return regionsInHole(access, hole).reduce((a, b) => (regions[b].labelRoom > regions[a].labelRoom ? b : a));
}

/** What the blade comes through to a node, by what is beside it; of several the most open. */
export function comesBy({ access }: BlockRun, node: number): CutStart['by'] {
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
