import {
  demandList,
  demandOptions,
  demandStage,
  demandText,
  isMembers,
  refuseArgument,
} from '../arguments.js';
import { PlystepError } from '../error.js';
import type { Finding } from '../finding.js';
import type { RegionMap } from '../plane/region-map.js';
import { parseDepthMark } from './depth-mark.js';
import { locateRegions } from './locate-regions.js';
import { numberPlace } from './number-place.js';
import type { Frame, Joint, RegionNumber } from './relief.js';
import type { Stack } from './stack.js';

/** The version of the sidecar's form; a change of the first number is a break. */
export const SIDECAR_VERSION = '1.0';

/** What a drawing's sidecar file holds: the stack and the depth numbers, beside the drawing. */
export interface Sidecar {
  /** The drawing that the points were taken from; null where the file does not say. */
  readonly drawing: { readonly file: string | null; readonly digest: string | null };
  readonly stack: Stack | null;
  readonly frame: Frame | null;
  readonly joint: Joint | null;
  /** Entries whose depth is still null are left out. */
  readonly numbers: readonly RegionNumber[];
  /** Entries still to be filled in. */
  readonly open: number;
  /** Settings of the checks for this drawing, as written; `readCheckOptions` reads them. */
  readonly checks?: unknown;
}

/** What a new sidecar takes over besides the numbers. */
export interface SidecarSettings {
  readonly stack?: Stack;
  readonly frame?: Frame;
  readonly joint?: Joint;
  /** Members of an earlier sidecar that are kept as they are: `$schema`, `note`, `checks`. */
  readonly kept?: Readonly<Record<string, unknown>>;
}

/**
 * A sidecar to fill in, one entry a region in the order of the map: a point that lies in this region and under no
 * add-on, its id (for the reader only), its depth as known, else null. A region without such a point (it is covered
 * wholly) is named by `region`. Points in mm with three decimals.
 *
 * @param depths the number of each region as written, same index as `map.regions`; null where there is none.
 */
export function formatSidecar(
  map: RegionMap,
  file: string,
  depths: readonly (string | null)[],
  settings: SidecarSettings = {},
): string {
  demandStage(map, ['region map'], 'formatSidecar');
  demandText(file, 'formatSidecar', 'file');
  demandList(depths, 'formatSidecar', 'depths');
  demandOptions(settings, 'formatSidecar', ['stack', 'frame', 'joint', 'kept'], 'settings');
  const locate = locateRegions(map, map.regions.length);
  const entries = map.regions.map(({ id }, index) => {
    const at = numberPlace(map, index, locate);
    const depth = depths[index] ?? null;
    return JSON.stringify(at === null ? { region: id, depth } : { at, depth, id });
  });
  const head = {
    schemaVersion: SIDECAR_VERSION,
    drawing: { file, digest: map.digest },
    ...(settings.frame === undefined ? {} : { frame: settings.frame }),
    ...(settings.joint === undefined ? {} : { joint: settings.joint }),
    stack: settings.stack?.sheets ?? [],
    ...settings.kept,
  };
  const opening = JSON.stringify(head, null, 2).replace(/\n\}$/, '');
  return `${opening},\n  "numbers": [\n    ${entries.join(',\n    ')}\n  ]\n}\n`;
}

/**
 * A warning where the sidecar was made for another text of the drawing: its points may lie in other regions
 * now. Null where it fits or has no digest.
 */
export function staleSidecar(sidecar: Sidecar, digest: string): Finding | null {
  if (!isMembers(sidecar) || !isMembers(sidecar.drawing))
    refuseArgument('staleSidecar', 'a sidecar (from parseSidecar) is needed');
  demandText(digest, 'staleSidecar', 'digest');
  const made = sidecar.drawing.digest;
  if (made === null || made === digest) return null;
  return {
    rule: 'stale-sidecar',
    level: 'warning',
    message: `The drawing has changed since its sidecar was made (digest ${made}, now ${digest}); numbers may sit in other regions.`,
    at: null,
    regions: [],
    fix: `Look at the overview; when all numbers are right, set drawing.digest in the sidecar to "${digest}".`,
  };
}

/** Whether the text is a depth number that a sidecar may carry. */
export function isDepthText(depth: string | number): boolean {
  return parseDepthMark(String(depth)) !== null;
}

/** Throws the one error of sidecars: what is wrong, and the JSON pointer (RFC 6901) to the place. */
export function failSidecar(pointer: string, message: string): never {
  throw new PlystepError(
    'bad-sidecar',
    `${message} (at ${pointer === '' ? 'the top of the file' : pointer})`,
  );
}
