import { demandOneOf, demandOptions, demandStage } from '../arguments.js';
import type { RegionMap } from '../plane/region-map.js';
import { assembleRelief, type ReliefSettings } from './assemble-relief.js';
import { locateRegions } from './locate-regions.js';
import { collectClaims, type MutableClaims, placeEntries, type RegionClaims } from './number-claims.js';
import { readNumbers } from './read-numbers.js';
import { readStack } from './read-stack.js';
import type { Frame, Joint, RegionNumber, Relief, ReliefOptions, UnplacedNumber } from './relief.js';
import type { Stack } from './stack.js';

/**
 * Builds the relief of a map: gathers the numbers, finds pieces, cutouts with their hosts, add-ons with their
 * seats, bodies and heights. Input is any region map, a stack front to back. Output: plain data with one entry
 * a region; what can't be decided is null there, and `checkRelief` says why.
 *
 * 1. claims of all sources on each region, the strongest readable one counts (`number-claims.ts`)
 * 2. add-ons with shared outline are merged into what lies under them (`bases.ts`)
 * 3. regions with relative numbers that share border form clusters, each with its host (`clusters.ts`)
 * 4. nested recesses are counted up (`cutout-depths.ts`)
 * 5. bodies with their sheets in order, swaps and spares (`sheet-order.ts`), heights in the relief's joint
 *
 * Cost: linear in regions, borders and labels.
 *
 * @throws PlystepError 'bad-option', 'bad-stack', 'bad-number'.
 */
export function buildRelief(map: RegionMap, options: ReliefOptions): Relief {
  demandStage(map, ['region map'], 'buildRelief');
  demandOptions(options, 'buildRelief', RELIEF_OPTIONS);
  demandChoices(options, 'buildRelief');
  const numbers = readNumbers(options.numbers, 'numbers');
  const sidecar = readNumbers(options.sidecar, 'sidecar');
  const points = [...numbers, ...sidecar].filter(({ at }) => at !== undefined);
  const collected = collectClaims(map, options, locateRegions(map, points.length));
  return assembleRelief(map, collected, {
    stack: readStack(options.stack),
    joint: options.joint ?? 'pieces',
    frame: options.frame ?? 'cut',
  });
}

const CHANGES = ['numbers', 'stack', 'joint', 'frame'];
const RELIEF_OPTIONS = [...CHANGES, 'sidecar', 'legend'];

function demandChoices({ joint, frame, legend }: Partial<ReliefOptions>, call: string): void {
  if (joint !== undefined) demandOneOf(joint, ['pieces', 'continuous'], call, 'joint');
  if (frame !== undefined) demandOneOf(frame, ['cut', 'board-edge'], call, 'frame');
  if (legend !== undefined) demandOptions(legend, call, null, 'legend');
}

/** What `renumber` changes; everything else stays as it was. */
export interface ReliefChange {
  /** These take the place of what the caller gave to the same regions before. */
  readonly numbers?: readonly RegionNumber[];
  readonly stack?: Stack;
  readonly joint?: Joint;
  readonly frame?: Frame;
}

/**
 * The relief with some numbers, swaps, the stack or the joint changed. Reuses the map and the numbers found in
 * the drawing, so it costs far less than mapping (docs/numbers.md tells the ratio).
 *
 * @throws PlystepError 'bad-option', 'bad-stack', 'bad-number'.
 */
export function renumber(relief: Relief, change: ReliefChange): Relief {
  demandStage(relief, ['relief'], 'renumber');
  demandOptions(change, 'renumber', CHANGES, 'change');
  demandChoices(change, 'renumber');
  const numbers = readNumbers(change.numbers, 'numbers');
  const { map } = relief;
  const unplaced: UnplacedNumber[] = [...relief.unplaced];
  const regions = [...relief.regions] as RegionClaims[];
  if (numbers.length > 0) {
    const given = new Map<number, MutableClaims>();
    placeEntries(
      map,
      numbers,
      'caller',
      locateRegions(map, numbers.length),
      (region) => claimsIn(given, region),
      unplaced,
    );
    for (const [region, { claims, name, request }] of given) {
      const before = relief.regions[region];
      regions[region] = {
        claims: [...claims, ...before.claims.filter((claim) => claim.source !== 'caller')],
        name: name ?? before.name,
        request,
      };
    }
  }
  const settings: ReliefSettings = {
    stack: change.stack === undefined ? relief.stack : readStack(change.stack),
    joint: change.joint ?? relief.joint,
    frame: change.frame ?? relief.frame,
  };
  return assembleRelief(map, { regions, unplaced }, settings);
}

function claimsIn(given: Map<number, MutableClaims>, region: number): MutableClaims {
  const own = given.get(region) ?? { claims: [], name: null, request: null };
  given.set(region, own);
  return own;
}
