import { demandIndex, demandPositive, demandStage } from '../arguments.js';
import { flattenParameters, flattenPoints } from '../geometry/flatten.js';
import type { Point } from '../geometry/point.js';
import { loopCurves } from './edge-curves.js';
import type { RegionMap } from './region-map.js';

/**
 * The rings of a region as RFC 7946 wants them (§3.1.6): the outline first, counterclockwise, then the holes,
 * clockwise, **with y up**: y is the negative of the map's. Each ring repeats its first position at its end.
 * Curves are cut into chords within `tolerance` mm (default 0.05, above 0).
 */
export function regionRings(map: RegionMap, region: number, tolerance = 0.05): Point[][] {
  demandStage(map, ['region map'], 'regionRings');
  demandIndex(region, map.regions.length, 'regionRings', 'region');
  demandPositive(tolerance, 'regionRings', 'tolerance');
  return map.regions[region].loops.map((loop) => {
    const ring: Point[] = [];
    for (const curve of loopCurves(map, loop)) {
      const xy = flattenPoints(curve, flattenParameters(curve, tolerance), tolerance);
      // Loops keep the region on the left as seen on the page, which is counterclockwise with y up.
      for (let i = 0; i + 2 < xy.length; i += 2) ring.push([xy[i], 0 - xy[i + 1]]);
    }
    ring.push(ring[0]);
    return ring;
  });
}

/** A GeoJSON Polygon feature (RFC 7946) of a region, in mm with y up. */
export interface RegionFeature {
  readonly type: 'Feature';
  readonly id: string;
  readonly geometry: { readonly type: 'Polygon'; readonly coordinates: Point[][] };
  readonly properties: {
    readonly area: number;
    readonly neighbours: string[];
    readonly inside: string | null;
  };
}

/** All regions as GeoJSON features. */
export function regionFeatures(map: RegionMap, tolerance = 0.05): RegionFeature[] {
  demandStage(map, ['region map'], 'regionFeatures');
  demandPositive(tolerance, 'regionFeatures', 'tolerance');
  return map.regions.map(({ id, area, neighbours, inside }, r) => ({
    type: 'Feature',
    id,
    geometry: { type: 'Polygon', coordinates: regionRings(map, r, tolerance) },
    properties: {
      area,
      neighbours: neighbours.map(({ region }) => map.regions[region].id),
      inside: inside < 0 ? null : map.regions[inside].id,
    },
  }));
}
