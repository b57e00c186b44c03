import type { Bounds } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { joinAreas } from '../workshop/areas.js';
import { keptLevels } from '../workshop/levels.js';
import type { PlacedLabel } from './label-request.js';
import { INK } from './palette.js';
import { NOTHING } from './sheet-material.js';
import { element, group, type PageBox, svgNumber } from './svg-markup.js';
import { leaderMarkup, placeTrueWords, type TrueLines, type TrueWord, wordMarkup } from './true-words.js';

/** Arm of a registration cross, mm. */
const ARM = 3;

/** What the marks of all sheets of one relief share. */
export interface MarkRoom {
  readonly lines: TrueLines;
  /** Where marks may stand. */
  readonly area: Bounds;
  /** What they must not cover. */
  readonly taken: readonly Bounds[];
}

/**
 * The marks of one sheet, in the language of the plan: on each piece its id and the sheet that this is (`p12 s2`, or
 * `p12` where there is no more room); in the joint `continuous` the parts of the level (`s2.1`).
 */
export function pieceMarks(relief: Relief, sheet: number, material: Int32Array, room: MarkRoom): string {
  const { id } = relief.stack.sheets[sheet];
  return markGroup(relief.joint === 'pieces' ? ofPieces(relief, id, material) : ofLevel(relief, sheet), room);
}

function ofPieces({ map, regions, bodies }: Relief, sheet: string, material: Int32Array): TrueWord[] {
  return map.regions.flatMap(({ labelPoint, labelRoom }, index): TrueWord[] => {
    const { body } = regions[index];
    if (material[index] === NOTHING || body === null || bodies[body].region !== index) return [];
    const { id } = bodies[body];
    return [{ text: `${id} ${sheet}`, short: id, at: labelPoint, room: labelRoom }];
  });
}

/** The parts of a level, numbered as in the plan. */
function ofLevel(relief: Relief, sheet: number): TrueWord[] {
  const { map, stack } = relief;
  const level = stack.sheets.length - sheet;
  const kept = keptLevels(relief).map((levels) => (levels >= level ? 0 : NOTHING));
  return joinAreas(map, kept).map(({ regions }, i) => {
    const widest = regions.reduce((a, r) => (map.regions[r].labelRoom > map.regions[a].labelRoom ? r : a));
    const { labelPoint, labelRoom } = map.regions[widest];
    return { text: `${stack.sheets[sheet].id}.${i + 1}`, at: labelPoint, room: labelRoom };
  });
}

/** Marks on the add-ons: id and number of sheets where it has several (`a2, 2 sheets`). */
export function addOnMarks(relief: Relief, room: MarkRoom): string {
  const words = relief.addOns.map(({ id, region, sheets }): TrueWord => {
    const { labelPoint, labelRoom } = relief.map.regions[region];
    const text = sheets === 1 ? id : `${id}, ${sheets} sheets`;
    return { text, short: id, at: labelPoint, room: labelRoom };
  });
  return markGroup(words, room);
}

function markGroup(words: readonly TrueWord[], { lines, area, taken }: MarkRoom): string {
  return wordGroups(placeTrueWords(words, lines, area, taken), { id: 'marks', fill: INK.soft });
}

/** Placed words as one group, with lines to what they speak of where they stand beside it. */
export function wordGroups(
  words: readonly PlacedLabel[],
  { id, fill }: { readonly id: string; readonly fill: string },
): string {
  const leaders = words.map((word) => leaderMarkup(word)).filter((part) => part !== '');
  // Dashes tell a reader, plystep included, that these are no cut lines.
  const look = { class: 'leaders', fill, stroke: fill, 'stroke-width': 0.12, 'stroke-dasharray': '0.6 0.35' };
  const texts = words.map((word) => wordMarkup(word));
  const parts = [group(look, leaders), ...texts].filter((part) => part !== '');
  return group({ id, class: 'mark', fill, 'text-anchor': 'middle' }, parts);
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

/** The boxes that the crosses take. */
export function registrationBoxes({ x, y, width, height }: PageBox, distance: number): Bounds[] {
  return [x - distance, x + width + distance].flatMap((cx) =>
    [y - distance, y + height + distance].map((cy): Bounds => [cx - ARM, cy - ARM, cx + ARM, cy + ARM]),
  );
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
