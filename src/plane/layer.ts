import type { Point } from '../geometry/point.js';
import { type BuiltRegions, buildRegions } from './build-regions.js';
import { type FaceLocator, locateFaces } from './locate-face.js';
import type { MappedLines } from './map-lines.js';
import type { MapEdge, Region, RegionMap } from './region-map.js';
import { within } from './steps.js';
import { type TracedEdges, traceEdges } from './trace-edges.js';
import { truePointAt } from './true-points.js';

/** One layer of a map: the drawing without its add-ons, or the add-ons. */
export interface Layer extends BuiltRegions {
  readonly lines: MappedLines;
  readonly traced: TracedEdges;
  readonly locator: FaceLocator;
}

/** Traces mapped lines into edges and regions; yields the share of the work done. */
export function* buildLayer(lines: MappedLines): Generator<number, Layer> {
  const { faced, curves, ranks, truePoints } = lines;
  const truePoint = (x: number, y: number): Point | undefined => truePointAt(truePoints, x, y);
  const traced = yield* within(traceEdges(faced, curves, ranks, truePoint), 0, 0.4);
  const built = yield* within(buildRegions(faced, traced, curves), 0.4, 1);
  return { lines, traced, locator: locateFaces(faced), ...built };
}

type Joined = Pick<RegionMap, 'curves' | 'curveShapes' | 'nodes' | 'edges' | 'regions' | 'outsideVeins'>;

/** Puts the add-ons' layer after the base: one list of curves, nodes, edges and regions. */
export function joinLayers(base: Layer, top: Layer | null): Joined {
  const joined = top === null ? base : addLayer(base, top);
  const { edges } = joined;
  const outsideVeins: number[] = [];
  for (let e = 0; e < edges.length; e++)
    if (edges[e].kind !== 'border' && edges[e].left < 0) outsideVeins.push(e);
  const { curves } = joined.lines;
  return {
    curves: curves.map(({ curve }) => curve),
    curveShapes: curves.map(({ shape }) => shape),
    nodes: joined.traced.nodes,
    edges,
    regions: joined.regions,
    outsideVeins,
  };
}

/** What of a layer is joined. */
interface Joining extends Pick<Layer, 'edges' | 'regions'> {
  readonly lines: Pick<MappedLines, 'curves'>;
  readonly traced: Pick<TracedEdges, 'nodes'>;
}

function addLayer(base: Layer, top: Layer): Joining {
  const nodes = base.traced.nodes.length;
  const curves = base.lines.curves.length;
  const regions = base.regions.length;
  const edges = top.edges.map((edge) => moveEdge(edge, nodes, curves, regions));
  const added = top.regions.map((region, i) => ({
    ...moveRegion(region, regions, base.edges.length),
    id: `r${regions + i + 1}`,
  }));
  return {
    lines: { curves: [...base.lines.curves, ...top.lines.curves] },
    traced: { nodes: [...base.traced.nodes, ...top.traced.nodes] },
    edges: [...base.edges, ...edges],
    regions: [...base.regions, ...added],
  };
}

function moveEdge(edge: MapEdge, nodes: number, curves: number, regions: number): MapEdge {
  const face = (f: number): number => (f < 0 ? f : f + regions);
  return {
    ...edge,
    from: edge.from + nodes,
    to: edge.to + nodes,
    left: face(edge.left),
    right: face(edge.right),
    pieces: edge.pieces.map((piece) => ({ ...piece, curve: piece.curve + curves })),
  };
}

function moveRegion(region: Region, regions: number, edges: number): Region {
  return {
    ...region,
    loops: region.loops.map((loop) => loop.map((step) => ({ ...step, edge: step.edge + edges }))),
    neighbours: region.neighbours.map((neighbour) => ({
      ...neighbour,
      region: neighbour.region + regions,
      edges: neighbour.edges.map((e) => e + edges),
    })),
    inside: region.inside < 0 ? region.inside : region.inside + regions,
    veins: region.veins.map((e) => e + edges),
    addOn: true,
  };
}
