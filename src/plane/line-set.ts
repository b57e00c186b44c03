import { demandList, demandMembers } from '../arguments.js';
import { PlystepError } from '../error.js';
import { MAX_STEPS, STEPS_PER_MM } from '../geometry/grid.js';

/** Polylines, packed. */
export interface LineSet {
  /** x, y of every vertex, mm, stride 2, in line order. */
  readonly coords: Float64Array;
  /** Vertex index where line i starts; one more entry than lines, the last is the number of vertices. */
  readonly starts: Uint32Array;
  /**
   * 1 for each vertex where the line has a corner, 0 where it is smooth (a chord point of a curve). Without
   * it, vertices that turn by more than CORNER_DEGREES are corners. Ends of open lines always count.
   */
  readonly corners?: Uint8Array;
}

/** A polyline that turns by more than this at a vertex has a corner there (where the caller does not say). */
export const CORNER_DEGREES = 5;

/** Packs polylines given as arrays of points. */
export function packLines(lines: readonly (readonly (readonly [number, number])[])[]): LineSet {
  demandList(lines, 'packLines', 'lines');
  for (const line of lines) demandList(line, 'packLines', 'each line');
  const starts = new Uint32Array(lines.length + 1);
  for (let i = 0; i < lines.length; i++) starts[i + 1] = starts[i] + lines[i].length;
  const coords = new Float64Array(starts[lines.length] * 2);
  let at = 0;
  for (const line of lines) {
    for (const point of line) {
      if (!Array.isArray(point)) demandList(point, 'packLines', 'each point');
      coords[at++] = point[0];
      coords[at++] = point[1];
    }
  }
  return { coords, starts };
}

/**
 * Throws PlystepError 'bad-option' for a malformed line set or a coordinate that is not finite, 'limit' for
 * one that lies beyond ±16 m (with weld and rounding to spare).
 */
export function checkLineSet(lines: LineSet): void {
  demandMembers(lines, ['coords', 'starts'], 'arrangeLines', 'a line set (from packLines)');
  const { coords, starts, corners } = lines;
  const vertices = coords.length / 2;
  if (starts.length === 0 || starts[0] !== 0 || starts[starts.length - 1] !== vertices)
    throw new PlystepError('bad-option', 'line set: starts must run from 0 to the number of vertices');
  for (let i = 1; i < starts.length; i++) {
    if (starts[i] < starts[i - 1])
      throw new PlystepError('bad-option', `line set: starts must not fall (entry ${i})`);
  }
  if (corners !== undefined && corners.length !== vertices)
    throw new PlystepError('bad-option', 'line set: corners must have one entry a vertex');
  const largest = (MAX_STEPS - 1) / STEPS_PER_MM;
  for (let i = 0; i < coords.length; i++) {
    const c = coords[i];
    if (c <= largest && c >= -largest) continue;
    const vertex = i >> 1;
    if (!Number.isFinite(c))
      throw new PlystepError('bad-option', `line set: vertex ${vertex} has a coordinate that is not finite`);
    throw new PlystepError(
      'limit',
      `line set: vertex ${vertex} has the coordinate ${c} mm; the map reaches from −${largest} to ${largest} mm`,
    );
  }
}
