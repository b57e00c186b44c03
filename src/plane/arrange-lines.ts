/**
 * From lines to faces: the planar map's core.
 *
 * Input is any finite set of polylines within ±16 m. Output: an exact subdivision on the grid of 2⁻¹⁰ mm with
 * edges that meet at nodes only, faces, areas, adjacency, containment and provenance (arrangement.ts).
 *
 * 1. weld       ends and corners near another line become nodes on it (weld.ts)
 * 2. round      vertices go to the grid
 * 3. snap       crossings are rounded, segments routed through hot pixels (snap-round.ts)
 * 4. node       equal nodes and edges are merged, numbered by position (noded-edges.ts)
 * 5. link       half-edges are sorted around nodes, cycles and connected parts traced (half-edges.ts)
 * 6. enclose    each connected part finds the face around it (faces.ts)
 * 7. measure    areas, common borders (measure-faces.ts)
 */
import { demandOptions, demandTypes } from '../arguments.js';
import type { Arrangement } from './arrangement.js';
import { findFaces } from './faces.js';
import { linkHalfEdges } from './half-edges.js';
import { placeLines, provenanceAsGiven } from './line-order.js';
import { checkLineSet, type LineSet } from './line-set.js';
import { measureFaces } from './measure-faces.js';
import { nodeEdges } from './noded-edges.js';
import { scratchFor } from './scratch.js';
import { snapRound } from './snap-round.js';
import { type AsyncOptions, finish, finishInTurns, within } from './steps.js';
import { weldLines } from './weld.js';

/** Options of `arrangeLines`. */
export interface ArrangeOptions {
  /**
   * mm, from 0. An end or corner this near to a line is on it. Too small: junctions stay open where a file
   * was rounded. Too large: details of that size collapse. Default 0.02.
   */
  readonly weld?: number;
}

/** Defaults of `ArrangeOptions`. */
export const ARRANGE_DEFAULTS: Required<ArrangeOptions> = { weld: 0.02 };

/**
 * The planar subdivision of a set of lines. Throws PlystepError 'bad-option' for a malformed line set or
 * coordinates that are not finite, 'limit' beyond ±16 m.
 */
export function arrangeLines(lines: LineSet, options: ArrangeOptions = {}): Arrangement {
  return finish(arrangeSteps(lines, options));
}

/** The same in turns of the event loop (at least every 50 ms), with progress, stopped by an AbortSignal. */
export async function arrangeLinesAsync(
  lines: LineSet,
  options: ArrangeOptions & AsyncOptions = {},
): Promise<Arrangement> {
  demandOptions(options, 'arrangeLinesAsync', null);
  return finishInTurns(arrangeSteps(lines, options), options);
}

/** The steps of `arrangeLines`; yields the share of the work done, 0 to 1. */
export function* arrangeSteps(given: LineSet, options: ArrangeOptions = {}): Generator<number, Arrangement> {
  checkLineSet(given);
  demandOptions(options, 'arrangeLines', null);
  demandTypes(options, ARRANGE_DEFAULTS, 'arrangeLines');
  const placed = placeLines(given);
  const lines = placed?.lines ?? given;
  yield 0;
  const scratch = scratchFor(lines.coords.length / 2);
  const grid = yield* within(weldLines(lines, options.weld ?? ARRANGE_DEFAULTS.weld, scratch), 0, 0.3);
  scratch.brief.reset();
  const meetings = yield* within(snapRound(grid, scratch), 0.3, 0.6);
  scratch.brief.reset();
  const edges = yield* within(nodeEdges(grid, meetings, scratch), 0.6, 0.75);
  scratch.brief.reset();
  const half = yield* within(linkHalfEdges(edges, scratch), 0.75, 0.85);
  scratch.brief.reset();
  const faces = yield* within(findFaces(edges, half), 0.85, 0.9);
  const measures = yield* within(measureFaces(edges, half, faces, scratch.brief), 0.9, 1);
  yield 1;
  const provenance = {
    pieceEdge: edges.pieceEdge,
    pieceSegment: edges.pieceSegment,
    segmentVertex: grid.source,
    segmentT: grid.t,
  };
  return {
    nodeX: edges.nodeX,
    nodeY: edges.nodeY,
    edgeFrom: new Uint32Array(edges.edgeFrom.buffer),
    edgeTo: new Uint32Array(edges.edgeTo.buffer),
    edgeLeft: measures.left,
    edgeRight: measures.right,
    outStart: half.start,
    out: half.out,
    next: half.next,
    faceCount: faces.count,
    faceFirst: faces.outline.map((cycle) => half.cycleFirst[cycle]),
    faceArea: measures.area,
    faceInside: faces.inside,
    faceOutsideLength: measures.outsideLength,
    adjacencyStart: measures.start,
    adjacencyFace: measures.face,
    adjacencyLength: measures.length,
    componentCount: half.parts,
    componentFace: faces.partFace,
    componentFirst: half.partOuter.map((cycle) => half.cycleFirst[cycle]),
    provenance: placed === null ? provenance : provenanceAsGiven(provenance, grid, given, placed),
    counts: { welded: grid.welded },
  };
}
