import { demandStage, demandText } from '../arguments.js';
import type { Bounds, Point } from '../geometry/point.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { BOARD_ROOM } from '../workshop/waste-border.js';
import { type BoardMark, boardMark, waysFromEdge } from './board-mark.js';
import { chainEdges } from './edge-chains.js';
import { foldMarks } from './fold-marks.js';
import { chainPath } from './map-paths.js';
import { INK } from './palette.js';
import { planCanvas } from './plan-canvas.js';
import { drawingBox, registrationBoxes, registrationMarks, wordGroups } from './sheet-marks.js';
import { element, group, svgDocument, svgNumber, textElement } from './svg-markup.js';
import { BASELINE, FONT_FAMILY, textWidth } from './text-width.js';
import { layOutTrueDrawing } from './true-drawing.js';
import { EYE, HOLE_ARM, type TrueStart } from './true-starts.js';

/** File name of the drawing beside the sheets. */
export const DRAWING_FILE = 'drawing.svg';

/** Width of a line to saw, and of the mark of a start, mm. */
const LINE_WIDTH = 0.15;

/** Room around the drawing, mm: that of the least board, where ways in begin. In it the registration crosses. */
const MARGIN = BOARD_ROOM;
const REGISTRATION_AT = 5;

/** Size of the title, and room for it below, mm. */
const TITLE_SIZE = 3;
const TITLE_ROOM = 5;

/** Size of a note below the title, and room for each of its lines, mm. */
const NOTE_SIZE = 2.4;
const NOTE_ROOM = 4;

/**
 * The drawing to stick on the front sheet, as one SVG at true size (mm): every line that is sawn in any sheet, add-ons
 * dashed, each piece with the id that it has in the plan and that of its region (`p6 r8`; `p6` where there is no more
 * room), each hole, place to thread and way in with its step, bit and setting as on the last pages of the printed plan,
 * and the crosses of the written sheets. The sheets by themselves have not all lines: a recess takes away what is
 * sawn within it.
 *
 * @throws PlystepError `bad-option` where the plan is none, or the title no text
 */
export function writeDrawing(plan: CutPlan, title = ''): string {
  demandStage(plan, ['plan'], 'writeDrawing');
  demandText(title, 'writeDrawing', 'title');
  const { map } = plan.relief;
  const box = drawingBox(map);
  const onTop = (face: number): boolean => face >= 0 && map.regions[face].addOn;
  const isAddOn = (e: number): boolean => onTop(map.edges[e].left) || onTop(map.edges[e].right);
  const all = map.edges.map((_, e) => e);
  const words = [title, 'drawing to stick on the front'].filter((part) => part !== '').join(' \u2013 ');
  const [left, top, width] = [box.x - MARGIN, box.y - MARGIN, box.width + 2 * MARGIN];
  const bottom = box.y + box.height + MARGIN;
  const area: Bounds = [left + 1, top + 1, left + width - 1, bottom];
  const edge = boardMark(plan, area, waysFromEdge(plan));
  const taken = [...registrationBoxes(box, REGISTRATION_AT), ...(edge === null ? [] : [edge.box])];
  const { starts, ids, cutouts, steps, bits } = layOutTrueDrawing(planCanvas(plan), area, [], taken);
  const notes = wrapped(bits, width - 4);
  const page = { x: left, y: top, width, height: bottom - top + TITLE_ROOM + NOTE_ROOM * notes.length };
  return svgDocument(page, words, `.mark{font-family:${FONT_FAMILY}}`, [
    lineGroup(
      plan,
      'lines',
      all.filter((e) => !isAddOn(e)),
      {},
    ),
    lineGroup(plan, 'add-ons', all.filter(isAddOn), { 'stroke-dasharray': '1 0.7' }),
    foldMarks(map, LINE_WIDTH, () => true),
    startGroups(starts),
    wordGroups(ids, { id: 'marks', fill: INK.soft }),
    wordGroups(cutouts, { id: 'cutouts', fill: INK.soft }),
    wordGroups(steps, { id: 'steps', fill: INK.drill }),
    registrationMarks(box, REGISTRATION_AT),
    ...(edge === null ? [] : [boardGroup(edge)]),
    ...notes.map((note, i) =>
      textElement(box.x + box.width / 2, bottom + TITLE_ROOM + NOTE_ROOM * (i + 0.5), note, {
        class: 'mark',
        'font-size': NOTE_SIZE,
        'text-anchor': 'middle',
        fill: INK.drill,
      }),
    ),
    textElement(box.x + box.width / 2, bottom + TITLE_ROOM / 2, words, {
      id: 'title',
      class: 'mark',
      'font-size': TITLE_SIZE,
      'text-anchor': 'middle',
      fill: INK.soft,
    }),
  ]);
}

/** Words in lines no wider than this. */
function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').filter((part) => part !== '')) {
    const last = lines[lines.length - 1];
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer, NOTE_SIZE) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** The edge of the least board, dashed, so no reader takes it for a cut. */
function boardGroup({ board: [x0, y0, x1, y1], at, size, text }: BoardMark): string {
  const rect = element('rect', {
    x: x0,
    y: y0,
    width: x1 - x0,
    height: y1 - y0,
    fill: 'none',
    stroke: INK.soft,
    'stroke-width': LINE_WIDTH,
    'stroke-dasharray': '4 1.2',
  });
  const words = textElement(at[0], at[1] + size * BASELINE, text, {
    class: 'mark',
    'font-size': size,
    'text-anchor': 'middle',
    fill: INK.soft,
  });
  return group({ id: 'board' }, [rect, words]);
}

function lineGroup(
  { relief: { map } }: CutPlan,
  id: string,
  edges: readonly number[],
  more: Readonly<Record<string, string>>,
): string {
  if (edges.length === 0) return '';
  const paths = chainEdges(map, edges).map((chain) => element('path', { d: chainPath(map, chain.steps) }));
  return group({ id, fill: 'none', stroke: INK.line, 'stroke-width': LINE_WIDTH, ...more }, paths);
}

/** Holes as circles of their size with a cross, open places to thread as eyes, ways in as dashes. */
function startGroups(starts: readonly TrueStart[]): string {
  const ways = starts
    .filter(({ kind }) => kind === 'way')
    .map(({ way }) => element('path', { d: pathOf(way) }));
  const marks = starts.filter(({ kind }) => kind !== 'way').map((start) => startMark(start));
  const look = { fill: 'none', stroke: INK.drill, 'stroke-width': LINE_WIDTH };
  return [
    group({ id: 'holes', ...look }, marks),
    group({ id: 'ways', ...look, 'stroke-dasharray': '0.9 0.7' }, ways),
  ]
    .filter((part) => part !== '')
    .join('\n');
}

function startMark({ kind, start }: TrueStart): string {
  const [x, y] = start.at;
  if (kind === 'thread') {
    const rim = pathOf([
      [x - EYE, y],
      [x, y - EYE],
      [x + EYE, y],
      [x, y + EYE],
    ]);
    return element('path', {
      d: `${rim}Z${pathOf([
        [x, y - EYE / 2],
        [x, y + EYE / 2],
      ])}`,
    });
  }
  const radius = (start.diameter ?? 1) / 2;
  const arm = radius + HOLE_ARM;
  const cross =
    pathOf([
      [x - arm, y],
      [x + arm, y],
    ]) +
    pathOf([
      [x, y - arm],
      [x, y + arm],
    ]);
  return element('circle', { cx: x, cy: y, r: radius }) + element('path', { d: cross });
}

const pathOf = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${svgNumber(x)} ${svgNumber(y)}`).join('L')}`;
