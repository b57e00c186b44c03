import { demandStage } from '../arguments.js';
import { pointAt } from '../geometry/curve.js';
import { curveArea } from '../geometry/curve-area.js';
import { GRID_STEP } from '../geometry/grid.js';
import { distance, type Point } from '../geometry/point.js';
import { loopCurves } from './edge-curves.js';
import { windingNumber } from './region-at.js';
import { type LoopStep, OUTSIDE, type Region, type RegionMap } from './region-map.js';

/** At most this many problems are listed: the first ones tell what is wrong. */
const MOST = 20;

/** Relative error allowed to sums of areas and lengths. */
const SUM_ERROR = 1e-9;

/**
 * Checks what a region map promises and returns what does not hold, in words; empty is good: nodes on the
 * grid, pieces that join, loops that close, edges between the regions that they name, symmetric adjacency,
 * areas that agree with their loops, containment by sample, Euler's formula.
 */
export function verifyRegionMap(map: RegionMap): string[] {
  demandStage(map, ['region map'], 'verifyRegionMap');
  const problems: string[] = [];
  const report = (text: string): void => {
    if (problems.length < MOST) problems.push(text);
  };
  checkNodes(map, report);
  checkEdges(map, report);
  checkLoops(map, report);
  checkRegions(map, report);
  checkNeighbours(map, report);
  checkEuler(map, report);
  return problems;
}

type Report = (text: string) => void;

function checkNodes(map: RegionMap, report: Report): void {
  const seen = new Set<string>();
  const layerOf = nodeLayers(map);
  map.nodes.forEach(({ at, truePoint }, v) => {
    for (const c of at) if (!Number.isInteger(c / GRID_STEP)) report(`node ${v} is not on the grid`);
    const key = `${layerOf[v]} ${at.join()}`;
    if (seen.has(key)) report(`node ${v} stands where another one does`);
    seen.add(key);
    // Half a step each way, and nothing of doubles' rounding.
    if (distance(at, truePoint) > 0.7072 * GRID_STEP) report(`node ${v} is away from its true point`);
  });
}

/** Add-ons lie on top in a layer of their own. */
function nodeLayers(map: RegionMap): Uint8Array {
  const layers = new Uint8Array(map.nodes.length);
  for (const { from, to, left, right } of map.edges) {
    if (!(map.regions[left]?.addOn ?? false) && !(map.regions[right]?.addOn ?? false)) continue;
    layers[from] = layers[to] = 1;
  }
  return layers;
}

function checkEdges(map: RegionMap, report: Report): void {
  const reach = 2 * map.options.weld + map.options.gap + 4 * map.options.tolerance + 2 * GRID_STEP;
  map.edges.forEach((edge, e) => {
    if (edge.pieces.length === 0) report(`edge ${e} has no pieces`);
    if (!(edge.length > 0)) report(`edge ${e} has the length ${edge.length}`);
    if ((edge.kind === 'border') !== (edge.left !== edge.right)) report(`edge ${e} is no ${edge.kind}`);
    let at: Point = map.nodes[edge.from].at;
    for (const { curve, t0, t1 } of edge.pieces) {
      if (map.curves[curve] === undefined) {
        report(`edge ${e} names curve ${curve}, which is not there`);
        return;
      }
      if (!(t0 >= 0 && t0 <= 1 && t1 >= 0 && t1 <= 1)) report(`edge ${e} leaves its curve`);
      if (distance(at, pointAt(map.curves[curve], t0)) > reach) report(`the pieces of edge ${e} do not join`);
      at = pointAt(map.curves[curve], t1);
    }
    if (distance(at, map.nodes[edge.to].at) > reach) report(`edge ${e} does not end at its node`);
  });
}

