import { type BoxTree, buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import { orientation } from '../geometry/crossing.js';
import { GRID_STEP, STEPS_PER_MM } from '../geometry/grid.js';
import { hypotenuse } from '../geometry/point.js';
import { addUp } from './add-up.js';
import { edgeTree } from './edge-tree.js';
import type { Net } from './net.js';
import { isTurnEnd, mapInTurns, within } from './steps.js';

/** A straight piece that closes a gap; grid steps. */
export interface Connector {
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
  /** Edge that the open end belongs to, and the edge met (that of the other open end, or of the line). */
  readonly edge: number;
  readonly target: number;
  /** mm */
  readonly length: number;
}

/** The connectors that a net needs, and a tree over its edges if one had to be made. */
export interface Gaps {
  readonly connectors: readonly Connector[];
  readonly tree: BoxTree | null;
}

/** An open end: a node with one edge. */
interface OpenEnd {
  readonly node: number;
  readonly edge: number;
}

/**
 * Joins open ends across gaps of up to `gap` mm: ends that are nearest to each other first, then each
 * remaining end to the nearest line. A connector never crosses a line or another connector; ties go to the
 * shorter connector, then to the one further up, then left. An end's own line counts only where it has been
 * further away than the gap in between. Yields the share of the work done.
 */
export function* findConnectors(net: Net, gap: number): Generator<number, Gaps> {
  if (!(gap > 0)) return { connectors: [], tree: null };
  const near = incidentEdges(net);
  const ends = openEnds(near);
  if (ends.length === 0) return { connectors: [], tree: null };
  const reach = gap * STEPS_PER_MM;
  yield 0.1;
  const tree = yield* within(edgeTree(net), 0.1, 0.3);
  yield 0.3;
  const made: Connector[] = [];
  const done = new Uint8Array(net.nodeX.length);
  const own = yield* within(
    mapInTurns(ends, (end) => ownStretch(net, end, reach, near)),
    0.3,
    0.5,
  );
  const pairs = mutualPairs(net, ends, own, reach);
  yield 0.6;
  const lines = yield* within(toLines(net, ends, own, reach, tree), 0.6, 0.9);
  const wanted = [...pairs, ...lines.filter((wish) => wish !== null)].sort(byRank);
  // Connectors by the cells, as large as the gap, that they lie in.
  const known = new Map<string, Connector[]>();
  for (const [i, { connector, nodes }] of wanted.entries()) {
    if (isTurnEnd(i)) yield 0.9;
    if (nodes.some((node) => done[node] === 1)) continue;
    if (crossesLine(net, tree, connector)) continue;
    const cells = cellsOf(connector, reach);
    if (cells.some((cell) => known.get(cell)?.some((other) => crossesConnector(connector, other)))) continue;
    for (const node of nodes) done[node] = 1;
    made.push(connector);
    for (const cell of cells) {
      const there = known.get(cell);
      if (there === undefined) known.set(cell, [connector]);
      else there.push(connector);
    }
  }
  return { connectors: made, tree };
}

/** The one to four cells of a side of `size` that a connector no longer than that may lie in. */
function cellsOf({ fromX, fromY, toX, toY }: Connector, size: number): string[] {
  const columns = new Set([Math.floor(fromX / size), Math.floor(toX / size)]);
  const rows = new Set([Math.floor(fromY / size), Math.floor(toY / size)]);
  return [...columns].flatMap((column) => [...rows].map((row) => `${column} ${row}`));
}

interface Wish {
  readonly rank: number;
  readonly connector: Connector;
  readonly nodes: readonly number[];
}

function byRank(a: Wish, b: Wish): number {
  return (
    a.rank - b.rank ||
    a.connector.length - b.connector.length ||
    a.connector.fromY - b.connector.fromY ||
    a.connector.fromX - b.connector.fromX
  );
}

/** The open ends, by node. */
function openEnds({ start, edge }: Incidence): OpenEnd[] {
  const ends: OpenEnd[] = [];
  for (let node = 0; node + 1 < start.length; node++)
    if (start[node + 1] - start[node] === 1) ends.push({ node, edge: edge[start[node]] });
  return ends;
}

function connect(net: Net, end: OpenEnd, x: number, y: number, target: number): Connector {
  const fromX = net.nodeX[end.node];
  const fromY = net.nodeY[end.node];
  return {
    fromX,
    fromY,
    toX: x,
    toY: y,
    edge: end.edge,
    target,
    length: hypotenuse(x - fromX, y - fromY) * GRID_STEP,
  };
}

/** Pairs of ends that are nearest to each other. */
function mutualPairs(
  net: Net,
  ends: readonly OpenEnd[],
  own: readonly ReadonlySet<number>[],
  reach: number,
): Wish[] {
  const boxes = new Float64Array(4 * ends.length);
  ends.forEach(({ node }, i) => {
    boxes.set([net.nodeX[node], net.nodeY[node], net.nodeX[node], net.nodeY[node]], 4 * i);
  });
  const tree = buildBoxTree(boxes);
  const nearest = ends.map(({ node }, i) => {
    const x = net.nodeX[node];
    const y = net.nodeY[node];
    let best = -1;
    let bestSquare = reach * reach;
    searchBoxes(tree, x - reach, y - reach, x + reach, y + reach, (j) => {
      // The other end of a line shorter than the gap is no partner: it would close the line on itself.
      if (j === i || own[i].has(ends[j].edge)) return false;
      const square = (net.nodeX[ends[j].node] - x) ** 2 + (net.nodeY[ends[j].node] - y) ** 2;
      if (square < bestSquare || (square === bestSquare && (best < 0 || j < best))) {
        best = j;
        bestSquare = square;
      }
      return false;
    });
    return best;
  });
  const wishes: Wish[] = [];
  nearest.forEach((j, i) => {
    if (j <= i || nearest[j] !== i) return;
    const { node, edge } = ends[j];
    const connector = connect(net, ends[i], net.nodeX[node], net.nodeY[node], edge);
    wishes.push({ rank: 0, connector, nodes: [ends[i].node, node] });
  });
  return wishes;
}

/** For each end the nearest place on a line that is not the end's own neighbourhood. */
function toLines(
  net: Net,
  ends: readonly OpenEnd[],
  own: readonly ReadonlySet<number>[],
  reach: number,
  tree: BoxTree,
): Generator<number, (Wish | null)[]> {
  return mapInTurns(ends, (end, i): Wish | null => {
    const px = net.nodeX[end.node];
    const py = net.nodeY[end.node];
    let best = NOWHERE;
    searchBoxes(tree, px - reach, py - reach, px + reach, py + reach, (e) => {
      if (own[i].has(e)) return false;
      const foot = footOn(net, e, px, py);
      if (foot.square > reach * reach) return false;
      const nearer =
        foot.square < best.square ||
        (foot.square === best.square && (foot.y < best.y || (foot.y === best.y && foot.x < best.x)));
      if (nearer) best = foot;
      return false;
    });
    const { x, y, edge } = best;
    if (edge < 0) return null;
    const connector = connect(net, end, Math.floor(x + 0.5), Math.floor(y + 0.5), edge);
    return connector.length > 0 ? { rank: 1, connector, nodes: [end.node] } : null;
  });
}

/** A place on an edge and the square of its distance from an open end. */
interface Foot {
  readonly x: number;
  readonly y: number;
  readonly square: number;
  readonly edge: number;
}

const NOWHERE: Foot = { x: 0, y: 0, square: Number.POSITIVE_INFINITY, edge: -1 };

function footOn({ nodeX, nodeY, edgeFrom, edgeTo }: Net, e: number, px: number, py: number): Foot {
  const ax = nodeX[edgeFrom[e]];
  const ay = nodeY[edgeFrom[e]];
  const dx = nodeX[edgeTo[e]] - ax;
  const dy = nodeY[edgeTo[e]] - ay;
  const t = Math.min(1, Math.max(0, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)));
  const x = ax + t * dx;
  const y = ay + t * dy;
  return { x, y, square: (px - x) ** 2 + (py - y) ** 2, edge: e };
}

