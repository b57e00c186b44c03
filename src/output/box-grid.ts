import type { Bounds } from '../geometry/point.js';

/** Whether two boxes share area. */
export function boxesMeet(a: Bounds, b: Bounds): boolean {
  return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
}

/** Things with boxes, sorted into square cells, to find those near a box while more are added and taken out. */
export class BoxGrid<T> {
  readonly #cells = new Map<string, Set<T>>();
  readonly #boxes = new Map<T, Bounds>();
  readonly #size: number;

  /** @param size side of a cell: about the size of a usual box. */
  constructor(size: number) {
    this.#size = size;
  }

  add(item: T, box: Bounds): void {
    this.#boxes.set(item, box);
    for (const key of this.#keys(box)) {
      const cell = this.#cells.get(key);
      if (cell === undefined) this.#cells.set(key, new Set([item]));
      else cell.add(item);
    }
  }

  remove(item: T): void {
    const box = this.#boxes.get(item);
    if (box === undefined) return;
    this.#boxes.delete(item);
    for (const key of this.#keys(box)) this.#cells.get(key)?.delete(item);
  }

  /** The things whose boxes share area with this one, each once. */
  near(box: Bounds): Set<T> {
    const met = new Set<T>();
    for (const key of this.#keys(box)) {
      for (const item of this.#cells.get(key) ?? []) {
        if (boxesMeet(box, this.#boxes.get(item)!)) met.add(item);
      }
    }
    return met;
  }

  #keys([x0, y0, x1, y1]: Bounds): string[] {
    const keys: string[] = [];
    const [a, b, c, d] = [x0, y0, x1, y1].map((value) => Math.floor(value / this.#size));
    for (let x = a; x <= c; x++) for (let y = b; y <= d; y++) keys.push(`${x},${y}`);
    return keys;
  }
}
