import { pointAt } from '../geometry/curve.js';
import { curveArea } from '../geometry/curve-area.js';
import { curveBounds } from '../geometry/curve-bounds.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import { type Pole, PoleSearch } from '../geometry/pole.js';
import type { MapCurve } from './flat-lines.js';
import { labelPlace } from './label-place.js';
import { type FacedNet, ringOf, walksByFace } from './net.js';
import type { LoopStep, MapEdge, MapNode, Neighbour, Region } from './region-map.js';
import { inBlocks, mapInTurns, within } from './steps.js';
import type { TracedEdges } from './trace-edges.js';
import { traceLoops } from './trace-loops.js';

/** Regions by position, and the edges with their faces renamed to region indices. */
export interface BuiltRegions {
  readonly regions: readonly Region[];
  readonly edges: readonly MapEdge[];
  /** Region index of each face of the net. */
  readonly regionOfFace: Int32Array;
}

/** Builds the regions of a traced net: loops, areas, neighbours, label places. Yields the share of the work done. */
export function* buildRegions(
  faced: FacedNet,
  traced: TracedEdges,
  curves: readonly MapCurve[],
): Generator<number, BuiltRegions> {
  const measure = (edge: MapEdge): EdgeMeasure => measureEdge(edge, traced.nodes, curves);
  const measures = yield* within(mapInTurns(traced.edges, measure), 0, 0.2);
  const loops = yield* within(traceLoops(faced, traced), 0.2, 0.25);
  yield 0.25;
  const poles = yield* within(findPoles(faced, loops, measures), 0.25, 0.8);
  const order = poles
    .map((_, f) => f)
    .sort((a, b) => poles[a].y - poles[b].y || poles[a].x - poles[b].x || a - b);
  const region = new Int32Array(order.length);
  order.forEach((f, i) => {
    region[f] = i;
  });
  const rename = (f: number): number => (f < 0 ? -1 : region[f]);
  const renamed = (edge: MapEdge): MapEdge => ({
    ...edge,
    left: rename(edge.left),
    right: rename(edge.right),
  });
  const edges = yield* within(mapInTurns(traced.edges, renamed), 0.8, 0.85);
  yield 0.85;
  const { neighbours, outside, veins } = yield* within(gatherEdges(edges, order.length), 0.85, 0.9);
  yield 0.9;
  const build = (f: number, i: number): Region => {
    const sorted = sortLoops(loops[f], edges, traced.nodes, measures);
    return {
      id: `r${i + 1}`,
      area: sorted.area,
      bounds: loopBounds(sorted.loops[0], measures),
      labelPoint: [poles[f].x, poles[f].y],
      labelRoom: poles[f].room,
      loops: sorted.loops,
      neighbours: neighbours[i],
      outsideLength: outside[i],
      inside: rename(faced.faceInside[f]),
      veins: veins[i],
      shapes: [],
      fillShape: -1,
      addOn: false,
      seats: [],
    };
  };
  const regions = yield* within(mapInTurns(order, build), 0.9, 1);
  return { regions, edges, regionOfFace: region };
}

/** What an edge adds to the area on its left, about its `from` node: ½∮(y dx − x dy), y down; and its box. */
interface EdgeMeasure {
  readonly area: number;
  readonly bounds: Bounds;
}

function measureEdge(edge: MapEdge, nodes: readonly MapNode[], curves: readonly MapCurve[]): EdgeMeasure {
  const origin = nodes[edge.from].at;
  const end = nodes[edge.to].at;
  let area = 0;
  let x0 = Math.min(origin[0], end[0]);
  let y0 = Math.min(origin[1], end[1]);
  let x1 = Math.max(origin[0], end[0]);
  let y1 = Math.max(origin[1], end[1]);
  let at: Point = origin;
  for (const { curve, t0, t1 } of edge.pieces) {
    const c = curves[curve].curve;
    const start = pointAt(c, t0);
    area += chordArea(at, start, origin) + curveArea(c, t0, t1, origin);
    const box = curveBounds(c, t0, t1);
    x0 = Math.min(x0, box[0]);
    y0 = Math.min(y0, box[1]);
    x1 = Math.max(x1, box[2]);
    y1 = Math.max(y1, box[3]);
    at = pointAt(c, t1);
  }
  // Green's theorem with y up is positive counterclockwise; y down turns the sign.
  return { area: -(area + chordArea(at, end, origin)), bounds: [x0, y0, x1, y1] };
}

