import { demandOptions, demandRelief, demandTypes, refuseArgument, shown } from '../arguments.js';
import type { Bounds } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import { chainEdges } from './edge-chains.js';
import { foldMarks } from './fold-marks.js';
import { chainPath } from './map-paths.js';
import { INK } from './palette.js';
import {
  addOnMarks,
  drawingBox,
  type MarkRoom,
  pieceMarks,
  registrationBoxes,
  registrationMarks,
} from './sheet-marks.js';
import { materialEdges, NOTHING, sheetMaterial } from './sheet-material.js';
import { element, group, type PageBox, svgDocument, textElement } from './svg-markup.js';
import { FONT_FAMILY } from './text-width.js';
import { trueLines } from './true-words.js';

/** Choices for written sheets; lengths in mm. */
export interface SheetOptions {
  /** Words for the title line of each sheet. Default: none. */
  readonly title?: string;
  /** Room around the drawing for the title and the registration crosses, 0 and more. Default 12. */
  readonly margin?: number;
  /** Whether pieces carry their ids. Default true. */
  readonly marks?: boolean;
  /** Whether registration crosses are drawn (they need a margin of 9 or more). Default true. */
  readonly registration?: boolean;
}

export const DEFAULT_SHEET_OPTIONS: Required<SheetOptions> = {
  title: '',
  margin: 12,
  marks: true,
  registration: true,
};

/** One written sheet. */
export interface SheetDrawing {
  /** File name without its ending: `sheet-1` (from the front), `level-1` (from the back), `add-ons`. */
  readonly name: string;
  /** Sheet id in the stack; null for the add-ons. */
  readonly sheet: string | null;
  /** Its title line. */
  readonly title: string;
  readonly svg: string;
}

/** Width of a cut line, mm: thin enough to aim at, thick enough to print. */
const CUT_WIDTH = 0.15;

/** Distance of the registration crosses from the drawing, and the least margin that they need, mm. */
const REGISTRATION_AT = 5;
const REGISTRATION_MARGIN = 9;

const TITLE_SIZE = 3;

/** A wider margin, mm, is a mistyped one. */
const MOST_MARGIN = 1000;

/**
 * Writes what is to be cut from each sheet: one SVG a sheet at true size (one unit is one mm), at the
 * coordinates of the drawing, curves kept and split where lines meet, each line once.
 *
 * In the joint `pieces` the sheets come front to back and each carries the regions that keep it, a cut line
 * between every two pieces. In the joint `continuous` they come as levels, back to front, and lines between
 * regions of one level are not drawn. Add-ons, if there are any, come last on a drawing of their own.
 *
 * The SVG has groups with the ids `cut`, `board-edge` (what the board's own edge does, when the frame is
 * not sawn), `vein`, `fold` (marks that are not sawn, if there are any), `marks` and `registration`. A reader of the file finds the same regions again.
 */
export function writeSheets(from: { readonly relief: Relief }, options: SheetOptions = {}): SheetDrawing[] {
  demandRelief(from, 'writeSheets');
  demandOptions(options, 'writeSheets', Object.keys(DEFAULT_SHEET_OPTIONS));
  demandTypes(options, DEFAULT_SHEET_OPTIONS, 'writeSheets');
  const { relief } = from;
  const chosen = { ...DEFAULT_SHEET_OPTIONS, ...options };
  if (!(chosen.margin >= 0 && chosen.margin <= MOST_MARGIN)) {
    refuseArgument('writeSheets', `margin is ${shown(chosen.margin)}; it must be 0 to ${MOST_MARGIN} mm`);
  }
  const room = chosen.marks ? markRoom(relief.map, chosen.margin) : null;
  const sheets = relief.stack.sheets.map((sheet, index) => writeSheet(relief, sheet, index, chosen, room));
  if (relief.joint === 'continuous') sheets.reverse();
  return relief.addOns.length === 0 ? sheets : [...sheets, writeAddOns(relief, chosen, room)];
}

/** Marks may stand in the margin as far as the title is not. */
const MARKS_OUT = 4;

function markRoom(map: RegionMap, margin: number): MarkRoom {
  const drawing = drawingBox(map);
  const { x, y, width, height } = grow(drawing, Math.min(margin, MARKS_OUT));
  const area: Bounds = [x, y, x + width, y + height];
  const onTop = (face: number): boolean => face >= 0 && map.regions[face].addOn;
  const lines = trueLines(
    map,
    map.edges.filter(({ left, right }) => !onTop(left) && !onTop(right)),
  );
  return { lines, area, taken: registrationBoxes(drawing, REGISTRATION_AT) };
}

