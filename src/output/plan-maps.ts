import { pathData } from '../geometry/path-data.js';
import type { Bounds, Point } from '../geometry/point.js';
import type { CutStep, Pass } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import { boardAround } from '../workshop/waste-border.js';
import { depthTint } from './palette.js';
import { blockLetter } from './plan-blocks.js';
import { grow, PICTURE_DIGITS, type PlanCanvas, picture } from './plan-canvas.js';
import { MAP_HEIGHT, MAP_MARGIN, type MapLabel, mapUnit, SMALL_MAP_HEIGHT } from './plan-labels.js';
import { drillMark } from './plan-marks.js';
import { narrowRows } from './plan-narrow.js';
import type { Progress } from './plan-progress.js';
import { boardWaste } from './plan-waste.js';
import { element, svgNumber, textElement } from './svg-markup.js';

/** Size of the mark of a hole, in units. */
const HOLE_MARK = 0.28;

/** A setting of so few steps gets a small picture. */
const FEW_STEPS = 4;

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

/** The pieces again, each with the number of its place in the glue-up. */
export function glueMap(canvas: PlanCanvas): string {
  const { plan } = canvas;
  const { map } = plan.relief;
  const regionOf = new Map(plan.pieces.map(({ id, region }) => [id, region]));
  const labels = (plan.glueUp?.steps ?? []).flatMap(({ item, kind }, i): MapLabel[] => {
    const region = regionOf.get(item);
    if (kind !== 'piece' || region === undefined) return [];
    return [{ text: String(i + 1), at: map.regions[region].labelPoint, room: map.regions[region].labelRoom }];
  });
  return whole(canvas, 'map', tinted(canvas), labels);
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
  const unit = mapUnit(board ?? canvas.page, isSmall ? SMALL_MAP_HEIGHT : MAP_HEIGHT);
  const own = new Set(plan.relief.addOns.map(({ region }) => region));
  const isAddOns = pass.phase === 'add-ons';
  const blockOf = new Map(pass.blocks.flatMap(({ regions }, b) => regions.map((r) => [r, b] as const)));
  const byStanding = new Map<string, string[]>();
  map.regions.forEach((region, r) => {
    if (isAddOns ? !own.has(r) : region.addOn) return;
    const standing = isAddOns ? 'stays' : toneIn(pass, blockOf.get(r), progress.standing(r, pass.sheets));
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
  const taken = pass.steps.flatMap(({ start: { kind, at } }): Bounds[] => {
    const arm = 2 * HOLE_MARK * unit;
    return kind === 'drill' ? [[at[0] - arm, at[1] - arm, at[0] + arm, at[1] + arm]] : [];
  });
  const letters =
    pass.blocks.length < 2
      ? []
      : pass.blocks.map(({ regions }, b) => {
          const own = regions.filter((r) => progress.standing(r, pass.sheets) !== 'open');
          const widest = own.reduce(
            (a, r) => (map.regions[r].labelRoom > map.regions[a].labelRoom ? r : a),
            own[0],
          );
          if (widest === undefined) return '';
          const { labelPoint, labelRoom } = map.regions[widest];
          const [x, y] = labelPoint;
          const r = Math.max(LEAST_LETTER * unit, Math.min(LETTER * unit, labelRoom));
          taken.push([x - r, y - r, x + r, y + r]);
          return (
            element('circle', { cx: num(x), cy: num(y), r: num(r), class: 'letter' }) +
            textElement(x, y + 0.44 * r, blockLetter(b), { 'font-size': num(1.28 * r), class: 'letter' })
          );
        });
  const labels = pass.steps.map(
    (step, i): MapLabel => ({ text: String(first + i), ...labelPlace(canvas, step) }),
  );
  const waste = boardWaste(plan, pass, [], progress);
  const body = [...waste, ...areas, ...lines, ...holes, ...letters];
  return whole(canvas, isSmall ? 'map small' : 'map', body, labels, taken, unit, board);
}

/** Radius of a block's letter, in units: it fits into its region where that has room. */
const LETTER = 1.25;
const LEAST_LETTER = 0.7;

/** So many tints tell blocks apart. */
const BLOCK_TINTS = 4;

/** What stands of a block has a tint of its own where there are several. */
function toneIn({ blocks }: Pass, block: number | undefined, standing: string): string {
  if (blocks.length < 2 || block === undefined || standing !== 'stays') return standing;
  return `stays tint-${block % BLOCK_TINTS}`;
}

/** Where the number of a step stands: in what it frees, else by its start. */
function labelPlace({ plan }: PlanCanvas, step: CutStep): { at: Point; room: number } {
  const region =
    step.frees === 'piece' || step.frees === 'waste' ? plan.relief.map.regions[step.regions[0]] : null;
  return region === null ? { at: step.start.at, room: 0 } : { at: region.labelPoint, room: region.labelRoom };
}

function whole(
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
function tinted({ plan }: PlanCanvas): string[] {
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
