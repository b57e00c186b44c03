import { pointAt } from '../geometry/curve.js';
import { pathData } from '../geometry/path-data.js';
import { regionAt } from '../plane/region-at.js';
import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { INK } from './palette.js';
import { element, group } from './svg-markup.js';

/**
 * The fold marks of a drawing, dashed in `width` mm: drawn, never sawn. A run of a mark counts to the region that its
 * middle lies in; `isShown` says of which regions (OUTSIDE: of none) marks are drawn. Empty where there is none.
 */
export function foldMarks(map: RegionMap, width: number, isShown: (region: number) => boolean): string {
  const runs = map.details
    .filter(({ mark }) => mark === 'fold')
    .flatMap((detail) => detail.runs)
    .filter((run) => {
      if (run.length === 0) return false;
      const region = regionAt(map, pointAt(run[Math.floor(run.length / 2)], 0.5));
      return region !== OUTSIDE && isShown(region);
    });
  if (runs.length === 0) return '';
  const paths = runs.map((run) => element('path', { d: pathData([run]) }));
  const dashes = `${(10 * width).toFixed(4)} ${(6 * width).toFixed(4)}`;
  return group(
    { id: 'fold', fill: 'none', stroke: INK.soft, 'stroke-width': width, 'stroke-dasharray': dashes },
    paths,
  );
}
