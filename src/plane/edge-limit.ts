import { PlystepError } from '../error.js';
import { mostCrossings } from './crossing-bound.js';
import { estimateCrossings } from './crossing-estimate.js';
import type { LineSet } from './line-set.js';

/** An estimate refuses only where it is this many times over the limit: the lines of a sample may be unlike the rest. */
const DOUBT = 4;

/**
 * Refuses lines that cross far too often, before they are arranged: that would take minutes, and all memory. Yields the
 * share of the work done.
 */
export function* refuseManyCrossings(lines: LineSet, limit: number): Generator<number, void> {
  const segments = lines.starts[lines.starts.length - 1] - (lines.starts.length - 1);
  if ((segments * segments) / 2 < limit) return;
  const most = yield* mostCrossings(lines);
  if (2 * most <= DOUBT * limit) return;
  // Each crossing cuts two segments once.
  const edges = 2 * estimateCrossings(lines);
  if (edges > DOUBT * limit) refuse(edges, limit);
}

/** Refuses more edges than the limit. */
export function refuseManyEdges(edges: number, limit: number): void {
  if (edges > limit) refuse(edges, limit);
}

function refuse(edges: number, limit: number): never {
  const about = Number(edges.toPrecision(2)).toLocaleString('en-US');
  throw new PlystepError(
    'limit',
    `The lines of the drawing cross so often that there are about ${about} pieces of line between crossings; the limit "edgeLimit" is ${limit}. If the drawing is meant to be so, map with a larger edgeLimit.`,
  );
}
