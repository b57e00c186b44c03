/**
 * From curves to a net: the planar map before it is told apart into regions.
 *
 * 1. Lines are put into one order and direction, repeated ones taken out (canonical-lines.ts), and cut into chords
 *    (flat-lines.ts).
 * 2. Places where curves touch, and plain junctions, become vertices (early-rules.ts). Ends and corners are welded,
 *    chords arranged (weld.ts, snap-round.ts).
 * 3. Where nodes came to lie on chords of curves, the true crossings are found and become vertices of the
 *    curves; curves that run along each other take the same chords; then 1 and 2 again, until nothing is left
 *    to refine (refine-rules.ts, coincident-curves.ts).
 * 4. Lines under opaque fills are dropped (hidden-lines.ts), and detail lines where they would close off an area
 *    (detail-edges.ts).
 * 5. Gaps are healed (heal-gaps.ts), which may let detail lines close another area.
 * 6. Slivers are merged (merge-slivers.ts).
 */
import type { BoxTree } from '../geometry/box-tree.js';
import { fromGrid } from '../geometry/grid.js';
import type { Point } from '../geometry/point.js';
import { addConnectors } from './add-connectors.js';
import { canonicalLines, drawnRanks } from './canonical-lines.js';
import { clearEdges } from './clear-edges.js';
import { withoutEdges } from './copy-edges.js';
import { detailEdges, type UnsawnDetail } from './detail-edges.js';
import { earlyRules } from './early-rules.js';
import { refuseManyCrossings, refuseManyEdges } from './edge-limit.js';
import { type Chords, type CurveRun, flattenRuns, type MapCurve, NO_RULES } from './flat-lines.js';
import { findConnectors } from './heal-gaps.js';
import { hiddenEdges, hidingShapes } from './hidden-lines.js';
import { checkLineSet } from './line-set.js';
import { findSlivers, type Sliver } from './merge-slivers.js';
import { type FacedNet, faceNet, type Net, netOf, sideNet } from './net.js';
import { type NodedEdges, nodeEdges } from './noded-edges.js';
import { rankCurves } from './rank-curves.js';
import { refineRules } from './refine-rules.js';
import type { MapOptions } from './region-map.js';
import { scratchFor } from './scratch.js';
import { snapRound } from './snap-round.js';
import { within } from './steps.js';
import { findTruePoints, type TruePoints } from './true-points.js';
import { weldLines } from './weld.js';

/** What is mapped: curves in runs, and which shapes' fills hide. */
export interface MapInput {
  readonly curves: readonly MapCurve[];
  readonly runs: readonly CurveRun[];
  /** By drawing shape. */
  readonly hides: readonly boolean[];
  readonly evenOdd: readonly boolean[];
  /** The shape has no stroke: only the edge of its filled area shows. */
  readonly fillOnly: readonly boolean[];
  /** The shape is a detail line: sawn, but bounding nothing. */
  readonly detail: readonly boolean[];
}

/** A gap that was healed: its ends in mm, and the drawing shape of the open end. */
export interface Healing {
  readonly from: Point;
  readonly to: Point;
  readonly shape: number;
}

/** A faced net with the curves it refers to (connectors put in) and what was done on the way. */
export interface MappedLines {
  readonly faced: FacedNet;
  readonly curves: readonly MapCurve[];
  /** Rank of each drawn curve by its shape: of those on one edge the lowest tells its line. */
  readonly ranks: Int32Array;
  readonly truePoints: TruePoints;
  readonly healed: readonly Healing[];
  readonly slivers: readonly Sliver[];
  /** Slivers that could not be merged without losing a line. */
  readonly keptSlivers: readonly Sliver[];
  /** Nodes that lie off the curves that meet there, since their chords cross otherwise than they do. */
  readonly strays: readonly { readonly at: Point; readonly away: number }[];
  readonly welded: number;
  readonly hiddenEdges: number;
  /** Parts of detail lines that were left out. */
  readonly unsawn: readonly UnsawnDetail[];
}

