import { pathData } from '../geometry/path-data.js';
import { type Bounds, boundsOf, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import { DETAIL, grow, PICTURE_DIGITS, type PlanCanvas, picture } from './plan-canvas.js';
import { use } from './plan-maps.js';
import { chordsOf, directionMark, endMark, idMark, partMark, startMark } from './plan-marks.js';
import type { Progress } from './plan-progress.js';
import { BOARD_ROOM, wayIn } from './plan-way-in.js';
import { element, svgNumber } from './svg-markup.js';

/** Width by height of the picture of a step. */
const STEP_ASPECT = 4 / 3;

/** A picture shows at least this much of the drawing, mm across. */
const LEAST_VIEW = 36;

/** And no more than this many times the page. */
const MOST_VIEW = 1.03;

/** Room around what is sawn, as a part of its size. */
const VIEW_MARGIN = 0.2;

/** So many ids are written into the picture of a step. */
const MOST_IDS = 12;

/** A picture that shows more than this part of the page is drawn large. */
const LARGE = 0.55;

/** Marks are smaller in a large picture, by this. */
const LARGE_MARKS = 0.5;

/** The picture of a step. */
export interface StepPicture {
  /** What is sawn, near by. */
  readonly near: string;
  /** A small whole drawing that tells where. */
  readonly far: string;
  /** It takes the width of the page. */
  readonly large: boolean;
}

/** What a step saws, with what is around it and what becomes of it. */
export function stepPicture(canvas: PlanCanvas, pass: Pass, step: CutStep, progress: Progress): StepPicture {
  const { plan, shapes, page } = canvas;
  const { map } = plan.relief;
  const runs = stepCurves(map, step, shapes);
  const ids = idsByRegion(plan, pass, step);
  const way =
    step.start.by === 'board' && pass.phase !== 'add-ons'
      ? wayIn(canvas.outline(), canvas.drawing, step.start.at)
      : [];
  const box = viewOf(canvas, step, way);
  const large = box[2] - box[0] > LARGE * (page[2] - page[0]);
  const unit = ((box[2] - box[0]) / 100) * (large ? LARGE_MARKS : 1);
  const tones = tonesOf(plan, pass, step, progress);
  const own = new Set(plan.relief.addOns.map(({ region }) => region));
  const byTone = new Map<string, string[]>();
  map.regions.forEach((region, r) => {
    const hidden = pass.phase === 'add-ons' ? !own.has(r) : region.addOn;
    if (hidden || !overlaps(region.bounds, box)) return;
    const standing = pass.phase === 'add-ons' ? 'stays' : progress.standing(r, pass.sheets);
    const tone = tones.get(r) ?? standing;
    const list = byTone.get(tone);
    if (list === undefined) byTone.set(tone, [use(region.id)]);
    else list.push(use(region.id));
  });
  const areas = [...byTone].map(([tone, list]) => `<g class="${tone}">${list.join('')}</g>`);
  const width = 1.1 * unit;
  const lead = step.edges.slice(0, step.leadIn).map((e) => shapes.curves(e));
  const now = pathData(runs, { digits: PICTURE_DIGITS });
  const near = [
    ...areas,
    pass.phase === 'add-ons' ? '' : use(DETAIL),
    way.length === 0 ? '' : boardEdge(canvas.drawing),
    element('path', { d: now, class: 'now', 'stroke-width': width }),
    lead.length === 0
      ? ''
      : element('path', {
          d: pathData(lead, { digits: PICTURE_DIGITS }),
          class: 'lead',
          'stroke-width': 0.6 * unit,
        }),
    ...runs.map((run) => endMark(run, unit) + directionMark(chordsOf(run), unit)),
    way.length === 0 ? '' : wayMark(way, unit),
    startMark(step, unit),
    ...(runs.length > 1 ? runs.map((run, i) => partMark(run, i + 1, unit)) : []),
    ...step.regions
      .filter((r) => tones.has(r) && (step.frees !== 'piece' || ids.has(r)))
      .slice(0, MOST_IDS)
      .map((r) => idMark(map.regions[r], ids.get(r) ?? map.regions[r].id, step, unit)),
  ];
  return {
    near: picture('near', box, near),
    far: picture('far', grow(page, 0.03 * (page[2] - page[0])), farMarks(page, box)),
    large,
  };
}

/** The ids to write on: those of pieces and add-ons, by their own region. */
function idsByRegion({ relief, pieces }: CutPlan, pass: Pass, step: CutStep): ReadonlyMap<number, string> {
  if (pass.phase === 'add-ons') return new Map(relief.addOns.map(({ region, id }) => [region, id]));
  if (step.frees !== 'piece') return new Map();
  const own = pieces.filter(({ sheets }) => relief.joint === 'pieces' || sheets[0] === step.sheets[0]);
  return new Map(own.map(({ region, id }) => [region, id]));
}

/** How the regions look that a step changes: what is gone before stays so, waste that falls out is no piece. */
function tonesOf(plan: CutPlan, pass: Pass, step: CutStep, progress: Progress): Map<number, string> {
  const tones = new Map<number, string>();
  for (const r of (step.comesLoose ?? []).flat()) tones.set(r, 'block');
  if (step.frees === 'nothing') return tones;
  for (const r of step.regions) {
    const before = pass.phase === 'add-ons' ? 'stays' : progress.standing(r, pass.sheets);
    if (before === 'open') continue;
    const tone =
      step.frees === 'piece' && pass.phase !== 'add-ons' && !isKept(plan, step, r) ? 'waste' : step.frees;
    tones.set(r, tone === 'piece' && before === 'partly' ? 'kept' : tone);
  }
  return tones;
}

function isKept({ pieces, relief }: CutPlan, step: CutStep, region: number): boolean {
  return pieces.some(
    ({ sheets, regions }) =>
      (relief.joint === 'pieces' || sheets[0] === step.sheets[0]) && regions.includes(region),
  );
}

/** The way from the edge of the board, in short dashes. */
function wayMark(way: readonly Point[], unit: number): string {
  const d = `M${way.map(([x, y]) => `${svgNumber(x, PICTURE_DIGITS)} ${svgNumber(y, PICTURE_DIGITS)}`).join('L')}`;
  return element('path', { d, class: 'way-in', 'stroke-width': svgNumber(0.7 * unit, PICTURE_DIGITS) });
}

function boardEdge(drawing: Bounds): string {
  const [x0, y0, x1, y1] = grow(drawing, BOARD_ROOM);
  return element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: 'board' });
}

