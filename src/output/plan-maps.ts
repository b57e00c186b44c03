import { pathData } from '../geometry/path-data.js';
import type { Bounds, Point } from '../geometry/point.js';
import type { CutStep, Pass } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import { boardAround } from '../workshop/waste-border.js';
import { depthTint } from './palette.js';
import type { LetteredBlock } from './plan-blocks.js';
import { grow, isUpright, PICTURE_DIGITS, type PlanCanvas, picture } from './plan-canvas.js';
import {
  MAP_HEIGHT,
  MAP_MARGIN,
  type MapLabel,
  MIDDLE_MAP_HEIGHT,
  mapUnit,
  SMALL_MAP_HEIGHT,
  UPRIGHT_MAP_HEIGHT,
} from './plan-labels.js';
import { drillMark } from './plan-marks.js';
import { narrowRows } from './plan-narrow.js';
import type { Progress } from './plan-progress.js';
import { boardWaste } from './plan-waste.js';
import { element, svgNumber, textElement } from './svg-markup.js';

/** Size of the mark of a hole, in units. */
const HOLE_MARK = 0.28;

/** How far the cross of a hole reaches, in units: see `drillMark`. */
const HOLE_REACH = 2.3 * HOLE_MARK;

/** A setting of so few steps gets a small picture. */
const FEW_STEPS = 4;

/** And one of so many steps one of middle size. */
const SOME_STEPS = 24;

/** All pieces in their places, tinted by height, with their ids; the seats of add-ons dashed. */
export function piecesMap(canvas: PlanCanvas): string {
  const { plan } = canvas;
  const { map } = plan.relief;
  const ids = plan.pieces.flatMap(({ id, region, sheets }): MapLabel[] =>
    plan.relief.joint === 'pieces' || sheets[0] === plan.relief.stack.sheets[0].id
      ? [{ text: id, at: map.regions[region].labelPoint, room: map.regions[region].labelRoom }]
      : [],
  );
  const addOns = plan.relief.addOns.map(
    ({ id, region }): MapLabel => ({
      text: id,
      at: map.regions[region].labelPoint,
      room: map.regions[region].labelRoom,
    }),
  );
  return whole(canvas, 'map', [...tinted(canvas), ...seats(canvas)], [...ids, ...addOns]);
}

/** The narrow places, numbered. */
export function narrowMap(canvas: PlanCanvas): string {
  const { plan, page } = canvas;
  const unit = mapUnit(page);
  const marks = plan.bridges.map(({ at }) =>
    element('circle', { cx: num(at[0]), cy: num(at[1]), r: num(0.7 * unit), class: 'weak' }),
  );
  const labels = narrowRows(plan).map(
    ({ bridge: { at } }, i): MapLabel => ({ text: String(i + 1), at, room: 0 }),
  );
  // Beside the picture there is the table: a small one leaves room for it.
  const small = mapUnit(page, SMALL_MAP_HEIGHT);
  return labels.length > 30
    ? whole(canvas, 'map', [...tinted(canvas), ...marks], labels)
    : whole(canvas, 'map small', [...tinted(canvas), ...marks], labels, [], small);
}

/** What is left of each sheet, side by side. */
export function offcutMaps({ plan, drawing }: PlanCanvas): string {
  const { map } = plan.relief;
  const figures = plan.offcuts.flatMap(({ sheet, regions }) => {
    if (regions.length === 0) return [];
    const color = plan.relief.stack.sheets.find((s) => s.id === sheet)?.color ?? '#d9c9a3';
    const left = regions.map((r) => use(map.regions[r].id, `fill="${color}"`));
    const [x0, y0, x1, y1] = drawing;
    const frame = element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: 'edge' });
    return `<figure>${picture('left', grow(drawing, 1), [...left, frame])}<figcaption>what is left of ${sheet}</figcaption></figure>`;
  });
  return `<div class="offcuts">${figures.join('')}</div>`;
}

/** The whole drawing before a setting: its lines, its holes, its blocks, its steps by their numbers. */
export function settingMap(canvas: PlanCanvas, pass: Pass, progress: Progress, first: number): string {
  const { plan, shapes } = canvas;
  const { map, frame } = plan.relief;
  // Where its outline is sawn, the board is shown with its edge.
  const board = frame === 'cut' ? grow(boardAround(map), 1) : null;
  const isSmall = pass.steps.length <= FEW_STEPS || pass.phase === 'add-ons';
  const isMiddle = !isSmall && pass.steps.length <= SOME_STEPS;
  const most = isMiddle ? MIDDLE_MAP_HEIGHT : isUpright(canvas) ? UPRIGHT_MAP_HEIGHT : MAP_HEIGHT;
  const height = isSmall ? SMALL_MAP_HEIGHT : most;
  const unit = mapUnit(board ?? canvas.page, height);
  const own = new Set(plan.relief.addOns.map(({ region }) => region));
  const isAddOns = pass.phase === 'add-ons';
  const blocks = canvas.blocks.setting(pass);
  const blockOf = new Map(blocks.flatMap(({ regions }, b) => regions.map((r) => [r, b] as const)));
  const byStanding = new Map<string, string[]>();
  map.regions.forEach((region, r) => {
    if (isAddOns ? !own.has(r) : region.addOn) return;
    const standing = isAddOns ? 'stays' : toneIn(blocks, blockOf.get(r), progress.standing(r, pass.sheets));
    const list = byStanding.get(standing);
    if (list === undefined) byStanding.set(standing, [use(region.id)]);
    else list.push(use(region.id));
  });
  const areas = [...byStanding].map(([standing, list]) => `<g class="${standing}">${list.join('')}</g>`);
  const lines = pass.steps.map((step) => {
    const d = pathData(stepCurves(map, step, shapes), { digits: PICTURE_DIGITS });
    return element('path', { d, class: 'now', 'stroke-width': num(0.28 * unit) });
  });
  const holes = pass.steps.map((step) =>
    step.start.kind === 'drill' ? drillMark(step.start, HOLE_MARK * unit) : '',
  );
  const places = pass.steps.map((step) => labelPlace(canvas, step, HOLE_REACH * unit));
  const letters = blockLetters(canvas, pass, blocks, progress, places, unit);
  const taken = [
    ...pass.steps.flatMap(({ start: { kind, at } }) =>
      kind === 'drill' ? [boxAround(at, HOLE_REACH * unit)] : [],
    ),
    ...letters.map(({ at, radius }) => boxAround(at, radius)),
  ];
  const labels = places.map(({ at, room, reach }, i): MapLabel => {
    const letter = letters.find((l) => Math.hypot(l.at[0] - at[0], l.at[1] - at[1]) < l.radius);
    return { text: String(first + i), at, room, reach: letter?.radius ?? reach ?? 0 };
  });
  const waste = boardWaste(plan, pass, [], progress);
  const body = [...waste, ...areas, ...lines, ...holes, ...letters.map((letter) => letterMark(letter))];
  return whole(
    canvas,
    isSmall ? 'map small' : isMiddle ? 'map middle' : 'map',
    body,
    labels,
    taken,
    unit,
    board,
  );
}

