import { reverseCurve } from '../../src/geometry/curve.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { RegionMap } from '../../src/plane/region-map.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { type CurveWork, drawingOf } from '../support/curve-drawing.js';
import { randomSource, shuffled } from '../support/random.js';

/** What must hold of the map of any drawing: each returns null, or what is wrong. */
export type MapProperty = (lines: CurveWork, seed: number) => string | null;

const mapped = (lines: CurveWork): RegionMap => mapRegions(drawingOf(lines));

/** The invariants that the library's own checker states. */
export const isValidMap: MapProperty = (lines) => verifyRegionMap(mapped(lines)).join('; ') || null;

/** Areas and lengths of curves run backwards differ by the rounding of their sums. */
const ROUNDING = 1e-7;

/** Another order, other directions, lines drawn twice: the same nodes, edges, regions and neighbours. */
export const isSameMapRedrawn: MapProperty = (lines, seed) => {
  const random = randomSource(seed);
  const again = lines.map((run) => (random() < 0.5 ? run : run.map(reverseCurve).reverse()));
  for (const run of lines) if (random() < 0.3) again.push(run);
  const [a, b] = [mapped(lines), mapped(shuffled(again, random))];
  const [x, y] = [topology(a), topology(b)].map((t) => JSON.stringify(t));
  if (x !== y) return `${x.slice(0, 400)} became ${y.slice(0, 400)}`;
  for (const [i, { area }] of a.regions.entries()) {
    const other = b.regions[i].area;
    if (Math.abs(area - other) > ROUNDING * Math.max(1, area)) return `area ${area} became ${other}`;
  }
  return null;
};

function topology(map: RegionMap): unknown {
  return {
    nodes: map.nodes.map(({ at }) => at),
    edges: map.edges.map(({ from, to, left, right, kind }) => [from, to, left, right, kind]),
    regions: map.regions.map(({ id, inside, neighbours }) => [id, inside, neighbours.map((n) => n.region)]),
    healed: map.healed.length,
    slivers: map.counts.mergedSlivers,
  };
}
