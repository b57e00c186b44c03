import { type Bounds, EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { DepthMark } from './depth-mark.js';
import type { Cluster } from './relief.js';
import type { NeighbourLists } from './surrounds.js';

/**
 * Groups the regions with relative numbers (`0`, `-k`) that share border, and finds for each group the pieces
 * along its outer boundary. One piece there is the host; several make a group of openings a void, and leave a
 * recess without a host. Openings that reach the outside are a void too.
 *
 * @param marks of the merged regions; @param neighbours as given by `mergedNeighbours`.
 */
export function findClusters(
  map: RegionMap,
  marks: readonly (DepthMark | null)[],
  base: Int32Array,
  neighbours: NeighbourLists,
): Cluster[] {
  const clusterOf = new Int32Array(map.regions.length).fill(-1);
  const clusters: Cluster[] = [];
  marks.forEach((_, index) => {
    if (base[index] !== index || clusterOf[index] !== -1 || !isRelative(marks[index])) return;
    const regions = gather(index, clusters.length, marks, neighbours, clusterOf);
    clusters.push(describe(map, marks, neighbours, clusterOf, regions));
  });
  return clusters;
}

function isRelative(mark: DepthMark | null): boolean {
  return mark?.kind === 'opening' || mark?.kind === 'recess';
}

function gather(
  start: number,
  id: number,
  marks: readonly (DepthMark | null)[],
  neighbours: NeighbourLists,
  clusterOf: Int32Array,
): number[] {
  const regions = [start];
  clusterOf[start] = id;
  for (let k = 0; k < regions.length; k++) {
    for (const other of neighbours[regions[k]]) {
      if (other < marks.length && clusterOf[other] === -1 && isRelative(marks[other])) {
        clusterOf[other] = id;
        regions.push(other);
      }
    }
  }
  return regions.sort((a, b) => a - b);
}

function describe(
  map: RegionMap,
  marks: readonly (DepthMark | null)[],
  neighbours: NeighbourLists,
  clusterOf: Int32Array,
  regions: readonly number[],
): Cluster {
  const id = clusterOf[regions[0]];
  const outside = marks.length;
  const beside = new Set<number>();
  for (const region of regions) {
    for (const other of neighbours[region]) {
      if (other === outside || clusterOf[other] !== id) beside.add(other);
    }
  }
  const touchesOutside = beside.delete(outside);
  const outer =
    beside.size === 1 && !touchesOutside
      ? [...beside]
      : outerRegions(map, neighbours, beside, (other) => clusterOf[other] === id, regions);
  const around = outer.filter((other) => marks[other]?.kind === 'piece').sort((a, b) => a - b);
  const single = around.length === 1 ? around[0] : null;
  const onlyOpenings = regions.every((region) => marks[region]?.kind === 'opening');
  return { regions, host: touchesOutside && onlyOpenings ? null : single, around, touchesOutside };
}

/**
 * Which of the regions beside a group lie along its outer boundary, not in its holes. A hole lies within the
 * group's bounding box, so a flood that stays clear of the group and leaves the box, or meets the outside,
 * started outside; one that ends before, inside.
 */
function outerRegions(
  map: RegionMap,
  neighbours: NeighbourLists,
  beside: ReadonlySet<number>,
  inGroup: (region: number) => boolean,
  regions: readonly number[],
): number[] {
  const outside = map.regions.length;
  const box = regions.reduce<Bounds>((all, r) => joinBounds(all, map.regions[r].bounds), EMPTY_BOUNDS);
  const known = new Map<number, boolean>();
  for (const start of beside) {
    if (known.has(start)) continue;
    const seen = [start];
    const visited = new Set(seen);
    let leaves = false;
    for (let k = 0; k < seen.length && !leaves; k++) {
      const at = seen[k];
      leaves = known.get(at) ?? !within(map.regions[at].bounds, box);
      for (const other of neighbours[at]) {
        if (other === outside) leaves = true;
        else if (!inGroup(other) && !visited.has(other)) {
          visited.add(other);
          seen.push(other);
        }
      }
    }
    for (const region of visited) known.set(region, leaves);
  }
  return [...beside].filter((region) => known.get(region));
}

function within(inner: Bounds, outer: Bounds): boolean {
  return inner[0] >= outer[0] && inner[1] >= outer[1] && inner[2] <= outer[2] && inner[3] <= outer[3];
}
