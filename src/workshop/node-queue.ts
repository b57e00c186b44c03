/** Nodes by cost, the smaller number first among equals: a binary heap. */
export class NodeQueue {
  readonly #items: (readonly [cost: number, node: number])[] = [];

  /** A node may be pushed again with another cost: it then comes out once for each. */
  push(cost: number, node: number): void {
    const items = this.#items;
    let i = items.length;
    items.push([cost, node]);
    while (i > 0) {
      const parent = (i - 1) >> 1;
      if (!before(items[i], items[parent])) break;
      [items[i], items[parent]] = [items[parent], items[i]];
      i = parent;
    }
  }

  /** The node with the least cost, or null when the queue is empty. */
  pop(): number | null {
    const items = this.#items;
    if (items.length === 0) return null;
    const [, node] = items[0];
    const last = items.pop()!;
    if (items.length > 0) {
      items[0] = last;
      this.#sink();
    }
    return node;
  }

  #sink(): void {
    const items = this.#items;
    for (let i = 0; ; ) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2]) {
        if (child < items.length && before(items[child], items[least])) least = child;
      }
      if (least === i) return;
      [items[i], items[least]] = [items[least], items[i]];
      i = least;
    }
  }
}

function before(a: readonly [number, number], b: readonly [number, number]): boolean {
  return a[0] !== b[0] ? a[0] < b[0] : a[1] < b[1];
}
