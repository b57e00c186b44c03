import type { Access } from './access.js';
import { someLineAt } from './line-graph.js';
import type { LineWalk } from './walk-lines.js';
import type { Reach } from './reach.js';

/**
 * A line that a later setting saws deeper is sawn twice when the blade goes in along it now, so it counts
 * three times its length.
 */
const SAWN_TWICE = 3;

/**
 * The shortest way for the blade from where it can be to one of the nodes `goals`, along lines that are sawn
 * anyway and at least as deep: a list of lines, walked from the reached end. Null where there is none.
 *
 * Dijkstra 1959, from the goals outwards, so that only what lies near is looked at.
 */
export function leadIn(access: Access, reach: Reach, goals: Iterable<number>): LineWalk | null {
  const { map, graph, needed } = access.stock;
  const cost = new Map<number, number>();
  const towards = new Map<number, number>();
  const done = new Set<number>();
  const queue = new NodeQueue();
  for (const node of goals) {
    cost.set(node, 0);
    queue.push(0, node);
  }
  for (let node = queue.pop(); node !== null; node = queue.pop()) {
    const at = node;
    if (reach.isReached(at)) return walkFrom(access, at, towards);
    if (done.has(at)) continue;
    done.add(at);
    someLineAt(graph, at, (edge) => {
      if (!access.along(edge)) return false;
      const { from, to, length } = map.edges[edge];
      const next = from === at ? to : from;
      const total = cost.get(at)! + length * (needed[edge] === access.held ? 1 : SAWN_TWICE);
      if (total < (cost.get(next) ?? Number.POSITIVE_INFINITY)) {
        cost.set(next, total);
        towards.set(next, edge);
        queue.push(total, next);
      }
      return false;
    });
  }
  return null;
}

function walkFrom({ stock: { map } }: Access, start: number, towards: ReadonlyMap<number, number>): LineWalk {
  const walk: { edge: number; forward: boolean }[] = [];
  let at = start;
  for (let edge = towards.get(at); edge !== undefined; edge = towards.get(at)) {
    const { from, to } = map.edges[edge];
    walk.push({ edge, forward: from === at });
    at = from === at ? to : from;
  }
  return walk;
}

/** Nodes by cost, the smaller number first among equals: a binary heap. */
class NodeQueue {
  readonly #items: (readonly [cost: number, node: number])[] = [];

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
