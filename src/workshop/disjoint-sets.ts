/** Disjoint sets over 0 … n − 1, by union with path halving (Tarjan and van Leeuwen 1984). */
export class DisjointSets {
  readonly #parent: Int32Array;

  constructor(n: number) {
    this.#parent = Int32Array.from({ length: n }, (_, i) => i);
  }

  /** The set that `i` is in, named by its smallest member. */
  find(i: number): number {
    const parent = this.#parent;
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }

  /** Makes the sets of `a` and `b` one. */
  join(a: number, b: number): void {
    const [x, y] = [this.find(a), this.find(b)];
    if (x < y) this.#parent[y] = x;
    else this.#parent[x] = y;
  }
}
