import { distance, type Point } from '../geometry/point.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { gatherChords, roomAround } from './clearance.js';
import type { DrillRules, DrillSite } from './drill-in-waste.js';
import type { LineGraph } from './line-graph.js';
import type { LineShapes } from './line-shapes.js';
import { type Corner, loopCorners } from './loop-corners.js';

/**
 * The place for a hole on a line where both sides are kept: with the smallest bit that passes the blade, where
 * it shows least. In this order: where it touches no other line, away from thin bridges, at a junction of many
 * lines, at a sharp corner. Null where no bit passes the blade.
 *
 * @param closed the lines are one closed run, so the cut may begin in the middle of a line
 */
export function drillOnLine(
  map: RegionMap,
  shapes: LineShapes,
  graph: LineGraph,
  lines: readonly number[],
  closed: boolean,
  rules: DrillRules,
): DrillSite | null {
  const bit = rules.bits.find((b) => b.diameter >= rules.hole);
  if (bit === undefined) return null;
  const candidates = cornersAlong(map, shapes, lines)
    .filter((corner) => closed || corner.joint === 0)
    .map((corner, i) => ({ corner, i, rank: rankOf(map, graph, corner, rules) }))
    .sort((a, b) => a.rank - b.rank || a.i - b.i);
  const free = candidates
    .slice(0, LOOKED_AT)
    .find(({ corner }) => isFree(map, shapes, corner, bit.diameter / 2));
  const best = (free ?? candidates[0])?.corner;
  if (best === undefined) return veinEnd(map, lines, bit);
  return { at: best.at, bit, where: 'line', clearance: 0, region: -1, begin: best };
}

/** So many of the best places are looked at closely. */
const LOOKED_AT = 24;

/** Corners of the regions beside the lines that lie on the lines. */
function cornersAlong(map: RegionMap, shapes: LineShapes, lines: readonly number[]): Corner[] {
  const own = new Set(lines);
  const done = new Set<number>();
  const corners: Corner[] = [];
  for (const edge of lines) {
    const region = [map.edges[edge].left, map.edges[edge].right].find((r) => r !== OUTSIDE);
    if (region === undefined || done.has(region)) continue;
    done.add(region);
    for (const loop of map.regions[region].loops) {
      if (!loop.some((step) => own.has(step.edge))) continue;
      for (const corner of loopCorners(map, shapes, region, loop, () => true)) {
        if (own.has(corner.edge)) corners.push(corner);
      }
    }
  }
  return corners;
}

function rankOf(map: RegionMap, graph: LineGraph, corner: Corner, rules: DrillRules): number {
  const { from, to } = map.edges[corner.edge];
  const node = corner.forward ? from : to;
  const meeting = corner.joint > 0 ? 2 : graph.start[node + 1] - graph.start[node];
  const bend = Math.abs(Math.PI - corner.angle) / Math.PI;
  const late = rules.nearBridge(corner.at) ? 100 : 0;
  return late - Math.min(meeting, 8) - bend;
}

/** The hole meets no line but those that run through its centre. */
function isFree(map: RegionMap, shapes: LineShapes, corner: Corner, radius: number): boolean {
  const { left, right } = map.edges[corner.edge];
  return [left, right].every((region) => {
    if (region === OUTSIDE) return true;
    const others = map.regions[region].loops
      .flatMap((loop) => loop.map((step) => step.edge))
      .filter((edge) => !touches(map, shapes, edge, corner.at));
    return roomAround(gatherChords(shapes, others), corner.at) >= radius;
  });
}

function touches(map: RegionMap, shapes: LineShapes, edge: number, at: Point): boolean {
  const { from, to } = map.edges[edge];
  const ends = [map.nodes[from], map.nodes[to]].flatMap((node) => [node.at, node.truePoint]);
  if (ends.some((p) => distance(p, at) < SAME_POINT)) return true;
  return shapes.curves(edge).some((c) => distance(c.from, at) < SAME_POINT);
}

/** A node's grid point and its true point are nearer to each other than this, mm. */
const SAME_POINT = 0.05;

/** A vein that floats inside a region has no corner of it: the hole goes to the end of the first line. */
function veinEnd(map: RegionMap, lines: readonly number[], bit: DrillSite['bit']): DrillSite | null {
  if (lines.length === 0) return null;
  const at = map.nodes[map.edges[lines[0]].from].at;
  return { at, bit, where: 'line', clearance: 0, region: -1, begin: null };
}