/** Rounds of refinement: the second settles crossings; a third, places that only finer chords show. */
const ROUNDS = 3;

/** A round's share of the work of arranging: most drawings need two. */
const ROUND_SHARE = 0.28;

/** Maps lines in steps; yields the share of the work done. */
export function* mapLines(input: MapInput, options: Required<MapOptions>): Generator<number, MappedLines> {
  const arranged = yield* within(arrangeCurves(input, options), 0, 0.7);
  yield 0.7;
  const visible = yield* within(dropHidden(arranged.net, arranged.edges, input, options), 0.7, 0.77);
  const before = yield* within(dropDetails(visible.net, input, []), 0.77, 0.8);
  yield 0.8;
  const healed = yield* within(heal(before.net, input.curves, options.gap), 0.8, 0.87);
  const after = yield* within(dropDetails(healed.net, input, healed.healed), 0.87, 0.9);
  yield 0.9;
  const tree = after.net === healed.net ? healed.tree : null;
  const merged = yield* within(mergeSlivers(after.net, tree, options.sliver), 0.9, 1);
  yield 1;
  return {
    faced: merged.faced,
    curves: healed.curves,
    ranks: arranged.ranks,
    truePoints: arranged.truePoints,
    healed: healed.healed,
    slivers: merged.slivers,
    keptSlivers: merged.kept,
    strays: arranged.strays,
    welded: arranged.welded,
    hiddenEdges: visible.hidden,
    unsawn: [...before.unsawn, ...after.unsawn],
  };
}

function* arrangeCurves(input: MapInput, { weld, tolerance, edgeLimit }: Required<MapOptions>) {
  const lines = yield* within(canonicalLines(input.curves, input.runs), 0, 0.02);
  const { curves, runs } = lines;
  const ranks = rankCurves(curves);
  const plain: (Chords | undefined)[] = [];
  let flat = yield* within(flattenRuns(curves, runs, tolerance, NO_RULES, plain), 0.02, 0.04);
  checkLineSet(flat.lines);
  yield* within(refuseManyCrossings(flat.lines, edgeLimit), 0.04, 0.05);
  yield 0.05;
  const scratch = scratchFor(flat.lines.coords.length / 2);
  const early = yield* within(earlyRules(curves, flat, weld, tolerance), 0.05, 0.1);
  let { rules } = early;
  for (let round = 1; ; round++) {
    const low = 0.1 + ROUND_SHARE * (round - 1);
    const part = <T>(steps: Generator<number, T>, from: number, to: number): Generator<number, T> =>
      within(steps, low + ROUND_SHARE * from, low + ROUND_SHARE * to);
    if (rules !== NO_RULES) flat = yield* part(flattenRuns(curves, runs, tolerance, rules, plain), 0, 0.2);
    scratch.reset();
    scratch.brief.reset();
    const grid = yield* part(weldLines(flat.lines, weld, scratch), 0.2, 0.4);
    scratch.brief.reset();
    const meetings = yield* part(snapRound(grid, scratch), 0.4, 0.6);
    scratch.brief.reset();
    // Nodes are made in the last round only, but where there may be too many of them. Chords of a curve are one piece.
    const vertices = flat.lines.coords.length / 2;
    const cuts = grid.x.length - vertices + meetings.segment.length;
    const many = meetings.copyOf !== null || curves.length + cuts > edgeLimit;
    const noded = many ? yield* part(nodeEdges(grid, meetings, scratch), 0.6, 0.8) : null;
    if (noded !== null) {
      const chords = vertices - (flat.lines.starts.length - 1);
      refuseManyEdges(noded.pieceSegment.length - chords + curves.length, edgeLimit);
    }
    const shared = round === 1 ? early.shared : null;
    const refining = refineRules(curves, ranks, flat, grid, meetings, rules, weld, shared);
    const refined = yield* part(refining, 0.8, 0.9);
    if (refined.rules === null || round === ROUNDS) {
      const edges = noded ?? (yield* part(nodeEdges(grid, meetings, scratch), 0.9, 1));
      const net = yield* within(netOf(curves, lines, edges, grid, flat), 0.94, 0.97);
      return {
        net,
        edges,
        ranks: drawnRanks(lines, ranks, input.curves.length),
        truePoints: findTruePoints(edges, grid, flat, rules.stops),
        welded: grid.welded,
        strays: refined.strays,
      };
    }
    rules = refined.rules;
  }
}

