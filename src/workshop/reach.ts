import { OUTSIDE } from '../plane/region-map.js';
import type { Access } from './access.js';
import { someLineAt } from './line-graph.js';
import { isKerf } from './standing-stock.js';

/** Where the blade can get to at a moment of a setting, by kerfs and through waste and open places. */
export interface Reach {
  readonly isReached: (node: number) => boolean;
  /** The blade has been put into this region (OUTSIDE: it comes in from the edge). */
  enterRegion(region: number): void;
  /** The blade stands in the line at this node. */
  enterNode(node: number): void;
  /** A region has become open: from now on the blade passes through it. */
  opened(region: number): void;
}

/** A reach that holds nothing yet. Each node and region is entered once, so all calls together are linear. */
export function emptyReach(access: Access): Reach {
  const { stock, held } = access;
  const { map, graph } = stock;
  const reachedNodes = new Uint8Array(map.nodes.length);
  const entered = new Uint8Array(map.regions.length + 1);
  const slotOf = (region: number): number => (region === OUTSIDE ? map.regions.length : region);
  const pending: number[] = [];

  const reachNode = (node: number): void => {
    if (reachedNodes[node] === 1) return;
    reachedNodes[node] = 1;
    pending.push(node);
  };
  const reachRegion = (region: number): void => {
    if (entered[slotOf(region)] === 1) return;
    entered[slotOf(region)] = 1;
    for (const edge of linesAround(access, region)) {
      reachNode(map.edges[edge].from);
      reachNode(map.edges[edge].to);
    }
  };
  const spread = (): void => {
    for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
      const at = node;
      someLineAt(graph, at, (edge) => {
        const { from, to, left, right } = map.edges[edge];
        if (isKerf(stock, edge, held)) reachNode(from === at ? to : from);
        if (access.passable(left)) reachRegion(left);
        if (access.passable(right)) reachRegion(right);
        return false;
      });
    }
  };
  return {
    isReached: (node) => reachedNodes[node] === 1,
    enterRegion(region) {
      reachRegion(region);
      spread();
    },
    enterNode(node) {
      // The lines at a node change as they are sawn, so a node that was reached before is looked at again.
      reachedNodes[node] = 1;
      pending.push(node);
      spread();
    },
    opened(region) {
      const lines = linesAround(access, region);
      const reached = lines.some((e) => reachedNodes[map.edges[e].from] || reachedNodes[map.edges[e].to]);
      if (!reached) return;
      reachRegion(region);
      spread();
    },
  };
}

/** The lines on the border of a region and the veins in it; for OUTSIDE, the lines that border on it. */
function linesAround({ stock }: Access, region: number): readonly number[] {
  if (region === OUTSIDE) return stock.outsideLines;
  const { loops, veins } = stock.map.regions[region];
  return [...loops.flatMap((loop) => loop.map((step) => step.edge)), ...veins];
}
