import { type Curve, pointAt, reverseCurve } from '../../src/geometry/curve.js';
import { type Bounds, boundsOf, type Point } from '../../src/geometry/point.js';
import { edgeCurves } from '../../src/plane/edge-curves.js';
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

/** A merged sliver leaves the line on its other side: at most its width away, and the weld, and a chord. */
const COVER = 0.05 + 0.02 + 0.005 + 0.005;

/** No line is lost: every point that was drawn lies on an edge, or beside one where a sliver was merged. */
export const isCovered: MapProperty = (lines) => {
  const map = mapped(lines);
  const edges = map.edges.flatMap((edge) =>
    edgeCurves(map, edge).map((curve) => {
      const line = samples(curve, 96);
      return { line, box: boundsOf(line) };
    }),
  );
  for (const [i, run] of lines.entries()) {
    for (const curve of run) {
      if (isDot(curve)) continue;
      for (const p of samples(curve, 10)) {
        const near = edges.filter(({ box }) => isInside(p, box, COVER));
        if (near.some(({ line }) => distanceTo(line, p) <= COVER)) continue;
        return `line ${i}: (${p.join(', ')}) is more than ${COVER} mm from every edge`;
      }
    }
  }
  return null;
};

const isInside = ([x, y]: Point, [x0, y0, x1, y1]: Bounds, more: number): boolean =>
  x >= x0 - more && x <= x1 + more && y >= y0 - more && y <= y1 + more;

const samples = (curve: Curve, count: number): Point[] =>
  Array.from({ length: count + 1 }, (_, i) => pointAt(curve, i / count));

/** Lines shorter than the weld may shrink to nothing. */
const isDot = (curve: Curve): boolean =>
  samples(curve, 10).every((p) => Math.hypot(p[0] - curve.from[0], p[1] - curve.from[1]) < COVER);

function distanceTo(line: readonly Point[], [px, py]: Point): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
    const [dx, dy] = [bx - ax, by - ay];
    const t = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy || 1);
    const u = Math.max(0, Math.min(1, t));
    least = Math.min(least, Math.hypot(px - ax - u * dx, py - ay - u * dy));
  }
  return least;
}
