import type { Access } from './access.js';
import { someLineAt } from './line-graph.js';
import { NodeQueue } from './node-queue.js';
import type { Reach } from './reach.js';
import { isKerf } from './standing-stock.js';
import type { LineWalk } from './walk-lines.js';

/**
 * A line that a later setting saws deeper is sawn twice when the blade goes in along it now, so it counts
 * three times its length.
 */
const SAWN_TWICE = 3;

/** Along a kerf the blade just goes; of equal ways the shorter one counts. */
const ALONG_KERF = 1e-6;

function weightOf({ stock, held }: Access, edge: number): number {
  if (isKerf(stock, edge, held)) return ALONG_KERF;
  return stock.needed[edge] === held ? 1 : SAWN_TWICE;
}

/**
 * The shortest way for the blade from where it can be to one of the nodes `goals`, along lines that are sawn
 * anyway and at least as deep: the lines to be sawn for it, walked from the reached end; between them the blade
 * goes along kerfs. Null where there is no way.
 *
 * Dijkstra 1959, from the goals outwards, so that only what lies near is looked at.
 */
export function leadIn(access: Access, reach: Reach, goals: Iterable<number>): LineWalk | null {
  const { map, graph } = access.stock;
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
      const total = cost.get(at)! + length * weightOf(access, edge);
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

function walkFrom({ stock, held }: Access, start: number, towards: ReadonlyMap<number, number>): LineWalk {
  const walk: { edge: number; forward: boolean }[] = [];
  let at = start;
  for (let edge = towards.get(at); edge !== undefined; edge = towards.get(at)) {
    const { from, to } = stock.map.edges[edge];
    if (!isKerf(stock, edge, held)) walk.push({ edge, forward: from === at });
    at = from === at ? to : from;
  }
  return walk;
}