function writeSheet(
  relief: Relief,
  sheet: Sheet,
  index: number,
  options: Required<SheetOptions>,
  room: MarkRoom | null,
): SheetDrawing {
  const { map } = relief;
  const material = sheetMaterial(relief, index);
  const lines = materialEdges(map, material);
  const boardEdge = relief.frame === 'board-edge' ? lines.filter((edge) => isOutline(map, edge)) : [];
  const cut = boardEdge.length === 0 ? lines : lines.filter((edge) => !isOutline(map, edge));
  const title = [options.title, sheetTitle(relief, sheet, index)]
    .filter((part) => part !== '')
    .join(' \u2013 ');
  const svg = sheetDocument(map, title, options, [
    lineGroup(map, 'cut', cut, INK.line),
    lineGroup(map, 'board-edge', boardEdge, INK.soft),
    lineGroup(map, 'vein', veinEdges(relief, index, material), INK.vein),
    foldMarks(map, CUT_WIDTH, (region) => material[region] !== NOTHING),
    room === null ? '' : pieceMarks(relief, index, material, room),
  ]);
  const count = relief.stack.sheets.length;
  const name = relief.joint === 'pieces' ? `sheet-${index + 1}` : `level-${count - index}`;
  return { name, sheet: sheet.id, title, svg };
}

function writeAddOns(relief: Relief, options: Required<SheetOptions>, room: MarkRoom | null): SheetDrawing {
  const { map } = relief;
  const edges = new Set(
    relief.addOns.flatMap(({ region }) => map.regions[region].loops.flat().map((step) => step.edge)),
  );
  const title = [options.title, 'add-ons, glued on last'].filter((part) => part !== '').join(' \u2013 ');
  const svg = sheetDocument(map, title, options, [
    lineGroup(
      map,
      'cut',
      [...edges].sort((a, b) => a - b),
      INK.line,
    ),
    room === null ? '' : addOnMarks(relief, room),
  ]);
  return { name: 'add-ons', sheet: null, title, svg };
}

function sheetDocument(
  map: RegionMap,
  title: string,
  options: Required<SheetOptions>,
  body: readonly string[],
): string {
  const drawing = drawingBox(map);
  const page = grow(drawing, options.margin);
  const crosses = options.registration && options.margin >= REGISTRATION_MARGIN;
  const titleLine =
    options.margin < TITLE_SIZE * 2
      ? ''
      : textElement(
          drawing.x + drawing.width / 2,
          drawing.y + drawing.height + options.margin / 2 + 1,
          title,
          {
            id: 'title',
            class: 'mark',
            'font-size': TITLE_SIZE,
            'text-anchor': 'middle',
            fill: INK.soft,
          },
        );
  return svgDocument(page, title, `.mark{font-family:${FONT_FAMILY}}`, [
    ...body,
    crosses ? registrationMarks(drawing, REGISTRATION_AT) : '',
    titleLine,
  ]);
}

function lineGroup(map: RegionMap, id: string, edges: readonly number[], ink: string): string {
  const paths = chainEdges(map, edges).map((chain) => element('path', { d: chainPath(map, chain.steps) }));
  return group(
    { id, fill: 'none', stroke: ink, 'stroke-width': CUT_WIDTH, 'stroke-linejoin': 'round' },
    paths,
  );
}

/** Veins are sawn through a whole piece, and through the top level only where every level is cut by itself. */
function veinEdges(relief: Relief, index: number, material: Int32Array): number[] {
  const level = relief.stack.sheets.length - index;
  return relief.map.regions.flatMap((region, r) => {
    if (material[r] === NOTHING) return [];
    return relief.joint === 'continuous' && relief.regions[r].depth !== level ? [] : region.veins;
  });
}

function sheetTitle(relief: Relief, sheet: Sheet, index: number): string {
  const count = relief.stack.sheets.length;
  const place = index === 0 ? ' (front)' : index === count - 1 ? ' (back)' : '';
  const wood = `${sheet.material}, ${Number(sheet.thickness.toFixed(2))} mm`;
  return relief.joint === 'pieces'
    ? `sheet ${index + 1} of ${count}${place}, ${sheet.id}: ${wood}`
    : `level ${count - index} of ${count}${place}, ${sheet.id}: ${wood}`;
}

const isOutline = (map: RegionMap, edge: number): boolean =>
  map.edges[edge].left === -1 || map.edges[edge].right === -1;

const grow = ({ x, y, width, height }: PageBox, by: number): PageBox => ({
  x: x - by,
  y: y - by,
  width: width + 2 * by,
  height: height + 2 * by,
});