function* dropHidden(net: Net, noded: NodedEdges, input: MapInput, { hiddenLines }: Required<MapOptions>) {
  const { curves, hides, evenOdd } = input;
  const hiding = hiddenLines === 'drop' && hides.includes(true);
  if (!hiding && curves.every(({ cuts }) => cuts)) return { net, hidden: 0 };
  const shown = hiding ? hides : hides.map(() => false);
  const { clear, count } = clearEdges(net, curves, shown);
  // What is clear of all fills is left aside where that spares more than half of the work.
  const isPart = 2 * count > clear.length;
  const part = isPart ? yield* within(withoutEdges(net, clear), 0, 0.2) : net;
  const faced = yield* within(sideNet(part, isPart ? part : noded), 0.2, 0.5);
  const top = yield* within(hidingShapes(faced, curves, shown, evenOdd), 0.5, 0.8);
  const { drop, hidden } = yield* within(hiddenEdges(faced, curves, top, input.fillOnly), 0.8, 0.9);
  if (hidden === 0) return { net, hidden };
  return { net: yield* within(withoutEdges(net, isPart ? ofWhole(drop, clear) : drop), 0.9, 1), hidden };
}

/** Marks of the edges of a whole net, from those of its part without the edges that `left` marks. */
function ofWhole(part: Uint8Array, left: Uint8Array): Uint8Array {
  const whole = new Uint8Array(left.length);
  for (let e = 0, at = 0; e < left.length; e++) if (left[e] === 0) whole[e] = part[at++];
  return whole;
}

/** Leaves out what detail lines, and the connectors at their ends, would close off. */
function* dropDetails(net: Net, { curves, detail }: MapInput, healed: readonly Healing[]) {
  if (!detail.includes(true)) return { net, unsawn: [] };
  const faced = yield* within(faceNet(net), 0, 0.8);
  const { drop, unsawn } = detailEdges(faced, (c) => {
    const shape = curves[c]?.shape ?? healed[c - curves.length].shape;
    return detail[shape] ? shape : -1;
  });
  return { net: unsawn.length === 0 ? net : yield* within(withoutEdges(net, drop), 0.9, 1), unsawn };
}

function* heal(net: Net, curves: readonly MapCurve[], gap: number) {
  const { connectors, tree } = yield* within(findConnectors(net, gap), 0, 0.5);
  if (connectors.length === 0 || tree === null) return { net, tree, curves, healed: [] };
  const healed = connectors.map(({ fromX, fromY, toX, toY, edge }): Healing => {
    const source = net.curve[net.start[edge]];
    return {
      from: [fromGrid(fromX), fromGrid(fromY)],
      to: [fromGrid(toX), fromGrid(toY)],
      shape: curves[source].shape,
    };
  });
  const lines = healed.map(
    ({ from, to }): MapCurve => ({ curve: { kind: 'line', from, to }, shape: -1, cuts: true, covers: false }),
  );
  const joined = yield* within(addConnectors(net, connectors, curves, tree), 0.5, 1);
  return { net: joined.net, tree: joined.tree, curves: [...curves, ...lines], healed };
}

function* mergeSlivers(net: Net, tree: BoxTree | null, narrowest: number) {
  const faced = yield* within(faceNet(net, tree), 0, 0.4);
  if (!(narrowest > 0)) return { faced, slivers: [], kept: [] };
  const { slivers, kept, drop } = yield* within(findSlivers(faced, narrowest), 0.4, 0.6);
  if (slivers.length === 0) return { faced, slivers, kept };
  const rest = yield* within(withoutEdges(net, drop), 0.6, 0.7);
  return { faced: yield* within(faceNet(rest), 0.7, 1), slivers, kept };
}
