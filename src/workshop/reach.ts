import { type Access, linesAround, type Place, placesBeside } from './access.js';
import { someLineAt } from './line-graph.js';
import { isKerf } from './standing-stock.js';

/** Where the blade can get to in a block at a moment of a setting, by kerfs and through waste and open places. */
export interface Reach {
  readonly isReached: (node: number) => boolean;
  /** The blade has been put into this place, or comes in from the edge. */
  enterPlace(place: Place): void;
  /** The blade stands in the line at this node. */
  enterNode(node: number): void;
  /** A region has become open: from now on the blade passes through it. */
  opened(region: number): void;
}

/** A reach that holds nothing yet. Each node and place is entered once, so all calls together are linear. */
export function emptyReach(access: Access): Reach {
  const { stock, held, block } = access;
  const { map, graph } = stock;
  const reached = new Set<number>();
  const entered = new Set<Place>();
  const pending: number[] = [];

  const reachNode = (node: number): void => {
    if (reached.has(node)) return;
    reached.add(node);
    pending.push(node);
  };
  const reachPlace = (place: Place): void => {
    if (entered.has(place)) return;
    entered.add(place);
    for (const edge of linesAround(access, place)) {
      reachNode(map.edges[edge].from);
      reachNode(map.edges[edge].to);
    }
  };
  const spread = (): void => {
    for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
      const at = node;
      someLineAt(graph, at, (edge) => {
        if (!block.hasLine(edge)) return false;
        const { from, to } = map.edges[edge];
        if (isKerf(stock, edge, held)) reachNode(from === at ? to : from);
        placesBeside(access, edge, reachPlace);
        return false;
      });
    }
  };
  return {
    isReached: (node) => reached.has(node),
    enterPlace(place) {
      reachPlace(place);
      spread();
    },
    enterNode(node) {
      // The lines at a node change as they are sawn, so a node that was reached before is looked at again.
      reached.add(node);
      pending.push(node);
      spread();
    },
    opened(region) {
      const lines = linesAround(access, region);
      if (!lines.some((e) => reached.has(map.edges[e].from) || reached.has(map.edges[e].to))) return;
      reachPlace(region);
      spread();
    },
  };
}
