import type { Bounds } from '../geometry/point.js';

/** Boxes sorted into square cells, to count overlaps while more are added. */
export class BoxGrid {
  readonly #cells = new Map<string, Bounds[]>();
  readonly #size: number;

  /** @param size side of a cell: about the size of a usual box. */
  constructor(size: number, boxes: readonly Bounds[]) {
    this.#size = size;
    for (const box of boxes) this.add(box);
  }

  add(box: Bounds): void {
    for (const key of this.#keys(box)) {
      const cell = this.#cells.get(key);
      if (cell === undefined) this.#cells.set(key, [box]);
      else cell.push(box);
    }
  }

  /** How many boxes share area with this one. */
  overlap(box: Bounds): number {
    const met = new Set<Bounds>();
    for (const key of this.#keys(box)) {
      for (const other of this.#cells.get(key) ?? []) {
        if (box[0] < other[2] && other[0] < box[2] && box[1] < other[3] && other[1] < box[3]) met.add(other);
      }
    }
    return met.size;
  }

  #keys(box: Bounds): string[] {
    const [x0, y0, x1, y1] = box.map((value) => Math.floor(value / this.#size));
    const keys: string[] = [];
    for (let x = x0; x <= x1; x++) for (let y = y0; y <= y1; y++) keys.push(`${x},${y}`);
    return keys;
  }
}
