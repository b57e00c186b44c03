import type { Finding } from '../finding.js';
import type { Relief } from '../relief/relief.js';
import type { Pass } from './cut-plan.js';

/** Places on the outline that no way through the waste of the board was found to: it is too narrow there. */
export function waysMissing({ frame, map }: Relief, passes: readonly Pass[]): Finding[] {
  if (frame !== 'cut') return [];
  return passes
    .filter(({ phase }) => phase !== 'add-ons')
    .flatMap(({ steps }) => steps)
    .filter(
      ({ start, waysIn = [] }) =>
        start.by === 'board' && !start.threaded && !waysIn.some(({ run }) => run === 0),
    )
    .map(({ start: { at }, regions }) => ({
      rule: 'way-in',
      level: 'warning',
      message: `No way in is found through the waste around the drawing to x ${at[0].toFixed(1)}, y ${at[1].toFixed(1)}: it is too narrow there.`,
      at,
      regions: regions.map((r) => map.regions[r].id),
      fix: 'Make the gap in the outline wider, or close it, so that it is sawn out as waste of its own.',
    }));
}
