import { pathData } from '../geometry/path-data.js';
import type { Bounds, Point } from '../geometry/point.js';
import { BOARD_ROOM } from '../workshop/waste-border.js';
import { type BoardMark, boardMark, waysFromEdge } from './board-mark.js';
import { foldMarks } from './fold-marks.js';
import { PICTURE_DIGITS, type PlanCanvas } from './plan-canvas.js';
import { use } from './plan-maps.js';
import { trueMarks } from './plan-true-marks.js';
import { element, svgNumber, textElement } from './svg-markup.js';
import { BASELINE } from './text-width.js';
import { layOutTrueDrawing } from './true-drawing.js';

/** What fits on one printed page, A4 or letter, mm; neighbouring pages share a strip. */
const TILE = { width: 178, height: 236 };
const OVERLAP = 6;

/** Room around the drawing where its outline is sawn, for the registration marks, mm; else for nothing but a rim. */
const ROOM = { cut: BOARD_ROOM, 'board-edge': 2 } as const;

/** With so much room the marks are there still, where more would take a further page for nothing but waste, mm. */
const LEAST_ROOM = 10;

/** Width of a fold mark, mm. */
const FOLD_WIDTH = 0.2;

/** How far outside the drawing the registration holes stand, mm. */
const REGISTRATION_AT = 8;

/** More pages than this are not printed with the plan: the written sheets are made for larger paper. */
export const MOST_TILES = 24;

/**
 * The drawing at true size, to be stuck on the front sheet: all lines, the holes with the numbers of their steps,
 * the ids of the pieces, the seats of the add-ons, marks for registration; in as many pages as it takes.
 */
export function trueSizePages(canvas: PlanCanvas): string {
  const { relief } = canvas.plan;
  const area = printedArea(canvas.drawing, ROOM[relief.frame]);
  const [columns, rows] = [tiles(area[2] - area[0], TILE.width), tiles(area[3] - area[1], TILE.height)];
  if (columns * rows > MOST_TILES) {
    return `<p>It takes ${columns * rows} pages: print the file drawing.svg, which is written beside the sheets, at 100 % on larger paper instead.</p>`;
  }
  const places: (readonly [tile: Bounds, place: TilePlace])[] = [];
  const seams: number[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const x = area[0] + column * (TILE.width - OVERLAP);
      const y = area[1] + row * (TILE.height - OVERLAP);
      const tile: Bounds = [x, y, Math.min(x + TILE.width, area[2]), Math.min(y + TILE.height, area[3])];
      places.push([tile, { row, column, rows, columns }]);
      seams.push(...innerEdges(tile, area));
    }
  }
  const { group, bits } = drawingGroup(canvas, area, seams);
  const pages = places.map(([tile, place]) => tilePage(tile, place, bits));
  return `<svg class="outlines" aria-hidden="true"><defs>${group}</defs></svg>${pages.join('\n')}`;
}

/** Room for half the width of the board's edge, mm. */
const EDGE_ROOM = 0.3;

/** The drawing and the room around it, less to the sides or above and below where that saves pages. */
function printedArea([x0, y0, x1, y1]: Bounds, room: number): Bounds {
  const least = Math.min(room, LEAST_ROOM);
  const roomOf = (size: number, tile: number): number =>
    tiles(size + 2 * least, tile) < tiles(size + 2 * room, tile) ? least : room;
  const [across, down] = [roomOf(x1 - x0, TILE.width), roomOf(y1 - y0, TILE.height)];
  // The edge of the board is seen whole where it is on the page.
  const fits = (size: number, tile: number): number =>
    tiles(size + 2 * EDGE_ROOM, tile) > tiles(size, tile) ? 0 : EDGE_ROOM;
  const [more, below] = [fits(x1 - x0 + 2 * across, TILE.width), fits(y1 - y0 + 2 * down, TILE.height)];
  return [x0 - across - more, y0 - down - below, x1 + across + more, y1 + down + below];
}

/** The edges of a page that lie within the drawing, as segments: no word is cut in two there. */
function innerEdges([x0, y0, x1, y1]: Bounds, [left, top, right, bottom]: Bounds): number[] {
  const edges: number[] = [];
  if (x0 > left) edges.push(x0, y0, x0, y1);
  if (x1 < right) edges.push(x1, y0, x1, y1);
  if (y0 > top) edges.push(x0, y0, x1, y0);
  if (y1 < bottom) edges.push(x0, y1, x1, y1);
  return edges;
}

function tiles(size: number, tile: number): number {
  return Math.max(1, Math.ceil((size - OVERLAP) / (tile - OVERLAP)));
}