function checkLoops(map: RegionMap, report: Report): void {
  const used = new Map<string, number>();
  map.regions.forEach((region, r) => {
    for (const loop of region.loops) {
      loop.forEach((step, i) => {
        const next = loop[(i + 1) % loop.length];
        if (endOf(map, step) !== startOf(map, next))
          report(`a loop of ${region.id} breaks after edge ${step.edge}`);
        const { left, right } = map.edges[step.edge];
        if ((step.forward ? left : right) !== r) report(`edge ${step.edge} is not on a loop of ${region.id}`);
        const key = `${step.edge} ${step.forward}`;
        used.set(key, (used.get(key) ?? 0) + 1);
      });
    }
  });
  map.edges.forEach(({ left, right, kind }, e) => {
    for (const [side, forward] of [
      [left, true],
      [right, false],
    ] as const) {
      const expected = kind === 'border' && side >= 0 ? 1 : 0;
      const count = used.get(`${e} ${forward}`) ?? 0;
      if (count !== expected) report(`edge ${e} is walked ${count} times on one side, not ${expected}`);
    }
  });
}

const startOf = ({ edges }: RegionMap, { edge, forward }: LoopStep): number =>
  forward ? edges[edge].from : edges[edge].to;
const endOf = ({ edges }: RegionMap, { edge, forward }: LoopStep): number =>
  forward ? edges[edge].to : edges[edge].from;

function checkRegions(map: RegionMap, report: Report): void {
  map.regions.forEach((region, r) => {
    if (region.id !== `r${r + 1}`) report(`region ${r} is called ${region.id}`);
    if (!(region.area > 0)) report(`${region.id} has the area ${region.area}`);
    const runs = region.loops.map((loop) => loopCurves(map, loop));
    const origin = region.labelPoint;
    const drawn = -runs.flat().reduce((sum, curve) => sum + curveArea(curve, 0, 1, origin), 0);
    const bound = areaBound(map, region);
    if (Math.abs(drawn - region.area) > bound)
      report(`${region.id} has the area ${region.area}, its loops ${drawn} mm²; allowed ${bound}`);
    const winding = runs.reduce((sum, run) => sum + windingNumber(run, region.labelPoint), 0);
    if (winding % 2 === 0 && region.labelRoom > 4 * map.options.tolerance)
      report(`${region.id} does not hold its label point`);
    if (region.inside !== OUTSIDE && map.regions[region.inside] === undefined)
      report(`${region.id} lies inside region ${region.inside}, which is not there`);
  });
}

/** What moving every end of every edge of a region onto its node may change of the area, mm². */
function areaBound(map: RegionMap, region: Region): number {
  const steps = region.loops.flat();
  const pieces = steps.reduce((sum, { edge }) => sum + map.edges[edge].pieces.length, 0);
  const longest = steps.reduce((sum, { edge }) => Math.max(sum, map.edges[edge].length), 0);
  return (map.options.weld + map.options.tolerance + 2 * GRID_STEP) * (pieces + 1) * longest;
}

function checkNeighbours(map: RegionMap, report: Report): void {
  const border = map.regions.map(({ outsideLength }) => outsideLength);
  map.regions.forEach((region, r) => {
    region.neighbours.forEach(({ region: other, length, edges }, i) => {
      border[r] += length;
      if (i > 0 && region.neighbours[i - 1].region >= other) report(`${region.id}: neighbours out of order`);
      const sum = edges.reduce((total, e) => total + map.edges[e].length, 0);
      if (Math.abs(sum - length) > SUM_ERROR * sum)
        report(`${region.id}: border with ${other} is ${sum} mm long`);
      if (!map.regions[other].neighbours.some((back) => back.region === r && back.length === length))
        report(`${region.id} and ${map.regions[other].id} do not agree on their border`);
    });
    const walked = region.loops.flat().reduce((sum, { edge }) => sum + map.edges[edge].length, 0);
    if (Math.abs(walked - border[r]) > SUM_ERROR * Math.max(1, walked))
      report(`${region.id}: borders of ${border[r]} mm on loops of ${walked} mm`);
  });
}

/** V − E + F = 1 + C with the outside counted once for each layer. */
function checkEuler({ nodes, edges, regions }: RegionMap, report: Report): void {
  const parent = nodes.map((_, v) => v);
  const root = (v: number): number => {
    let at = v;
    while (parent[at] !== at) at = parent[at];
    return at;
  };
  for (const { from, to } of edges) parent[root(from)] = root(to);
  const parts = parent.filter((p, v) => p === v).length;
  if (nodes.length - edges.length + regions.length !== parts)
    report(
      `Euler: ${nodes.length} nodes − ${edges.length} edges + ${regions.length} regions is not ${parts} parts`,
    );
}
