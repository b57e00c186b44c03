import type { MultiPolygon } from 'polygon-clipping';
import type { PlanReport } from '../../src/output/plan-json.js';
import { flatPath, type XY } from './flat-path.js';
import { RegionFinder } from './region-finder.js';

/** polygon-clipping fails on points that all but coincide: they are put on a grid of this, mm. */
const GRID = 2 ** -9;

export const onGrid = (mm: number): number => Math.round(mm / GRID) * GRID;

/** What lies around the drawing. */
export const OUTSIDE = 'outside';

/** What lies around the board. */
export const BOARD_EDGE = 'edge of the board';

/** A region as the simulator sees it: only what the plan's JSON says. */
export interface SimRegion {
  readonly id: string;
  readonly runs: XY[][];
  /** For polygon-clipping: outline first, then holes. */
  readonly polygon: MultiPolygon;
  readonly role: string | null;
  readonly depth: number | null;
}

/** The regions, and what must become of them in every sheet. */
export interface PlanWorld {
  readonly report: PlanReport;
  readonly regions: ReadonlyMap<string, SimRegion>;
  /** The regions that are part of the drawing: all but add-ons that lie over others. */
  readonly inStack: readonly SimRegion[];
  /** The region at a point, or OUTSIDE. */
  at(point: XY): string;
  /** To which piece the material of a region in a sheet must belong at the end; null: waste. */
  owner(region: string, sheet: string): string | null;
}

export function planWorld(report: PlanReport): PlanWorld {
  const loose = new Set(report.addOns.filter((addOn) => !addOn.shared).map((addOn) => addOn.region));
  const regions = new Map<string, SimRegion>();
  for (const { id, path, role, depth } of report.regions) {
    const runs = flatPath(path);
    const polygon = [runs.map((run) => run.map(([x, y]): [number, number] => [onGrid(x), onGrid(y)]))];
    regions.set(id, { id, runs, polygon, role, depth });
  }
  const inStack = [...regions.values()].filter((region) => !loose.has(region.id));
  const finder = new RegionFinder(inStack);
  const owners = ownersOf(report, regions);
  return {
    report,
    regions,
    inStack,
    at: (point) => finder.at(point) ?? besideSliver(finder, point) ?? OUTSIDE,
    owner: (region, sheet) => owners.get(`${region} ${sheet}`) ?? null,
  };
}

/** Chords of a border that two regions flatten each for itself part by less than twice this, mm. */
const SLIVER = 0.004;

/** The region right beside a point that lies between the chords of two regions. */
function besideSliver(finder: RegionFinder, [x, y]: XY): string | null {
  for (const [dx, dy] of [
    [SLIVER, 0],
    [0, SLIVER],
  ]) {
    const [a, b] = [finder.at([x + dx, y + dy]), finder.at([x - dx, y - dy])];
    if (a !== null && b !== null) return a;
  }
  return null;
}

/** Owners by region and sheet, from the pieces' own sheets and the depths of the regions alone. */
function ownersOf(report: PlanReport, regions: ReadonlyMap<string, SimRegion>): Map<string, string> {
  const owners = new Map<string, string>();
  for (const piece of report.pieces) {
    for (const id of piece.regions) {
      const { depth } = regions.get(id)!;
      const whole = report.joint === 'continuous';
      const kept = whole ? piece.sheets : piece.sheets.slice(piece.sheets.length - depth!);
      for (const sheet of kept) owners.set(`${id} ${sheet}`, piece.id);
    }
  }
  return owners;
}
