import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { INK } from './palette.js';
import { NOTHING } from './sheet-material.js';
import { element, group, type PageBox, svgNumber, textElement } from './svg-markup.js';
import { BASELINE, textWidth } from './text-width.js';

/** Largest and smallest type of a mark on a piece, mm: readable pencil size, and the least that a laser draws. */
const LARGEST = 3;
const SMALLEST = 0.9;

/** Arm of a registration cross, mm. */
const ARM = 3;

/**
 * The marks of one sheet: on each piece its region id and, in the joint `pieces`, which of the piece's sheets
 * this is, counted from the face (`r12 2/3`).
 */
export function pieceMarks(relief: Relief, sheet: number, material: Int32Array): string {
  const marks = relief.map.regions.flatMap((region, index) => {
    const body = relief.regions[index].body;
    if (material[index] === NOTHING || body === null || relief.bodies[body].region !== index) return [];
    const { order } = relief.bodies[body];
    const place = order.indexOf(relief.stack.sheets[sheet].id) + 1;
    const text = relief.joint === 'pieces' ? `${region.id} ${place}/${order.length}` : region.id;
    return [markText(text, region.labelPoint, region.labelRoom)];
  });
  return group(markAttributes('marks'), marks);
}

/** Marks on the add-ons: region id and number of extra sheets (`r7, 2 sheets`). */
export function addOnMarks(relief: Relief): string {
  const marks = relief.addOns.map((addOn) => {
    const region = relief.map.regions[addOn.region];
    const text = addOn.sheets === 1 ? region.id : `${region.id}, ${addOn.sheets} sheets`;
    return markText(text, region.labelPoint, region.labelRoom);
  });
  return group(markAttributes('marks'), marks);
}

/** Four crosses outside the drawing, at the same places on every sheet, to lay the sheets over one another. */
export function registrationMarks(drawing: PageBox, distance: number): string {
  const xs = [drawing.x - distance, drawing.x + drawing.width + distance];
  const ys = [drawing.y - distance, drawing.y + drawing.height + distance];
  const crosses = ys.flatMap((y) =>
    xs.map((x) => {
      const [left, top, at] = [svgNumber(x - ARM), svgNumber(y - ARM), [svgNumber(x), svgNumber(y)]];
      return element('path', { d: `M${left} ${at[1]}h${2 * ARM}M${at[0]} ${top}v${2 * ARM}` });
    }),
  );
  // Dashes tell a reader, plystep included, that these are no cut lines.
  const attributes = {
    id: 'registration',
    fill: 'none',
    stroke: INK.soft,
    'stroke-width': 0.15,
    'stroke-dasharray': '0.6 0.3',
  };
  return group(attributes, crosses);
}

/** The bounds of all lines of a map, joined with its page. */
export function drawingBox(map: RegionMap): PageBox {
  let { x, y, width, height } = map.page;
  for (const { bounds } of map.regions) {
    const right = Math.max(x + width, bounds[2]);
    const bottom = Math.max(y + height, bounds[3]);
    x = Math.min(x, bounds[0]);
    y = Math.min(y, bounds[1]);
    width = right - x;
    height = bottom - y;
  }
  return { x, y, width, height };
}

const markAttributes = (id: string) => ({ id, class: 'mark', fill: INK.soft, 'text-anchor': 'middle' });

/** A mark centred at a point, as large as fits into `room` around it, mm. */
export function markText(text: string, [x, y]: readonly [number, number], room: number): string {
  const widthAtOne = textWidth(text, 1);
  const size = Math.min(LARGEST, Math.max(SMALLEST, (2 * room) / Math.hypot(widthAtOne, 1)));
  return textElement(x, y + size * BASELINE, text, { 'font-size': size });
}
