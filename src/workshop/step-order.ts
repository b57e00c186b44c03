import { type Bounds, distance, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Workshop } from './cut-plan.js';
import { boxSize, type Target } from './targets.js';

/**
 * How many lines must be crossed to come out of each region, by region: 1 for those that border on the outside.
 */
export function stepsFromOutside(map: RegionMap): Int32Array {
  const steps = new Int32Array(map.regions.length);
  let front = map.regions.flatMap((region, r) => (region.outsideLength > 0 && !region.addOn ? [r] : []));
  for (let step = 1; front.length > 0; step++) {
    for (const r of front) steps[r] = step;
    const next = new Set<number>();
    for (const r of front) {
      for (const { region } of map.regions[r].neighbours) if (steps[region] === 0) next.add(region);
    }
    front = [...next].sort((a, b) => a - b);
  }
  return steps;
}

/**
 * Groups of targets in an order in which each comes before every group that lies around it; the others by short
 * ways, from the clamped side on.
 *
 * @param from where the blade was left; null: nowhere
 */
export function orderGroups(
  map: RegionMap,
  groups: readonly (readonly Target[])[],
  from: Point | null,
  clampSide: Workshop['clampSide'],
): (readonly Target[])[] {
  const boxes = groups.map((group) =>
    group.reduce<Bounds>((box, target) => joinBounds(box, target.bounds), EMPTY_BOUNDS),
  );
  const waits = boxes.map(() => 0);
  const blocked = boxes.map((box) => boxes.flatMap((other, k) => (isWithin(box, other) ? [k] : [])));
  for (const list of blocked) for (const k of list) waits[k]++;
  const places = groups.map((group) => ({ at: group[0].at }));
  return walkAll(map, places, waits, blocked, from, clampSide).map((i) => groups[i]);
}

function isWithin(a: Bounds, b: Bounds): boolean {
  const inside = a[0] >= b[0] && a[1] >= b[1] && a[2] <= b[2] && a[3] <= b[3];
  return inside && boxSize(a) < boxSize(b);
}

/**
 * The order within a group, so that the stock stays whole as long as possible: cutouts, then
 * outlines, each with the veins of its piece right before it; of these what lies further inside first; a small one before a larger neighbour; the rest by short
 * ways, from the clamped side on.
 */
export function orderTargets(
  map: RegionMap,
  depths: Int32Array,
  targets: readonly Target[],
  clampSide: Workshop['clampSide'],
): Target[] {
  const buckets = new Map<number, Target[]>();
  for (const target of targets) {
    const rank = rankOf(depths, target);
    const bucket = buckets.get(rank);
    if (bucket === undefined) buckets.set(rank, [target]);
    else bucket.push(target);
  }
  const ordered: Target[] = [];
  for (const rank of [...buckets.keys()].sort((a, b) => a - b)) {
    const from = ordered.length === 0 ? null : ordered[ordered.length - 1].at;
    ordered.push(...walkBucket(map, buckets.get(rank)!, from, clampSide));
  }
  return withVeins(map, ordered);
}

/**
 * Puts each vein right before the outline of the piece that it is in: by then the way there is shortest, and the
 * piece is still held. A vein in nothing that comes free keeps its place.
 */
function withVeins(map: RegionMap, targets: readonly Target[]): Target[] {
  const pieceAt = new Map<number, Target>();
  for (const target of targets) {
    if (target.frees === 'piece') for (const r of target.regions) pieceAt.set(r, target);
  }
  const inside = new Map<Target, Target[]>();
  const rest: Target[] = [];
  for (const target of targets) {
    const piece = target.kind === 'vein' ? pieceAt.get(map.edges[target.lines[0]].left) : undefined;
    if (piece === undefined) rest.push(target);
    else inside.set(piece, [...(inside.get(piece) ?? []), target]);
  }
  return rest.flatMap((target) => [...(inside.get(target) ?? []), target]);
}

const KIND_RANK = { cutout: 0, vein: 1, outline: 2 } as const;

/** More than any number of lines between a region and the outside. */
const DEEPEST = 1e7;

function rankOf(depths: Int32Array, target: Target): number {
  const inside = Math.max(0, ...target.regions.map((r) => (r === OUTSIDE ? 0 : depths[r])));
  const blockFirst = target.frees === 'block' ? 0 : 1;
  return KIND_RANK[target.kind] * 3 * DEEPEST + 2 * (DEEPEST - inside) + blockFirst;
}

/** Going one mm away from the clamped side counts as much as this many mm of way. */
const CLAMP_WEIGHT = 0.5;

function walkBucket(
  map: RegionMap,
  bucket: readonly Target[],
  from: Point | null,
  clampSide: Workshop['clampSide'],
): Target[] {
  const { waits, blocked } = smallerNeighbours(map, bucket);
  return walkAll(map, bucket, waits, blocked, from, clampSide).map((i) => bucket[i]);
}

/**
 * The order of going to all places, always on to the nearest that waits for none, those far from the clamped
 * side later.
 *
 * @param waits how many others each one waits for; counted down here
 * @param blocked those that wait for each
 */
function walkAll(
  map: RegionMap,
  places: readonly { readonly at: Point }[],
  waits: number[],
  blocked: readonly (readonly number[])[],
  from: Point | null,
  clampSide: Workshop['clampSide'],
): number[] {
  const left = new Set(places.keys());
  const ordered: number[] = [];
  let here = from;
  while (left.size > 0) {
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const i of left) {
      if (waits[i] > 0) continue;
      const { at } = places[i];
      const cost = (here === null ? 0 : distance(here, at)) + CLAMP_WEIGHT * fromClamp(map, at, clampSide);
      if (cost < least) [best, least] = [i, cost];
    }
    left.delete(best);
    ordered.push(best);
    here = places[best].at;
    for (const other of blocked[best]) waits[other]--;
  }
  return ordered;
}

/** How many smaller neighbours each target waits for, and the larger ones that wait for each. */
function smallerNeighbours(
  map: RegionMap,
  bucket: readonly Target[],
): { waits: number[]; blocked: number[][] } {
  const owner = new Map<number, number>();
  bucket.forEach((target, i) => {
    if (target.frees === 'piece') for (const r of target.regions) owner.set(r, i);
  });
  const blocked: number[][] = bucket.map(() => []);
  const waits = bucket.map(() => 0);
  bucket.forEach((target, i) => {
    if (target.frees !== 'piece') return;
    const larger = new Set<number>();
    for (const r of target.regions) {
      for (const { region } of map.regions[r].neighbours) {
        const other = owner.get(region);
        if (other !== undefined && isSmaller(target, bucket[other])) larger.add(other);
      }
    }
    for (const other of larger) {
      blocked[i].push(other);
      waits[other]++;
    }
  });
  return { waits, blocked };
}

function isSmaller(a: Target, b: Target): boolean {
  return a !== b && a.area < b.area;
}

function fromClamp({ page }: RegionMap, [x, y]: Point, side: Workshop['clampSide']): number {
  switch (side) {
    case 'top':
      return y - page.y;
    case 'bottom':
      return page.y + page.height - y;
    case 'left':
      return x - page.x;
    case 'right':
      return page.x + page.width - x;
  }
}