const boxAround = ([x, y]: Point, r: number): Bounds => [x - r, y - r, x + r, y + r];

/** The letter of a block in the picture of its setting. */
interface BlockLetter {
  readonly text: string;
  readonly at: Point;
  readonly radius: number;
}

/** The letters of the blocks, each in the widest of its regions that no number wants, where one is wide enough. */
function blockLetters(
  { plan: { relief } }: PlanCanvas,
  pass: Pass,
  blocks: readonly LetteredBlock[],
  progress: Progress,
  numbers: readonly { readonly at: Point }[],
  unit: number,
): BlockLetter[] {
  if (blocks.length < 2) return [];
  const { regions: all } = relief.map;
  const wanted = new Set(numbers.map(({ at }) => at));
  const widest = (some: readonly number[]): number | undefined =>
    some.reduce<number | undefined>(
      (a, r) => (a === undefined || all[r].labelRoom > all[a].labelRoom ? r : a),
      undefined,
    );
  return blocks.flatMap(({ regions, letter }): BlockLetter[] => {
    const own = regions.filter((r) => progress.standing(r, pass.sheets) !== 'open');
    const free = widest(own.filter((r) => !wanted.has(all[r].labelPoint)));
    const isWide = free !== undefined && all[free].labelRoom >= LEAST_LETTER * unit;
    const region = isWide ? free : widest(own);
    if (region === undefined) return [];
    const { labelPoint: at, labelRoom } = all[region];
    const radius = Math.max(LEAST_LETTER * unit, Math.min(LETTER * unit, labelRoom));
    return [{ text: letter, at, radius }];
  });
}

function letterMark({ text, at: [x, y], radius }: BlockLetter): string {
  return (
    element('circle', { cx: num(x), cy: num(y), r: num(radius), class: 'letter' }) +
    textElement(x, y + 0.44 * radius, text, { 'font-size': num(1.28 * radius), class: 'letter' })
  );
}

/** Radius of a block's letter, in units: it fits into its region where that has room. */
const LETTER = 1.25;
const LEAST_LETTER = 0.7;

/** So many tints tell blocks apart. */
const BLOCK_TINTS = 4;

/** What stands of a block has a tint of its own where there are several. */
function toneIn(blocks: readonly LetteredBlock[], block: number | undefined, standing: string): string {
  if (blocks.length < 2 || block === undefined || standing !== 'stays') return standing;
  return `stays tint-${block % BLOCK_TINTS}`;
}

/** Where the number of a step stands: in what it frees, else by its start. @param hole how far the mark of a hole reaches */
function labelPlace({ plan }: PlanCanvas, step: CutStep, hole: number): Omit<MapLabel, 'text'> {
  const region =
    step.frees === 'piece' || step.frees === 'waste' ? plan.relief.map.regions[step.regions[0]] : null;
  if (region === null)
    return { at: step.start.at, room: 0, ...(step.start.kind === 'drill' ? { reach: hole } : {}) };
  return { at: region.labelPoint, room: region.labelRoom };
}

/** A picture of the whole with its labels. */
export function whole(
  { page, drawing, label }: PlanCanvas,
  name: string,
  body: readonly string[],
  labels: readonly MapLabel[],
  taken: readonly Bounds[] = [],
  unit: number = mapUnit(page),
  shown: Bounds | null = null,
): string {
  const view = shown ?? grow(drawing, MAP_MARGIN * unit);
  return picture(name, view, [...body, label(labels, view, unit, taken)]);
}

/** Regions by how many sheets they keep. */
export function tinted({ plan }: PlanCanvas): string[] {
  const { relief } = plan;
  return relief.regions.flatMap(({ depth, role }, r) => {
    if (relief.map.regions[r].addOn || depth === null || role === 'void' || role === 'opening') return [];
    return [use(relief.map.regions[r].id, `fill="${depthTint(depth, relief.stack.sheets.length)}"`)];
  });
}

function seats({ plan }: PlanCanvas): string[] {
  return plan.relief.addOns.map(({ region }) => use(plan.relief.map.regions[region].id, 'class="seat"'));
}

export function use(id: string, rest = ''): string {
  return `<use href="#${id}"${rest === '' ? '' : ` ${rest}`}/>`;
}

const num = (value: number): string => svgNumber(value, PICTURE_DIGITS);
