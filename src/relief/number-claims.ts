import { PlystepError } from '../error.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { type DepthMark, parseDepthMark } from './depth-mark.js';
import type { Locate } from './locate-regions.js';
import type {
  NumberClaim,
  NumberSource,
  RegionNumber,
  ReliefOptions,
  SheetRequest,
  UnplacedNumber,
} from './relief.js';

/** What all sources say of one region. */
export interface RegionClaims {
  /** Strongest first. */
  readonly claims: readonly NumberClaim[];
  readonly name: string | null;
  readonly request: SheetRequest | null;
}

export interface CollectedClaims {
  /** Same index as `map.regions`. */
  readonly regions: readonly RegionClaims[];
  readonly unplaced: readonly UnplacedNumber[];
}

/** Sources, strongest first. */
export const SOURCE_ORDER: readonly NumberSource[] = ['caller', 'sidecar', 'attribute', 'label', 'legend'];

/** A text that was meant as a number, readable or not; other texts are names. */
const MEANT_AS_NUMBER = /^[+\-\u2212]?\s*\d+([.,]\d*)?$|^[+\-\u2212]$/;

/**
 * Gathers every number that the caller, a sidecar, the drawing's attributes, its labels and a legend give to a
 * region, strongest source first, with names and sheet requests. Linear in regions, labels and entries.
 *
 * @throws PlystepError 'bad-number' for an entry that names neither a region nor a point.
 */
export function collectClaims(
  map: RegionMap,
  options: Pick<ReliefOptions, 'numbers' | 'sidecar' | 'legend'>,
  locate: Locate,
): CollectedClaims {
  const regions = map.regions.map((): MutableClaims => ({ claims: [], name: null, request: null }));
  const unplaced: UnplacedNumber[] = [];
  const claimsOf = (region: number): MutableClaims => regions[region];
  placeEntries(map, options.numbers ?? [], 'caller', locate, claimsOf, unplaced);
  placeEntries(map, options.sidecar ?? [], 'sidecar', locate, claimsOf, unplaced);
  const inherited = map.regions.map((_, index) => addAttribute(map, index, regions[index]));
  addLabels(map, regions);
  addLegend(map, options.legend ?? {}, regions);
  inherited.forEach((claim, index) => {
    if (claim !== null) regions[index].claims.push(claim);
  });
  nameFromShapes(map, regions);
  return { regions, unplaced };
}

export interface MutableClaims {
  claims: NumberClaim[];
  name: string | null;
  request: SheetRequest | null;
}

/** Hands the entries of a caller or a sidecar to their regions; what reaches none is listed. */
export function placeEntries(
  map: RegionMap,
  entries: readonly RegionNumber[],
  source: 'caller' | 'sidecar',
  locate: Locate,
  claimsOf: (region: number) => MutableClaims,
  unplaced: UnplacedNumber[],
): void {
  const byId = new Map<string, number>();
  if (entries.some((entry) => entry.region !== undefined)) {
    map.regions.forEach(({ id }, index) => {
      byId.set(id, index);
    });
  }
  entries.forEach((entry, index) => {
    if (entry.region === undefined && entry.at === undefined) {
      const where = `Entry ${index + 1} of the ${source === 'caller' ? 'numbers' : 'sidecar'}`;
      throw new PlystepError('bad-number', `${where} names neither a region nor a point "at".`);
    }
    const text = String(entry.depth);
    const at = entry.at ?? null;
    const target = entry.region === undefined ? locate(entry.at!) : (byId.get(entry.region) ?? OUTSIDE);
    if (target === OUTSIDE) {
      unplaced.push({ source, text, at, region: entry.region ?? null });
      return;
    }
    const region = claimsOf(target);
    region.claims.push({ source, text, mark: parseDepthMark(text), at });
    region.name ??= entry.name ?? null;
    region.request ??= readRequest(entry);
  });
}

function readRequest(entry: RegionNumber): SheetRequest | null {
  if (entry.face === undefined && entry.substitute === undefined && entry.extra === undefined) return null;
  return { face: entry.face ?? null, substitute: entry.substitute ?? {}, extra: entry.extra ?? [] };
}

/**
 * The `data-depth` of the topmost shape over a region is a claim. Where that shape has none, the nearest one
 * below it that has is returned, to count only if nothing else numbers the region; what an opaque fill hides
 * is not looked at.
 */
function addAttribute(map: RegionMap, index: number, region: MutableClaims): NumberClaim | null {
  const { shapes, fillShape } = map.regions[index];
  const opaque = map.options.hiddenLines === 'drop' ? fillShape : -1;
  for (let k = 0; k < shapes.length; k++) {
    const shape = map.shapes[shapes[k]];
    if (shape.depth !== null) {
      const claim: NumberClaim = {
        source: 'attribute',
        text: shape.depth,
        mark: parseDepthMark(shape.depth),
        at: null,
        place: shape.source,
      };
      if (k > 0) return { ...claim, inherited: true };
      region.claims.push(claim);
      return null;
    }
    if (shapes[k] === opaque) return null;
  }
  return null;
}

/** Number labels become claims, in reading order; other texts name the region that they lie in. */
function addLabels(map: RegionMap, regions: readonly MutableClaims[]): void {
  const labels = [...map.labels].sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0]);
  for (const label of labels) {
    const region = regions[label.region];
    if (region === undefined) continue;
    if (isNumberText(label.text)) {
      const { text, at, source: place } = label;
      region.claims.push({ source: 'label', text, mark: parseDepthMark(text), at, place });
    } else {
      region.name ??= label.text;
    }
  }
}

function addLegend(
  map: RegionMap,
  legend: Readonly<Record<string, string>>,
  regions: readonly MutableClaims[],
): void {
  const depths = new Map(Object.entries(legend).map(([color, text]) => [color.toLowerCase(), String(text)]));
  if (depths.size === 0) return;
  map.regions.forEach(({ fillShape }, index) => {
    const shape = map.shapes[fillShape];
    const text = depths.get(shape?.fillColor ?? '');
    if (shape === undefined || text === undefined) return;
    const claim = { source: 'legend', text, mark: parseDepthMark(text), at: null } as const;
    regions[index].claims.push({ ...claim, place: shape.source });
  });
}

function nameFromShapes(map: RegionMap, regions: readonly MutableClaims[]): void {
  regions.forEach((region, index) => {
    if (region.name !== null) return;
    const top = map.regions[index].shapes[0];
    region.name = (top === undefined ? undefined : map.shapes[top]?.names[0]) ?? null;
  });
}

/** Whether a text of the drawing is meant as a depth number (well written or not), not as a name. */
export function isNumberText(text: string): boolean {
  return MEANT_AS_NUMBER.test(text.trim());
}

/** The claim that counts: the first readable one, inherited ones last. */
export function chosenClaim(claims: readonly NumberClaim[]): (NumberClaim & { mark: DepthMark }) | null {
  for (const claim of claims) if (claim.mark !== null) return claim as NumberClaim & { mark: DepthMark };
  return null;
}
