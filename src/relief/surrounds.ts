/** The neighbours of a region by index; the outside is `regionCount`. Repeats do no harm. */
export type NeighbourLists = readonly (readonly number[])[];

/**
 * For each region, the nearest single region that encloses it: one that every way from it to the outside,
 * across border of positive length, leads through. -1 where no single region encloses it.
 *
 * These are the cut vertices above a region in the block tree of the neighbour graph, rooted at the outside
 * (Hopcroft and Tarjan 1973). Linear time, no recursion. Regions that no way leads to get -1.
 */
export function findSurrounds(neighbours: NeighbourLists): Int32Array {
  const count = neighbours.length;
  const root = count - 1;
  /** Place in the depth-first walk, 0 for not visited. */
  const order = new Int32Array(count);
  /** The earliest place that the walk below a region reaches back to. */
  const low = new Int32Array(count);
  const parent = new Int32Array(count).fill(-1);
  const next = new Int32Array(count);
  const walk: number[] = [];
  const path = [root];
  order[root] = low[root] = 1;
  walk.push(root);
  while (path.length > 0) {
    const at = path[path.length - 1];
    const list = neighbours[at];
    if (next[at] < list.length) {
      const to = list[next[at]++];
      if (order[to] === 0) {
        order[to] = low[to] = walk.push(to);
        parent[to] = at;
        path.push(to);
      } else if (to !== parent[at]) {
        low[at] = Math.min(low[at], order[to]);
      }
    } else {
      path.pop();
      const above = parent[at];
      if (above >= 0) low[above] = Math.min(low[above], low[at]);
    }
  }
  const surround = new Int32Array(count).fill(-1);
  for (const at of walk) {
    const above = parent[at];
    if (above < 0 || above === root) continue;
    surround[at] = low[at] >= order[above] ? above : surround[above];
  }
  return surround.subarray(0, root);
}