function farMarks(page: Bounds, box: Bounds): string[] {
  const rect = ([x0, y0, x1, y1]: Bounds, name: string): string =>
    element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: name });
  return [rect(page, 'page'), rect(box, 'here')];
}

/** The part of the drawing that the picture of a step shows: what is sawn and its start, at a fixed aspect. */
function viewOf(
  { plan: { relief }, shapes, page }: PlanCanvas,
  step: CutStep,
  way: readonly Point[],
): Bounds {
  const lines = step.edges.map((e) => {
    const xy = shapes.chords(e);
    return boundsOf(Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]));
  });
  const freed = step.frees === 'block' ? [] : step.regions.map((r) => relief.map.regions[r].bounds);
  const [x0, y0, x1, y1] = [...lines, ...freed, boundsOf([step.start.at, ...way])].reduce(
    joinBounds,
    EMPTY_BOUNDS,
  );
  const most = MOST_VIEW * Math.max(page[2] - page[0], (page[3] - page[1]) * STEP_ASPECT);
  const wanted = Math.max((x1 - x0) * (1 + 2 * VIEW_MARGIN), (y1 - y0) * (1 + 2 * VIEW_MARGIN) * STEP_ASPECT);
  const width = Math.max(LEAST_VIEW, Math.min(most, wanted));
  const height = width / STEP_ASPECT;
  const left = slide((x0 + x1) / 2 - width / 2, width, page[0], page[2]);
  const top = slide((y0 + y1) / 2 - height / 2, height, page[1], page[3]);
  return [left, top, left + width, top + height];
}

/** Keeps a view on the page where it fits. */
function slide(from: number, size: number, least: number, most: number): number {
  if (size >= most - least) return (least + most - size) / 2;
  return Math.min(Math.max(from, least), most - size);
}

function overlaps(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}
