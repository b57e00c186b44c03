import type { Bounds } from '../geometry/point.js';

/** Whether two boxes share area. */
export function boxesMeet(a: Bounds, b: Bounds): boolean {
  return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
}

/** Cells to a side of the plane of cell keys: more than any picture has, and its square fits a double. */
const ROW = 2 ** 26;

/** What an empty cell holds. */
const NONE: readonly never[] = [];

interface Item<T> {
  readonly item: T;
  readonly box: Bounds;
}

/** Things with boxes, sorted into square cells, to find those near a box while more are added and taken out. */
export class BoxGrid<T> {
  readonly #cells = new Map<number, Set<Item<T>>>();
  readonly #items = new Map<T, Item<T>>();
  readonly #size: number;

  /** @param size side of a cell: about the size of a usual box. */
  constructor(size: number) {
    this.#size = size;
  }

  add(item: T, box: Bounds): void {
    const entry = { item, box };
    this.#items.set(item, entry);
    const [x0, y0, x1, y1] = this.#cellsOf(box);
    for (let x = x0; x <= x1; x++) {
      for (let y = y0; y <= y1; y++) {
        const cell = this.#cells.get(x * ROW + y);
        if (cell === undefined) this.#cells.set(x * ROW + y, new Set([entry]));
        else cell.add(entry);
      }
    }
  }

  remove(item: T): void {
    const entry = this.#items.get(item);
    if (entry === undefined) return;
    this.#items.delete(item);
    const [x0, y0, x1, y1] = this.#cellsOf(entry.box);
    for (let x = x0; x <= x1; x++) {
      for (let y = y0; y <= y1; y++) this.#cells.get(x * ROW + y)?.delete(entry);
    }
  }

  /** Calls `visit` with each thing whose box shares area with this one, once, until it returns false. */
  visit(box: Bounds, visit: (item: T) => boolean): void {
    const [x0, y0, x1, y1] = this.#cellsOf(box);
    for (let x = x0; x <= x1; x++) {
      for (let y = y0; y <= y1; y++) {
        const cell = this.#cells.get(x * ROW + y);
        if (cell === undefined) continue;
        for (const { item, box: other } of cell) {
          // A pair of boxes is met in the first cell that both lie in, and only there.
          if (!boxesMeet(box, other) || !this.#isFirst(x, box[0], other[0])) continue;
          if (this.#isFirst(y, box[1], other[1]) && !visit(item)) return;
        }
      }
    }
  }

  /** Whether any thing's box shares area with this one. */
  meets(box: Bounds): boolean {
    const [x0, y0, x1, y1] = this.#cellsOf(box);
    for (let x = x0; x <= x1; x++) {
      for (let y = y0; y <= y1; y++) {
        for (const { box: other } of this.#cells.get(x * ROW + y) ?? NONE)
          if (boxesMeet(box, other)) return true;
      }
    }
    return false;
  }

  #isFirst(cell: number, a: number, b: number): boolean {
    return cell === Math.floor(Math.max(a, b) / this.#size);
  }

  #cellsOf([x0, y0, x1, y1]: Bounds): Bounds {
    const size = this.#size;
    return [Math.floor(x0 / size), Math.floor(y0 / size), Math.floor(x1 / size), Math.floor(y1 / size)];
  }
}
