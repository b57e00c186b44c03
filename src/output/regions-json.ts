import { demandFindings, demandStage } from '../arguments.js';
import type { Finding } from '../finding.js';
import type { Bounds, Point } from '../geometry/point.js';
import { type HealedGap, OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { Relief, Role } from '../relief/relief.js';
import { edgePath, regionPath } from './map-paths.js';
import { visibleTexts } from './visible-text.js';

/** One region of the report; lengths in mm, areas in mm². */
export interface RegionEntry {
  readonly id: string;
  readonly area: number;
  readonly bounds: Bounds;
  /** Path data in mm for the even-odd rule: outline first, then holes, curves kept. */
  readonly path: string;
  readonly labelPoint: Point;
  /** The number as written. */
  readonly label: string | null;
  /** Sheets kept, 0 for an opening. */
  readonly depth: number | null;
  readonly role: Role | null;
  /** Id of the piece's region that a cutout belongs to. */
  readonly host: string | null;
  readonly neighbours: readonly { readonly id: string; readonly length: number }[];
  readonly outsideLength: number;
  /** Id of the region that directly encloses this region's connected line work. */
  readonly inside: string | null;
  readonly name: string | null;
  /** Height of what shows above the common back, mm. */
  readonly height: number | null;
}

/** A line that bounds nothing: id of the region that it lies in (null: outside), its path. */
export interface VeinEntry {
  readonly region: string | null;
  readonly length: number;
  readonly path: string;
}

/** What `plystep regions --format json` prints. */
export interface RegionsReport {
  readonly schemaVersion: '1.0';
  readonly unit: 'mm';
  readonly page: RegionMap['page'];
  readonly digest: string;
  readonly regions: readonly RegionEntry[];
  readonly veins: readonly VeinEntry[];
  readonly healed: readonly HealedGap[];
  readonly findings: readonly Finding[];
}

/**
 * The report of a map, with the numbers where a relief is given.
 * @param findings what to list instead of the findings of the map and the relief.
 */
export function regionsReport(from: RegionMap | Relief, findings?: readonly Finding[]): RegionsReport {
  demandStage(from, ['region map', 'relief'], 'regionsReport');
  if (findings !== undefined) demandFindings(findings, 'regionsReport');
  const relief = 'map' in from ? from : null;
  const map = 'map' in from ? from.map : from;
  return visibleTexts({
    schemaVersion: '1.0',
    unit: 'mm',
    page: map.page,
    digest: map.digest,
    regions: map.regions.map((_, index) => regionEntry(map, relief, index)),
    veins: veinEntries(map),
    healed: map.healed,
    findings: findings ?? [...map.findings, ...(relief?.findings ?? [])],
  });
}

function regionEntry(map: RegionMap, relief: Relief | null, index: number): RegionEntry {
  const region = map.regions[index];
  const number = relief?.regions[index];
  return {
    id: region.id,
    area: region.area,
    bounds: region.bounds,
    path: regionPath(map, region),
    labelPoint: region.labelPoint,
    label: number?.label ?? null,
    depth: number?.depth ?? null,
    role: number?.role ?? null,
    host: relief === null ? null : hostId(relief, index),
    neighbours: region.neighbours.map(({ region: other, length }) => ({ id: map.regions[other].id, length })),
    outsideLength: region.outsideLength,
    inside: region.inside === OUTSIDE ? null : map.regions[region.inside].id,
    name: number?.name ?? null,
    height: number?.height ?? null,
  };
}

/** The region id of the piece that a cutout is cut into. */
function hostId(relief: Relief, index: number): string | null {
  const { role, body } = relief.regions[index];
  if (body === null || (role !== 'recess' && role !== 'opening')) return null;
  return relief.map.regions[relief.bodies[body].region].id;
}

function veinEntries(map: RegionMap): VeinEntry[] {
  const entry = (region: string | null, edge: number): VeinEntry => ({
    region,
    length: map.edges[edge].length,
    path: edgePath(map, edge),
  });
  return [
    ...map.regions.flatMap((region) => region.veins.map((edge) => entry(region.id, edge))),
    ...map.outsideVeins.map((edge) => entry(null, edge)),
  ];
}
