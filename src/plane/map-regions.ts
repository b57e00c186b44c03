/**
 * The planar map of a drawing: regions, adjacency, containment, veins.
 *
 * Input: a drawing in mm. Output: a `RegionMap` (region-map.ts). Add-ons are taken out and mapped by
 * themselves, on top (add-ons.ts); the rest goes through map-lines.ts, is traced into edges and loops
 * (trace-edges.ts, trace-loops.ts), measured on the true curves (build-regions.ts), and gets its labels.
 */
import { demandOptions, demandStage } from '../arguments.js';
import type { Drawing, Shape } from '../drawing/drawing.js';
import { PlystepError } from '../error.js';
import type { Finding } from '../finding.js';
import type { Point } from '../geometry/point.js';
import { findAddOns } from './add-ons.js';
import { collectLines } from './collect-lines.js';
import { findSeats } from './find-seats.js';
import { buildLayer, joinLayers, type Layer } from './layer.js';
import { mapFindings } from './map-findings.js';
import { mapLabels } from './map-labels.js';
import { mapLines } from './map-lines.js';
import type { MapDetail, MapOptions, Region, RegionMap } from './region-map.js';
import { coversAt, isClosedShape, type ShapeCover, shapeCovers } from './shape-cover.js';
import { type AsyncOptions, finish, finishInTurns, mapInTurns, within } from './steps.js';

/** Defaults of `MapOptions`, lengths in mm: see there for what each does. */
export const MAP_DEFAULTS: Required<MapOptions> = {
  weld: 0.02,
  gap: 0.5,
  sliver: 0.05,
  tolerance: 0.005,
  hiddenLines: 'drop',
  edgeLimit: 500_000,
};

/**
 * Maps a drawing. Never throws for any drawing whose lines lie within ±16 m and cross no more often than `edgeLimit`
 * allows (PlystepError 'limit' beyond); PlystepError 'bad-option' for an option out of range.
 */
export function mapRegions(drawing: Drawing, options: MapOptions = {}): RegionMap {
  return finish(mapSteps(drawing, options));
}

/** The same in turns of the event loop (at least every 50 ms), with progress, stopped by an AbortSignal. */
export async function mapRegionsAsync(
  drawing: Drawing,
  options: MapOptions & AsyncOptions = {},
): Promise<RegionMap> {
  demandOptions(options, 'mapRegionsAsync', null);
  const { signal, onProgress, ...rest } = options;
  return finishInTurns(mapSteps(drawing, rest), {
    ...(signal === undefined ? {} : { signal }),
    ...(onProgress === undefined ? {} : { onProgress }),
  });
}

function* mapSteps(drawing: Drawing, given: MapOptions): Generator<number, RegionMap> {
  demandStage(drawing, ['drawing'], 'mapRegions');
  const options = completeMapOptions(given);
  const covers = yield* within(shapeCovers(drawing, options.tolerance), 0, 0.02);
  yield 0.02;
  const addOns = findAddOns(drawing, covers);
  yield 0.04;
  const lines = yield* within(mapLines(collectLines(drawing, addOns), options), 0.04, 0.6);
  const base = yield* within(buildLayer(lines), 0.6, 0.8);
  const top = addOns.size === 0 ? null : yield* within(mapAddOns(drawing, addOns, options), 0.8, 0.88);
  const joined = joinLayers(base, top);
  yield 0.9;
  const covered = yield* within(coverRegions(joined.regions, covers, addOns), 0.9, 0.94);
  const regionUnder = (p: Point): number => {
    const face = base.locator.faceAt(p);
    return face < 0 ? -1 : base.regionOfFace[face];
  };
  const regions = yield* within(findSeats(covered, joined, regionUnder), 0.94, 0.96);
  const labels = yield* within(mapLabels(drawing, base, top), 0.96, 0.98);
  return {
    unit: 'mm',
    page: drawing.page,
    options,
    digest: drawing.digest,
    ...joined,
    regions,
    shapes: drawing.shapes.map((shape, i) => ({
      depth: shape.depth,
      names: shape.names,
      fillColor: shape.fill?.color ?? null,
      closed: isClosedShape(shape),
      addOn: addOns.has(i),
      source: shape.source,
    })),
    labels,
    details: detailsOf(drawing),
    healed: base.lines.healed.map(({ from, to, shape }) => ({
      from,
      to,
      length: Math.hypot(to[0] - from[0], to[1] - from[1]),
      source: drawing.shapes[shape]?.source ?? null,
    })),
    counts: {
      welded: base.lines.welded,
      hiddenEdges: base.lines.hiddenEdges,
      mergedSlivers: base.lines.slivers.length,
    },
    findings: [
      ...drawing.findings,
      ...mapFindings(
        base,
        regions,
        drawing.shapes.map(({ source }) => source),
      ),
      ...noRegion(drawing, regions),
    ],
  };
}

