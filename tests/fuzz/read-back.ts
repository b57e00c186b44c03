import { readDrawing } from '../../src/drawing/read-drawing.js';
import { tightestTurn } from '../../src/geometry/curvature.js';
import { distance, lerp, type Point } from '../../src/geometry/point.js';
import { edgePath } from '../../src/output/map-paths.js';
import { edgePoints } from '../../src/plane/edge-points.js';
import { mapRegions, mapRegionsAsync } from '../../src/plane/map-regions.js';
import type { RegionMap } from '../../src/plane/region-map.js';
import { type CurveWork, drawingOf } from '../support/curve-drawing.js';
import { regionAreas } from '../support/map-facts.js';

/** A map with its edges written as path data, as a drawing of its own. */
export function writtenMap(map: RegionMap): string {
  const { x, y, width, height } = map.page;
  const paths = map.edges.map((_, e) => `<path d="${edgePath(map, e)}"/>`).join('');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${x} ${y} ${width} ${height}" fill="none" stroke="#000">${paths}</svg>`;
}

/**
 * Features that written and read lines keep, mm: well over the sliver tolerance, so that neither the weld nor the
 * sliver tolerance decides anything about them (gaps are not healed).
 */
const FEATURE = 0.2;

/**
 * A map whose features are that large, written and read back: the same regions, neighbours and containment, and the
 * areas but for what the digits say.
 */
export function isSameReadBack(lines: CurveWork): string | null {
  const map = mapRegions(drawingOf(lines), { gap: 0 });
  if (!isClear(map)) return null;
  const again = mapRegions(readDrawing(writtenMap(map)), { gap: 0 });
  const [a, b] = [facts(map), facts(again)].map((f) => JSON.stringify(f));
  if (a !== b) return `${a.slice(0, 300)} read back as ${b.slice(0, 300)}`;
  const perimeter = map.edges.reduce((sum, { length }) => sum + length, 0);
  // A welded end takes its curve along: the map tells the area as drawn, the written line is the one moved.
  const moved = WRITTEN + (map.counts.welded > 0 ? map.options.weld : 0);
  const found = regionAreas(again);
  const off = regionAreas(map).findIndex((area, i) => Math.abs(area - found[i]) > moved * perimeter);
  return off < 0 ? null : `area ${regionAreas(map)[off]} read back as ${found[off]}`;
}

/** How far, mm, a line may lie from where it was after it was written, read and rounded: digits and a grid step. */
const WRITTEN = 0.002;

/** The asynchronous call gives the very same map as the synchronous one. */
export async function isSameAsynchronously(lines: CurveWork): Promise<string | null> {
  const drawing = drawingOf(lines);
  const [a, b] = [mapRegions(drawing), await mapRegionsAsync(drawing)].map((map) => JSON.stringify(map));
  return a === b ? null : `${a.slice(0, 300)} became ${b.slice(0, 300)}`;
}

/** Counts, and one word a region that tells what lies around it, three steps on; regions in no order. */
function facts(map: RegionMap): unknown {
  const depth = (r: number): number => (r < 0 ? 0 : 1 + depth(map.regions[r].inside));
  let words = map.regions.map(
    ({ outsideLength, loops, veins }, r) =>
      `${depth(r)} ${outsideLength > 0 ? 'o' : ''}${loops.length} ${veins.length}`,
  );
  for (let round = 0; round < 3; round++) {
    const names = new Map([...new Set(words)].sort().map((word, i) => [word, i]));
    words = map.regions.map(({ neighbours, inside }, r) => {
      const around = neighbours.map(({ region }) => names.get(words[region])).sort();
      return `${words[r]}(${around.join(',')})[${inside < 0 ? '' : names.get(words[inside])}]`;
    });
  }
  return { words: words.sort(), edges: map.edges.length, nodes: map.nodes.length };
}

/**
 * Whether nodes keep clear of each other and of the edges of other nodes, every region has room, no curve turns
 * tighter, and edges leave their nodes in different directions.
 */
function isClear(map: RegionMap): boolean {
  if (map.regions.some(({ labelRoom }) => labelRoom < FEATURE)) return false;
  if (map.edges.some(({ length }) => length < 4 * FEATURE)) return false;
  if (map.curves.some((curve) => tightestTurn(curve).radius < FEATURE / 4)) return false;
  const lines = map.edges.map((_, e) => edgePoints(map, e, map.options.tolerance));
  const ends = map.nodes.map((): Point[] => []);
  map.edges.forEach(({ from, to }, e) => {
    ends[from].push(pointAway(lines[e]));
    ends[to].push(pointAway([...lines[e]].reverse()));
  });
  if (ends.some((list) => list.some((p, i) => list.slice(i + 1).some((q) => distance(p, q) < FEATURE / 4))))
    return false;
  if (lines.some((line, e) => lines.some((other, f) => f !== e && comesNear(line, other)))) return false;
  return map.nodes.every(({ at }, v) =>
    map.edges.every(({ from, to }, e) => {
      if (from === v || to === v) return true;
      return lines[e].every((p, i) => i === 0 || segmentDistance(at, lines[e][i - 1], p) >= FEATURE);
    }),
  );
}

/** Whether a line comes near another one other than at its ends. */
function comesNear(line: readonly Point[], other: readonly Point[]): boolean {
  const [from, to] = [line[0], line[line.length - 1]];
  return line.some(
    (p) =>
      distance(p, from) > FEATURE &&
      distance(p, to) > FEATURE &&
      other.some((q, i) => i > 0 && segmentDistance(p, other[i - 1], q) < FEATURE / 4),
  );
}

/** The first place of a line that is further from its start than the feature size, on the circle about it. */
function pointAway(line: readonly Point[]): Point {
  const i = line.findIndex((p) => distance(p, line[0]) > FEATURE);
  if (i < 0) return line[line.length - 1];
  const [low, high] = [distance(line[i - 1], line[0]), distance(line[i], line[0])];
  return lerp(line[i - 1], line[i], (FEATURE - low) / (high - low));
}

function segmentDistance([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const t = Math.max(0, Math.min(1, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}
