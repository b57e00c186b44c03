import type { Relief } from '../relief/relief.js';
import { chainEdges } from './edge-chains.js';
import { chainPath, regionPath } from './map-paths.js';
import { INK } from './palette.js';
import { drawingBox } from './sheet-marks.js';
import { materialEdges, NOTHING, sheetMaterial } from './sheet-material.js';
import { element, group, svgDocument } from './svg-markup.js';

/** Wood where a sheet has no colour of its own, and the offcut around it. */
const WOOD = '#ecd9b0';
const OFFCUT = '#f1efec';

/** Line width, in parts of the drawing's width. */
const LINE_PART = 1 / 700;

/**
 * A small picture of one sheet (null: the add-ons): what is kept of it in its colour, the rest pale. For
 * looking at, not for cutting.
 */
export function sheetPicture(relief: Relief, sheet: string | null): string {
  const { map } = relief;
  const page = drawingBox(map);
  const place = relief.stack.sheets.findIndex((each) => each.id === sheet);
  const addOns = relief.addOns.map((addOn) => addOn.region);
  const material =
    sheet === null
      ? Int32Array.from(map.regions, (_, index) => addOns.indexOf(index))
      : sheetMaterial(relief, place);
  const kept = map.regions.filter((_, index) => material[index] !== NOTHING);
  const lines = chainEdges(map, materialEdges(map, material));
  const wood = relief.stack.sheets[place]?.color ?? WOOD;
  const width = page.width * LINE_PART;
  return svgDocument(page, sheet ?? 'add-ons', '', [
    element('rect', { ...page, fill: OFFCUT }),
    group(
      // The stroke closes the hairline that a renderer leaves between two areas of one body.
      { fill: wood, stroke: wood, 'stroke-width': width, 'fill-rule': 'evenodd' },
      kept.map((region) => element('path', { d: regionPath(map, region) })),
    ),
    group(
      { fill: 'none', stroke: INK.line, 'stroke-width': width },
      lines.map((chain) => element('path', { d: chainPath(map, chain.steps) })),
    ),
  ]);
}
