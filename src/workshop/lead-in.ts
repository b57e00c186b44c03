import { type Access, linesAround, type Place, placesBeside } from './access.js';
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
 * goes along kerfs, and where no lines lead there, through waste that it can't get to yet. Null where there is no way.
 *
 * Dijkstra 1959, from the goals outwards, so that only what lies near is looked at.
 */
export function leadIn(access: Access, reach: Reach, goals: Iterable<number>): LineWalk | null {
  const nodes = [...goals];
  return search(access, reach, nodes, false) ?? search(access, reach, nodes, true);
}

/** What the blade goes along from a node towards the goals: a line, or waste; then it is at `next`. */
interface Leg {
  /** -1: through waste. */
  readonly edge: number;
  readonly next: number;
}

function search(
  access: Access,
  reach: Reach,
  goals: readonly number[],
  throughWaste: boolean,
): LineWalk | null {
  const { map, graph } = access.stock;
  const cost = new Map<number, number>();
  const towards = new Map<number, Leg>();
  const done = new Set<number>();
  const crossed = new Set<Place>();
  const queue = new NodeQueue();
  for (const node of goals) {
    cost.set(node, 0);
    queue.push(0, node);
  }
  const offer = (node: number, total: number, leg: Leg): void => {
    if (total >= (cost.get(node) ?? Number.POSITIVE_INFINITY)) return;
    cost.set(node, total);
    towards.set(node, leg);
    queue.push(total, node);
  };
  for (let node = queue.pop(); node !== null; node = queue.pop()) {
    const at = node;
    if (reach.isReached(at)) return walkFrom(access, at, towards);
    if (done.has(at)) continue;
    done.add(at);
    const own = cost.get(at)!;
    someLineAt(graph, at, (edge) => {
      const { from, to, length } = map.edges[edge];
      if (throughWaste) {
        placesBeside(access, edge, (place) => {
          if (crossed.has(place)) return;
          crossed.add(place);
          for (const line of linesAround(access, place)) {
            for (const end of [map.edges[line].from, map.edges[line].to])
              offer(end, own, { edge: -1, next: at });
          }
        });
      }
      if (access.along(edge)) {
        offer(from === at ? to : from, own + length * weightOf(access, edge), { edge, next: at });
      }
      return false;
    });
  }
  return null;
}

function walkFrom({ stock, held }: Access, start: number, towards: ReadonlyMap<number, Leg>): LineWalk {
  const walk: { edge: number; forward: boolean }[] = [];
  let at = start;
  for (let leg = towards.get(at); leg !== undefined; leg = towards.get(at)) {
    const { edge, next } = leg;
    if (edge >= 0 && !isKerf(stock, edge, held))
      walk.push({ edge, forward: stock.map.edges[edge].from === at });
    at = next;
  }
  return walk;
}
