import { OUTSIDE, type RegionMap } from '../plane/region-map.js';

/** Lines that hang together and bound nothing. */
export interface VeinTree {
  /** The region that they lie in, or OUTSIDE. */
  readonly region: number;
  readonly edges: readonly number[];
  /** Nodes at which a line just ends. */
  readonly ends: readonly number[];
  /** Nodes at which the tree meets a border. */
  readonly feet: readonly number[];
  /** Edges of borders that meet at the feet. */
  readonly footEdges: readonly number[];
  /** mm */
  readonly length: number;
}

/** All edges of kind `vein`, gathered to trees, in the order of their first edges. */
export function veinTrees(map: RegionMap): VeinTree[] {
  const degree = new Int32Array(map.nodes.length);
  const borders = new Uint8Array(map.nodes.length);
  for (const { from, to, kind } of map.edges) {
    degree[from]++;
    degree[to]++;
    if (kind !== 'vein') borders[from] = borders[to] = 1;
  }
  const veinsAt = new Map<number, number[]>();
  const bordersAt = new Map<number, number[]>();
  map.edges.forEach(({ from, to, kind }, edge) => {
    if (kind !== 'vein') return;
    for (const node of new Set([from, to])) {
      veinsAt.set(node, [...(veinsAt.get(node) ?? []), edge]);
      bordersAt.set(node, []);
    }
  });
  map.edges.forEach(({ from, to, kind }, edge) => {
    if (kind === 'vein') return;
    bordersAt.get(from)?.push(edge);
    bordersAt.get(to)?.push(edge);
  });
  const taken = new Set<number>();
  const trees: VeinTree[] = [];
  map.edges.forEach(({ kind, left }, first) => {
    if (kind !== 'vein' || taken.has(first)) return;
    const edges = gather(map, first, veinsAt, borders, taken);
    const nodes = [...new Set(edges.flatMap((edge) => [map.edges[edge].from, map.edges[edge].to]))];
    const feet = nodes.filter((node) => borders[node] === 1);
    trees.push({
      region: left < 0 ? OUTSIDE : left,
      edges,
      ends: nodes.filter((node) => degree[node] === 1),
      feet,
      footEdges: feet.flatMap((node) => bordersAt.get(node) ?? []),
      length: edges.reduce((sum, edge) => sum + map.edges[edge].length, 0),
    });
  });
  return trees;
}

/** The veins that hang together with `first` without passing a border. */
function gather(
  map: RegionMap,
  first: number,
  veinsAt: ReadonlyMap<number, readonly number[]>,
  borders: Uint8Array,
  taken: Set<number>,
): number[] {
  const edges = [first];
  taken.add(first);
  for (let k = 0; k < edges.length; k++) {
    const { from, to } = map.edges[edges[k]];
    for (const node of [from, to]) {
      if (borders[node] === 1) continue;
      for (const edge of veinsAt.get(node) ?? []) {
        if (taken.has(edge)) continue;
        taken.add(edge);
        edges.push(edge);
      }
    }
  }
  return edges;
}