/** The add-ons as a layer of their own, in which no gaps are healed. */
function* mapAddOns(
  drawing: Drawing,
  addOns: ReadonlySet<number>,
  options: Required<MapOptions>,
): Generator<number, Layer> {
  const others = new Set([...drawing.shapes.keys()].filter((i) => !addOns.has(i)));
  const lines = yield* within(mapLines(collectLines(drawing, others), { ...options, gap: 0 }), 0, 0.7);
  return yield* within(buildLayer(lines), 0.7, 1);
}

/** An error where there are cut lines and nothing closes; a drawing without cut lines has one of its own, `no-lines`. */
function noRegion(drawing: Drawing, regions: readonly Region[]): Finding[] {
  const isLine = ({ use, subpaths }: Shape): boolean => use === 'cut' && subpaths.length > 0;
  if (regions.length > 0 || !drawing.shapes.some(isLine)) return [];
  return [
    {
      rule: 'no-region',
      level: 'error',
      message: 'The lines of the drawing close off no area: there is no region to cut out.',
      at: null,
      regions: [],
      fix: 'Close the outlines, or join open ends with a larger gap.',
    },
  ];
}

/** Fills in which shapes lie over each region. */
function coverRegions(
  regions: readonly Region[],
  covers: readonly ShapeCover[],
  addOns: ReadonlySet<number>,
): Generator<number, Region[]> {
  const at = coversAt(covers);
  return mapInTurns(regions, (region) => {
    const over = at(region.labelPoint).filter(({ shape }) => addOns.has(shape) === region.addOn);
    return {
      ...region,
      shapes: over.map(({ shape }) => shape),
      fillShape: over.find(({ filled }) => filled)?.shape ?? -1,
    };
  });
}

function detailsOf(drawing: Drawing): MapDetail[] {
  return drawing.shapes.flatMap((shape, index) =>
    shape.use === 'cut'
      ? []
      : [{ shape: index, mark: shape.mark ?? 'vein', runs: shape.subpaths.map(({ curves }) => curves) }],
  );
}

/** No wider region is a slip of the pen, mm; and each line within this reach of a sliver is compared with it. */
const MOST_SLIVER = 10;

/**
 * Checks the options of mapping and fills in the defaults.
 * @throws PlystepError 'bad-option' naming the option
 */
export function completeMapOptions(given: MapOptions): Required<MapOptions> {
  demandOptions(given, 'mapRegions', Object.keys(MAP_DEFAULTS));
  const options = { ...MAP_DEFAULTS };
  for (const name of ['weld', 'gap', 'sliver', 'tolerance'] as const) {
    const value = given[name];
    if (value === undefined) continue;
    const most = name === 'sliver' ? MOST_SLIVER : 1000;
    if (!Number.isFinite(value) || value < 0 || value > most || (name === 'tolerance' && value === 0)) {
      const least = name === 'tolerance' ? 'above 0, up to' : 'from 0 to';
      throw new PlystepError('bad-option', `${name}: ${String(value)} is no length in mm ${least} ${most}`);
    }
    options[name] = value;
  }
  const { edgeLimit } = given;
  if (edgeLimit !== undefined) {
    if (typeof edgeLimit !== 'number' || !(edgeLimit > 0))
      throw new PlystepError('bad-option', `edgeLimit: ${String(edgeLimit)} is no number above 0`);
    options.edgeLimit = edgeLimit;
  }
  if (given.hiddenLines !== undefined) {
    if (given.hiddenLines !== 'drop' && given.hiddenLines !== 'keep')
      throw new PlystepError('bad-option', `hiddenLines: ${String(given.hiddenLines)} is not drop or keep`);
    options.hiddenLines = given.hiddenLines;
  }
  return options;
}
