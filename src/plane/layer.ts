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
  const edges = [...base.edges];
  const regions = [...base.regions];
  const nodes = [...base.traced.nodes];
  const curves = [...base.lines.curves];
  if (top !== null) {
    edges.push(...top.edges.map((edge) => moveEdge(edge, nodes.length, curves.length, regions.length)));
    regions.push(...top.regions.map((region) => moveRegion(region, regions.length, base.edges.length)));
    nodes.push(...top.traced.nodes);
    curves.push(...top.lines.curves);
  }
  const outsideVeins = edges.flatMap(({ left, kind }, e) => (kind !== 'border' && left < 0 ? [e] : []));
  return {
    curves: curves.map(({ curve }) => curve),
    curveShapes: curves.map(({ shape }) => shape),
    nodes,
    edges,
    regions: regions.map((region, i) => ({ ...region, id: `r${i + 1}` })),
    outsideVeins,
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
