import type { FacedNet } from './net.js';
import type { LoopStep } from './region-map.js';
import type { TracedEdges } from './trace-edges.js';

/**
 * The closed walks around each face, in map edges, veins and connectors left out (a connector between an
 * outline and a hole gives two loops). Entry f of the result is face f's list, in no order.
 */
export function traceLoops(faced: FacedNet, traced: TracedEdges): LoopStep[][][] {
  const { net, half, left, right, faceCount } = faced;
  const loops: LoopStep[][][] = Array.from({ length: faceCount }, () => []);
  const seen = new Uint8Array(2 * net.edgeFrom.length);
  const isBorder = (h: number): boolean => left[h >> 1] !== right[h >> 1];
  for (const first of half.out) {
    const face = (first & 1) === 0 ? left[first >> 1] : right[first >> 1];
    if (face < 0 || seen[first] === 1 || !isBorder(first)) continue;
    const loop: LoopStep[] = [];
    let h = first;
    do {
      seen[h] = 1;
      const edge = traced.edgeOf[h >> 1];
      const forward = (traced.along[h >> 1] === 1) === ((h & 1) === 0);
      const before = loop[loop.length - 1];
      if (before === undefined || before.edge !== edge || before.forward !== forward)
        loop.push({ edge, forward });
      h = half.next[h];
      // Past a vein or connector: the next one around the same node.
      while (!isBorder(h)) h = half.next[h ^ 1];
    } while (h !== first);
    loops[face].push(closeLoop(loop));
  }
  return loops;
}

/** A walk that began in the middle of an edge has that edge at both ends of its list. */
function closeLoop(loop: LoopStep[]): LoopStep[] {
  const first = loop[0];
  const last = loop[loop.length - 1];
  const same = loop.length > 1 && first.edge === last.edge && first.forward === last.forward;
  return same ? loop.slice(0, -1) : loop;
}
