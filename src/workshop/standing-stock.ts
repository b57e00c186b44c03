import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Frame } from '../relief/relief.js';
import { type LineGraph, lineGraph } from './line-graph.js';
import { type LineShapes, lineShapes } from './line-shapes.js';
import { holdsAll, isAddOnEdge, type SheetSet } from './sheet-sets.js';

/**
 * The stock at a moment of the job: the only thing that changes while a plan is made, and never seen outside
 * the planner.
 */
export interface StandingStock {
  readonly map: RegionMap;
  readonly frame: Frame;
  readonly graph: LineGraph;
  /** 1 for the edges that take part in the sawing. By edge. */
  readonly counted: Uint8Array;
  readonly shapes: LineShapes;
  /** Sheets that each line must be sawn through, by edge. */
  readonly needed: Int32Array;
  /** Sheets that each line is sawn through, by edge. */
  readonly sawn: Int32Array;
  /** Sheets in which the material of a region is gone from the table, by region. */
  readonly gone: Int32Array;
  /** 1 for voids: waste in every sheet, free to saw in at any time. By region. */
  readonly voids: Uint8Array;
}

/**
 * Stock on which nothing is sawn yet.
 *
 * @param counts whether an edge takes part in the sawing
 */
export function wholeStock(
  map: RegionMap,
  frame: Frame,
  needed: Int32Array,
  voids: Uint8Array,
  shapes: LineShapes = lineShapes(map),
  counts: (edge: number) => boolean = (edge) => !isAddOnEdge(map, edge),
): StandingStock {
  const counted = Uint8Array.from(map.edges, (_, e) => (counts(e) ? 1 : 0));
  return {
    map,
    frame,
    graph: lineGraph(map, (e) => counted[e] === 1),
    counted,
    shapes,
    needed,
    sawn: new Int32Array(map.edges.length),
    gone: new Int32Array(map.regions.length),
    voids,
  };
}

/** The region is open from face to back of the sheets held together. */
export function isOpen(stock: StandingStock, region: number, held: SheetSet): boolean {
  if (region === OUTSIDE) return stock.frame === 'board-edge';
  return holdsAll(stock.gone[region], held);
}

/** A kerf through all the sheets held together. */
export function isKerf(stock: StandingStock, edge: number, held: SheetSet): boolean {
  return holdsAll(stock.sawn[edge], held);
}

/** The line is still to be sawn, now or later, through at least the sheets held together. */
export function isDue(stock: StandingStock, edge: number, held: SheetSet): boolean {
  return holdsAll(stock.needed[edge], held) && !holdsAll(stock.sawn[edge], held);
}

/** The region on the other side of an edge. */
export function acrossEdge(map: RegionMap, edge: number, region: number): number {
  const { left, right } = map.edges[edge];
  return left === region ? right : left;
}

/** Nothing holds the two sides of a border line together any more in the sheets held together. */
export function isParted(stock: StandingStock, edge: number, held: SheetSet): boolean {
  const { left, right } = stock.map.edges[edge];
  return holdsAll(stock.sawn[edge] | gone(stock, left) | gone(stock, right), held);
}

function gone(stock: StandingStock, region: number): SheetSet {
  if (region !== OUTSIDE) return stock.gone[region];
  return stock.frame === 'board-edge' ? -1 : 0;
}
