import type { FacedNet } from './net.js';
import type { LoopStep } from './region-map.js';
import { inBlocks } from './steps.js';
import type { TracedEdges } from './trace-edges.js';

/**
 * The closed walks around each face, in map edges, veins and connectors left out (a connector between an
 * outline and a hole gives two loops). Entry f of the result is face f's list, in no order. Yields the
 * share of the work done.
 */
export function* traceLoops(faced: FacedNet, traced: TracedEdges): Generator<number, LoopStep[][][]> {
  const loops: LoopStep[][][] = Array.from({ length: faced.faceCount }, () => []);
  const seen = new Uint8Array(2 * faced.net.edgeFrom.length);
  yield* inBlocks(seen.length, (from, to) => traceSome(faced, traced, loops, seen, from, to));
  return loops;
}

/** Traces the walks that begin at some half-edges. */
function traceSome(
  faced: FacedNet,
  traced: TracedEdges,
  loops: LoopStep[][][],
  seen: Uint8Array,
  from: number,
  to: number,
): void {
  const { half, left, right } = faced;
  for (let i = from; i < to; i++) {
    const first = half.out[i];
    const e = first >> 1;
    const face = (first & 1) === 0 ? left[e] : right[e];
    if (face >= 0 && seen[first] === 0 && left[e] !== right[e])
      loops[face].push(closeLoop(walkFrom(faced, traced, first, seen)));
  }
}

function walkFrom(
  { half, left, right }: FacedNet,
  traced: TracedEdges,
  first: number,
  seen: Uint8Array,
): LoopStep[] {
  const loop: LoopStep[] = [];
  let lastEdge = -1;
  let lastForward = false;
  let h = first;
  do {
    seen[h] = 1;
    const edge = traced.edgeOf[h >> 1];
    const forward = (traced.along[h >> 1] === 1) === ((h & 1) === 0);
    if (edge !== lastEdge || forward !== lastForward) loop.push({ edge, forward });
    lastEdge = edge;
    lastForward = forward;
    h = half.next[h];
    // Past a vein or connector: the next one around the same node.
    while (left[h >> 1] === right[h >> 1]) h = half.next[h ^ 1];
  } while (h !== first);
  return loop;
}

/** A walk that began in the middle of an edge has that edge at both ends of its list. */
function closeLoop(loop: LoopStep[]): LoopStep[] {
  const first = loop[0];
  const last = loop[loop.length - 1];
  const same = loop.length > 1 && first.edge === last.edge && first.forward === last.forward;
  return same ? loop.slice(0, -1) : loop;
}