/** The box around a loop. */
function loopBounds(loop: readonly LoopStep[], measures: readonly EdgeMeasure[]): Bounds {
  let [x0, y0, x1, y1] = EMPTY_BOUNDS;
  for (const { edge } of loop) {
    const { bounds } = measures[edge];
    x0 = Math.min(x0, bounds[0]);
    y0 = Math.min(y0, bounds[1]);
    x1 = Math.max(x1, bounds[2]);
    y1 = Math.max(y1, bounds[3]);
  }
  return [x0, y0, x1, y1];
}

/** ½ (a − o) × (b − o). */
function chordArea(a: Point, b: Point, o: Point): number {
  return ((a[0] - o[0]) * (b[1] - o[1]) - (b[0] - o[0]) * (a[1] - o[1])) / 2;
}

function loopArea(
  loop: readonly LoopStep[],
  edges: readonly MapEdge[],
  nodes: readonly MapNode[],
  measures: readonly EdgeMeasure[],
): number {
  const { edge: first, forward: onward } = loop[0];
  const origin = nodes[onward ? edges[first].from : edges[first].to].at;
  let area = 0;
  for (const { edge, forward } of loop) {
    const { from, to } = edges[edge];
    // From the edge's own origin to the loop's: ½ (u − o) × (v − u).
    const shifted = measures[edge].area - chordArea(nodes[from].at, nodes[to].at, origin);
    area += forward ? shifted : -shifted;
  }
  return area;
}

/** The outline (which encloses the region) first, holes after it by their first edge; and the area between. */
function sortLoops(
  loops: readonly (readonly LoopStep[])[],
  edges: readonly MapEdge[],
  nodes: readonly MapNode[],
  measures: readonly EdgeMeasure[],
) {
  const measured = loops.map((loop) => ({ loop, area: loopArea(loop, edges, nodes, measures) }));
  measured.sort((a, b) => b.area - a.area);
  return { loops: measured.map(({ loop }) => loop), area: measured.reduce((sum, { area }) => sum + area, 0) };
}

function findPoles(
  faced: FacedNet,
  loops: readonly (readonly (readonly LoopStep[])[])[],
  measures: readonly EdgeMeasure[],
): Generator<number, Pole[]> {
  const walks = walksByFace(faced);
  const search = new PoleSearch();
  return mapInTurns(loops, (list, f) => {
    const rings: Float64Array[] = [];
    for (let w = walks.start[f + 1]; w < walks.start[f + 2]; w++) rings.push(ringOf(faced, walks.first[w]));
    let box = EMPTY_BOUNDS;
    for (const loop of list) box = joinBounds(box, loopBounds(loop, measures));
    return labelPlace(rings, Math.min(box[2] - box[0], box[3] - box[1]), search);
  });
}

/** What a region shares with each neighbour. */
type Shared = Map<number, { length: number; edges: number[] }>;

/** Adds an edge to what a region shares with another one, or with the outside. */
function share(
  shared: readonly Shared[],
  outside: number[],
  one: number,
  other: number,
  length: number,
  e: number,
): void {
  if (one < 0) return;
  if (other < 0) {
    outside[one] += length;
    return;
  }
  const entry = shared[one].get(other);
  if (entry === undefined) shared[one].set(other, { length, edges: [e] });
  else {
    entry.length += length;
    entry.edges.push(e);
  }
}

function* gatherEdges(edges: readonly MapEdge[], count: number) {
  const outside = new Array<number>(count).fill(0);
  const veins: number[][] = Array.from({ length: count }, () => []);
  const shared: Shared[] = Array.from({ length: count }, () => new Map());
  const gather = (from: number, to: number): void => {
    for (let e = from; e < to; e++) {
      const { left, right, length } = edges[e];
      if (left !== right) {
        share(shared, outside, left, right, length, e);
        share(shared, outside, right, left, length, e);
      } else if (left >= 0) veins[left].push(e);
    }
  };
  yield* inBlocks(edges.length, gather, 0, 0.5);
  const sorted = (map: Shared): Neighbour[] =>
    [...map].sort((a, b) => a[0] - b[0]).map(([region, entry]) => ({ region, ...entry }));
  const neighbours = yield* within(mapInTurns(shared, sorted), 0.5, 1);
  return { outside, veins, neighbours };
}