/** The edges that are reached from an open end without going further away from it than `reach`. */
function ownStretch(net: Net, end: OpenEnd, reach: number, incident: Incidence): Set<number> {
  const own = new Set([end.edge]);
  const queue = [end.edge];
  const px = net.nodeX[end.node];
  const py = net.nodeY[end.node];
  for (let e = queue.pop(); e !== undefined; e = queue.pop()) {
    for (const node of [net.edgeFrom[e], net.edgeTo[e]]) {
      if ((net.nodeX[node] - px) ** 2 + (net.nodeY[node] - py) ** 2 > reach * reach) continue;
      for (let i = incident.start[node]; i < incident.start[node + 1]; i++) {
        const next = incident.edge[i];
        if (own.has(next)) continue;
        own.add(next);
        queue.push(next);
      }
    }
  }
  return own;
}

/** Edges at each node: `edge[start[v] … start[v + 1] - 1]`. */
interface Incidence {
  readonly start: Int32Array;
  readonly edge: Int32Array;
}

function incidentEdges({ nodeX, edgeFrom, edgeTo }: Net): Incidence {
  const start = new Int32Array(nodeX.length + 1);
  for (let e = 0; e < edgeFrom.length; e++) {
    start[edgeFrom[e]]++;
    start[edgeTo[e]]++;
  }
  addUp(start);
  const edge = new Int32Array(2 * edgeFrom.length);
  for (let e = edgeFrom.length - 1; e >= 0; e--) {
    edge[--start[edgeFrom[e]]] = e;
    edge[--start[edgeTo[e]]] = e;
  }
  return { start, edge };
}

function crossesLine(net: Net, tree: BoxTree, c: Connector): boolean {
  let crosses = false;
  const { nodeX, nodeY, edgeFrom, edgeTo } = net;
  const box = [
    Math.min(c.fromX, c.toX),
    Math.min(c.fromY, c.toY),
    Math.max(c.fromX, c.toX),
    Math.max(c.fromY, c.toY),
  ];
  searchBoxes(tree, box[0], box[1], box[2], box[3], (e) => {
    if (e === c.target) return false;
    const u = edgeFrom[e];
    const v = edgeTo[e];
    crosses = crossesProperly(c, nodeX[u], nodeY[u], nodeX[v], nodeY[v]);
    return crosses;
  });
  return crosses;
}

function crossesConnector(c: Connector, d: Connector): boolean {
  return crossesProperly(c, d.fromX, d.fromY, d.toX, d.toY);
}

function crossesProperly(c: Connector, ax: number, ay: number, bx: number, by: number): boolean {
  const o1 = orientation(c.fromX, c.fromY, c.toX, c.toY, ax, ay);
  const o2 = orientation(c.fromX, c.fromY, c.toX, c.toY, bx, by);
  const o3 = orientation(ax, ay, bx, by, c.fromX, c.fromY);
  const o4 = orientation(ax, ay, bx, by, c.toX, c.toY);
  return Math.sign(o1) * Math.sign(o2) < 0 && Math.sign(o3) * Math.sign(o4) < 0;
}
