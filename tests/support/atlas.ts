import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { feature, neighbors } from 'topojson-client';
import { GRID_STEP } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import type { Arrangement } from '../../src/plane/arrangement.js';
import { facePoints, insideRings } from './arrangement-facts.js';
import { type LineWork, lineSet } from './line-work.js';

/** One land of an atlas: its name, its number there, and its rings on the page, mm. */
export interface Land {
  readonly name: string;
  readonly id: string;
  readonly rings: LineWork;
  /** Indices of the lands that share a border, by topojson-client. */
  readonly neighbours: readonly number[];
}

/**
 * The lands of a TopoJSON file of the registry packages us-atlas and world-atlas. The page is the atlas's own
 * plane of longitude and latitude: its quantized coordinates, whole numbers from 0 to 99,999, times 64 grid
 * steps. So every point is on the grid, nothing is rounded, and no two points are nearer than 0.06 mm.
 */
export function readAtlas(file: string, object: string): Land[] {
  const path = createRequire(import.meta.url).resolve(file);
  const topology = JSON.parse(readFileSync(path, 'utf8'));
  // Without its transform a topology's arcs are absolute points; until then they are steps from point to point.
  const { transform: _, ...quantized } = topology;
  quantized.arcs = topology.arcs.map((arc: readonly Point[]) => {
    let [x, y] = [0, 0];
    return arc.map(([dx, dy]): Point => {
      x += dx;
      y += dy;
      return [x, y];
    });
  });
  const { geometries } = quantized.objects[object];
  const around = neighbors(geometries);
  return geometries.map((geometry: { id?: string; properties?: { name?: string } }, i: number): Land => {
    const shape = feature(quantized, geometry).geometry;
    const polygons: LineWork[] =
      shape === null ? [] : shape.type === 'Polygon' ? [shape.coordinates] : shape.coordinates;
    return {
      name: geometry.properties?.name ?? '',
      id: geometry.id ?? '',
      rings: polygons.flat().map((ring) => unrolled(ring).map(([x, y]): Point => [x * UNIT, -y * UNIT])),
      // A land that touches itself along an arc is listed as its own neighbour there.
      neighbours: around[i].filter((other) => other !== i),
    };
  });
}

/** Quanta around the world. */
const WORLD = 99_999;

/**
 * A ring that leaves the page at 180° comes in again at the other side: carried on beyond the page instead, so
 * that no line runs across the world. A ring around a pole never comes back and is left as it is.
 */
function unrolled(ring: readonly Point[]): readonly Point[] {
  let shift = 0;
  const out = ring.map(([x, y], i): Point => {
    const jump = i === 0 ? 0 : x - ring[i - 1][0];
    if (jump > WORLD / 2) shift -= WORLD;
    else if (jump < -WORLD / 2) shift += WORLD;
    return [x + shift, y];
  });
  return shift === 0 ? out : ring;
}

/** Millimetres of one quantum. */
const UNIT = 64 * GRID_STEP;

/** A map of all lands, and which land each face lies in (-1: none, or more than one). */
export interface LandMap {
  readonly arrangement: Arrangement;
  readonly landOfFace: readonly number[];
}

/** All rings of all lands as lines: shared borders are drawn twice. */
export function mapLands(lands: readonly Land[]): LandMap {
  const arrangement = arrangeLines(lineSet(lands.flatMap((land) => land.rings)), { weld: 0 });
  const boxes = lands.map(({ rings }) => {
    const points = rings.flat();
    const xs = points.map(([x]) => x);
    const ys = points.map(([, y]) => y);
    return [least(xs), least(ys), -least(xs.map((x) => -x)), -least(ys.map((y) => -y))] as const;
  });
  const landOfFace = facePoints(arrangement).map((p) => {
    const found = lands.flatMap((land, i) => {
      const [x0, y0, x1, y1] = boxes[i];
      return p[0] >= x0 && p[0] <= x1 && p[1] >= y0 && p[1] <= y1 && insideRings(land.rings, p) ? [i] : [];
    });
    return found.length === 1 ? found[0] : -1;
  });
  return { arrangement, landOfFace };
}

const least = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** The lands that border on each land in the map, ascending. */
export function landNeighbours({ arrangement: a, landOfFace }: LandMap, count: number): number[][] {
  const around = Array.from({ length: count }, () => new Set<number>());
  for (let f = 0; f < a.faceCount; f++) {
    const land = landOfFace[f];
    for (let i = a.adjacencyStart[f]; i < a.adjacencyStart[f + 1]; i++) {
      const other = landOfFace[a.adjacencyFace[i]];
      if (land >= 0 && other >= 0 && other !== land) around[land].add(other);
    }
  }
  return around.map((set) => [...set].sort((p, q) => p - q));
}
