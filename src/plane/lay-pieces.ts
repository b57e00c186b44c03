import type { GridLines } from './grid-lines.js';
import type { Scratch } from './scratch.js';
import type { Meetings } from './snap-round.js';
import type { NumberedPoints } from './sort-points.js';
import { inBlocks } from './steps.js';

/** Meetings by segment, in the order along it: `list[start[k] … start[k + 1] - 1]`. */
export interface Route {
  readonly start: Int32Array;
  readonly list: Int32Array;
}

/** Pieces between nodes, in the order of the segments and along each. */
export interface Pieces {
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly segment: Int32Array;
  /** The first piece of each segment. */
  readonly start: Int32Array;
  /** How many pieces hang from each node: those whose other end comes after it. */
  readonly uppers: Int32Array;
  /** 1 for nodes that are the end of a piece. */
  readonly used: Uint8Array;
}

/** What pieces are laid along: segments, their meetings and the nodes of all of them. */
interface Course {
  readonly last: Uint8Array;
  readonly route: Route;
  /** Segments whose meetings stand for others; null if none does. */
  readonly copyOf: Int32Array | null;
  /** Nodes of the vertices, then of the meetings. */
  readonly node: Int32Array;
}

/** Lays the segments through their meetings. */
export function* layPieces(
  { last }: GridLines,
  { copyOf }: Meetings,
  route: Route,
  nodes: NumberedPoints,
  scratch: Scratch,
): Generator<number, Pieces> {
  const { brief } = scratch;
  const vertices = last.length;
  const most = vertices + route.list.length + (copyOf === null ? 0 : copiedMeetings(route, copyOf));
  const laid: Pieces = {
    from: brief.int32(most),
    to: brief.int32(most),
    segment: brief.int32(most),
    start: scratch.int32(vertices + 1),
    uppers: brief.int32(nodes.x.length),
    used: brief.uint8(nodes.x.length),
  };
  const course = { last, route, copyOf, node: nodes.number };
  let n = 0;
  yield* inBlocks(vertices - 1, (from, to) => {
    n = layBlock(course, laid, from, to, n);
  });
  laid.start.fill(n, Math.max(0, vertices - 1));
  return {
    from: laid.from.subarray(0, n),
    to: laid.to.subarray(0, n),
    segment: laid.segment.slice(0, n),
    start: laid.start,
    uppers: laid.uppers,
    used: laid.used,
  };
}

/** Meetings that segments get from others which stand for them. */
function copiedMeetings(route: Route, copyOf: Int32Array): number {
  let sum = 0;
  for (let k = 0; k < copyOf.length; k++)
    if (copyOf[k] !== k) sum += route.start[copyOf[k] + 1] - route.start[copyOf[k]];
  return sum;
}

/** Lays some segments; `count` pieces are known already. Returns how many are known then. */
function layBlock(
  { last, route, copyOf, node }: Course,
  { from, to, segment, start, uppers, used }: Pieces,
  firstSegment: number,
  beyond: number,
  count: number,
): number {
  const vertices = last.length;
  let n = count;
  for (let k = firstSegment; k < beyond; k++) {
    start[k] = n;
    if (last[k] === 1) continue;
    let u = node[k];
    const model = copyOf === null ? k : copyOf[k];
    const first = route.start[model];
    const end = route.start[model + 1];
    const backwards = model !== k && node[model] !== u;
    for (let i = first; i <= end; i++) {
      const v = i === end ? node[k + 1] : node[vertices + route.list[backwards ? first + end - 1 - i : i]];
      if (u === v) continue;
      from[n] = u;
      to[n] = v;
      segment[n++] = k;
      uppers[u < v ? u : v]++;
      used[u] = used[v] = 1;
      u = v;
    }
  }
  return n;
}

/** Nodes with an edge, and how many pieces hang from each. */
export interface KeptNodes {
  readonly nodeX: Int32Array;
  readonly nodeY: Int32Array;
  readonly uppers: Int32Array;
}

/**
 * Drops nodes without an edge (lines of no length); renumbers the ends of the pieces and the nodes of the first
 * `vertices` points in place: -1 for those dropped.
 */
export function dropUnused(
  { from, to, uppers, used }: Pieces,
  nodes: NumberedPoints,
  vertices: number,
): KeptNodes {
  if (used.indexOf(0) < 0) return { nodeX: nodes.x, nodeY: nodes.y, uppers };
  const number = new Int32Array(used.length);
  let n = 0;
  for (let v = 0; v < number.length; v++) number[v] = used[v] === 1 ? n++ : -1;
  const keep = (values: Int32Array): Int32Array => values.filter((_, v) => number[v] >= 0);
  for (let i = 0; i < from.length; i++) {
    from[i] = number[from[i]];
    to[i] = number[to[i]];
  }
  for (let v = 0; v < vertices; v++) nodes.number[v] = number[nodes.number[v]];
  return { nodeX: keep(nodes.x), nodeY: keep(nodes.y), uppers: keep(uppers) };
}
