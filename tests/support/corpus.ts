import { GRID_STEP } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import type { LineWork } from './line-work.js';

/** A GeoJSON geometry as the corpora hold it; coordinates may have more than two numbers. */
export interface CorpusGeometry {
  readonly type: string;
  readonly coordinates?: unknown;
  readonly geometries?: readonly CorpusGeometry[];
}

/** One case of straight line work with its exact answer; see the folder's own README for the fields. */
export interface CorpusCase {
  readonly id: string;
  readonly geoms: readonly CorpusGeometry[];
  readonly exact: {
    readonly class: 'clean' | 'sliver';
    readonly F: number;
    readonly area?: number;
    readonly adjPairs?: number;
    readonly 'F_gt_1e-9'?: number;
    readonly 'F_gt_1e-6'?: number;
  };
  readonly intendedFaces?: number;
  readonly snap?: number;
  readonly withGapTolerance?: Readonly<Record<string, number>>;
}

/** The cases of one file. */
export function readCorpus(text: string): CorpusCase[] {
  return text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line))
    .filter((entry) => entry._meta === undefined && entry.exact !== undefined);
}

/** Every ring (closed where it is left open) and line string. */
export function corpusLines(geoms: readonly CorpusGeometry[]): LineWork {
  return geoms.flatMap((geom): LineWork => {
    if (geom.geometries !== undefined) return corpusLines(geom.geometries);
    switch (geom.type) {
      case 'LineString':
        return [asLine(geom.coordinates)];
      case 'MultiLineString':
        return asList(geom.coordinates).map(asLine);
      case 'Polygon':
        return asList(geom.coordinates).map(asRing);
      case 'MultiPolygon':
        return asList(geom.coordinates).flatMap((polygon) => asList(polygon).map(asRing));
      default:
        return [];
    }
  });
}

function asList(value: unknown): readonly unknown[] {
  if (!Array.isArray(value)) throw new Error('corpus: expected an array');
  return value;
}

function asLine(value: unknown): readonly Point[] {
  return asList(value).map((at): Point => {
    const [x, y] = asList(at);
    return [Number(x), Number(y)];
  });
}

function asRing(value: unknown): readonly Point[] {
  const line = asLine(value);
  const [first, last] = [line[0], line.at(-1)];
  if (first === undefined || last === undefined) return line;
  return first[0] === last[0] && first[1] === last[1] ? line : [...line, first];
}

/** Line work in mm, and what its coordinates were multiplied with. */
export interface Fit {
  readonly lines: LineWork;
  readonly scaleX: number;
  readonly scaleY: number;
}

/** Width, in grid steps, that `fitToGrid` fills at most. */
const FULL = 2 ** 24;

/**
 * Shifts the box of the lines to its corner and scales each axis by a power of two so that it spans 2²³ to
 * `FULL` grid steps. Powers of two are exact, and so is the shift, but for parts far smaller than a step.
 */
export function fitToGrid(lines: LineWork, full = FULL): Fit {
  const points = lines.filter((line) => line.length > 1).flat();
  const x0 = points.reduce((least, [x]) => Math.min(least, x), Number.POSITIVE_INFINITY);
  const y0 = points.reduce((least, [, y]) => Math.min(least, y), Number.POSITIVE_INFINITY);
  const width = points.reduce((most, [x]) => Math.max(most, x - x0), 0);
  const height = points.reduce((most, [, y]) => Math.max(most, y - y0), 0);
  const scale = (extent: number): number =>
    extent > 0 ? 2 ** Math.floor(Math.log2(full / extent)) * GRID_STEP : 1;
  const scaleX = scale(width);
  const scaleY = scale(height);
  const middle = (full / 2) * GRID_STEP;
  return {
    lines: lines.map((line) =>
      line.map(([x, y]): Point => [(x - x0) * scaleX - middle, (y - y0) * scaleY - middle]),
    ),
    scaleX,
    scaleY,
  };
}