interface TilePlace {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** What stands beside a mark of the drawing. */
const MARKS_KEY =
  'Beside a mark: step, bit where there are several, setting; a number alone: the step; after a semicolon: a later step that is threaded through the same place; in grey after that: the cutout that the mark lies in.';

function tilePage(tile: Bounds, { row, column, rows, columns }: TilePlace, bits: string): string {
  const [x0, y0, x1, y1] = tile;
  const [width, height] = [x1 - x0, y1 - y0].map((v) => svgNumber(v, PICTURE_DIGITS));
  const box = `${svgNumber(x0, PICTURE_DIGITS)} ${svgNumber(y0, PICTURE_DIGITS)} ${width} ${height}`;
  const half = OVERLAP / 2;
  const joints: Point[] = [];
  for (const x of [column > 0 ? x0 + half : null, column + 1 < columns ? x1 - half : null]) {
    if (x !== null) joints.push([x, y0 + half], [x, y1 - half]);
  }
  for (const y of [row > 0 ? y0 + half : null, row + 1 < rows ? y1 - half : null]) {
    if (y !== null) joints.push([x0 + half, y], [x1 - half, y]);
  }
  const crosses = joints.map(([x, y]) => element('path', { d: crossAt([x, y], half), class: 'joint' }));
  const place =
    rows * columns === 1
      ? ''
      : `Page ${row * columns + column + 1} of ${rows * columns}: row ${row + 1}, column ${column + 1}. `;
  return (
    `<figure class="tile"><svg class="true" width="${width}mm" height="${height}mm" viewBox="${box}">` +
    `<use href="#true-size"/>${crosses.join('')}</svg>` +
    `<figcaption><span class="bar"></span> ${place}This bar is 100 mm long when the page is printed at 100 %. ${MARKS_KEY}${bits === '' ? '' : ` ${bits}`}</figcaption></figure>`
  );
}

/** The drawing to be shown in parts, and what is said of the bits of its holes. */
function drawingGroup(
  canvas: PlanCanvas,
  area: Bounds,
  seams: readonly number[],
): { readonly group: string; readonly bits: string } {
  const { plan, shapes, drawing } = canvas;
  const { map, frame } = plan.relief;
  const outlines = map.regions.map(({ id, addOn }) => use(id, `class="${addOn ? 'seat' : 'line'}"`));
  const veins = map.edges.flatMap(({ kind }, e) => (kind === 'border' ? [] : [shapes.curves(e)]));
  const detail =
    veins.length === 0 ? '' : element('path', { d: pathData(veins, { digits: 3 }), class: 'line' });
  const pins = frame === 'cut' ? pinPlaces(drawing) : [];
  const edge = boardMark(plan, area, waysFromEdge(plan));
  const taken = [...pins.map(boxOfPin), ...(edge === null ? [] : [edge.box])];
  const marks = layOutTrueDrawing(canvas, area, seams, taken);
  const parts = [...outlines, detail, foldMarks(map, FOLD_WIDTH, () => true), trueMarks(marks)];
  const group = `<g id="true-size">${[...parts, edgeMarkup(edge), ...pins.map(pinMark)].join('')}</g>`;
  return { group, bits: marks.bits };
}

/** The edge of the least board, in dashes, and its words. */
function edgeMarkup(edge: BoardMark | null): string {
  if (edge === null) return '';
  const [x0, y0, x1, y1] = edge.board;
  return (
    element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: 'board-edge' }) +
    textElement(edge.at[0], edge.at[1] + edge.size * BASELINE, edge.text, {
      'font-size': svgNumber(edge.size),
    })
  );
}

/** Two opposite corners: enough to lay sheets alike, and not to turn them. */
function pinPlaces([x0, y0, x1, y1]: Bounds): Point[] {
  return [
    [x0 - REGISTRATION_AT + 2, y0 - REGISTRATION_AT + 2],
    [x1 + REGISTRATION_AT - 2, y1 + REGISTRATION_AT - 2],
  ];
}

/** A pin with its letter. */
const boxOfPin = ([x, y]: Point): Bounds => [x - 3, y - 4, x + 4, y + 3];

function pinMark([x, y]: Point): string {
  return (
    element('circle', { cx: x, cy: y, r: 1.5, class: 'pin' }) +
    element('path', { d: crossAt([x, y], 3), class: 'joint' }) +
    textElement(x + 2.2, y - 1.6, 'R', { 'font-size': '3' })
  );
}

function crossAt([x, y]: Point, arm: number): string {
  const num = (v: number): string => svgNumber(v, PICTURE_DIGITS);
  return `M${num(x - arm)} ${num(y)}h${num(2 * arm)}M${num(x)} ${num(y - arm)}v${num(2 * arm)}`;
}
