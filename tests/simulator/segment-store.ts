import type { XY } from './flat-path.js';

/** Cells of the grid that segments are stored in, mm. */
const CELL = 2;

/** Segments with a tag each, to be found by place. */
export class SegmentStore {
  readonly #cells = new Map<string, { a: XY; b: XY; tag: number }[]>();

  add(run: readonly XY[], tag: number): void {
    for (let i = 1; i < run.length; i++) {
      const [a, b] = [run[i - 1], run[i]];
      for (const key of cellsOf(a, b, 0)) {
        const list = this.#cells.get(key);
        if (list === undefined) this.#cells.set(key, [{ a, b, tag }]);
        else list.push({ a, b, tag });
      }
    }
  }

  /** Tags of the segments within `reach` of a point. */
  near(at: XY, reach: number): Set<number> {
    const tags = new Set<number>();
    for (const key of cellsOf(at, at, reach)) {
      for (const { a, b, tag } of this.#cells.get(key) ?? []) {
        if (!tags.has(tag) && segmentDistance(at, a, b) <= reach) tags.add(tag);
      }
    }
    return tags;
  }

  /** The distance to the nearest segment, looked for within `reach`. */
  distance(at: XY, reach: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (const key of cellsOf(at, at, reach)) {
      for (const { a, b } of this.#cells.get(key) ?? []) least = Math.min(least, segmentDistance(at, a, b));
    }
    return least;
  }
}

function* cellsOf(a: XY, b: XY, reach: number): Generator<string> {
  const x0 = Math.floor((Math.min(a[0], b[0]) - reach) / CELL);
  const x1 = Math.floor((Math.max(a[0], b[0]) + reach) / CELL);
  const y0 = Math.floor((Math.min(a[1], b[1]) - reach) / CELL);
  const y1 = Math.floor((Math.max(a[1], b[1]) + reach) / CELL);
  for (let i = x0; i <= x1; i++) for (let j = y0; j <= y1; j++) yield `${i} ${j}`;
}

export function segmentDistance(p: XY, a: XY, b: XY): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}
