import type { LineSet } from './line-set.js';

/** Lines without repeated points, and the input vertex of each vertex left (null: nothing was repeated). */
export interface DistinctLines {
  readonly lines: LineSet;
  readonly origin: Int32Array | null;
}

/**
 * Takes out points that repeat the one before, and lines of no length: they draw nothing, and must not decide
 * anything. Of equal points the last is kept, where the next segment starts; it has a corner if one of them has.
 */
export function dropRepeats(given: LineSet): DistinctLines {
  const { coords, starts, corners } = given;
  const same = (v: number): boolean =>
    coords[2 * v] === coords[2 * v + 2] && coords[2 * v + 1] === coords[2 * v + 3];
  let repeats = false;
  for (let i = 0; i + 1 < starts.length && !repeats; i++) {
    const end = starts[i + 1] - 1;
    if (end === starts[i]) repeats = true;
    for (let v = starts[i]; v < end && !repeats; v++) repeats = same(v);
  }
  if (!repeats) return { lines: given, origin: null };
  const origin: number[] = [];
  const marked: number[] = [];
  const newStarts = [0];
  for (let i = 0; i + 1 < starts.length; i++) {
    const first = origin.length;
    let corner = 0;
    for (let v = starts[i]; v < starts[i + 1]; v++) {
      corner |= corners?.[v] ?? 0;
      if (v + 1 < starts[i + 1] && same(v)) continue;
      origin.push(v);
      marked.push(corner);
      corner = 0;
    }
    if (origin.length - first < 2) {
      origin.length = first;
      marked.length = first;
    } else newStarts.push(origin.length);
  }
  const kept = new Float64Array(2 * origin.length);
  origin.forEach((v, i) => {
    kept[2 * i] = coords[2 * v];
    kept[2 * i + 1] = coords[2 * v + 1];
  });
  const lines = { coords: kept, starts: Uint32Array.from(newStarts) };
  return {
    lines: corners === undefined ? lines : { ...lines, corners: Uint8Array.from(marked) },
    origin: Int32Array.from(origin),
  };
}
