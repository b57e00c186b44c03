import { type Bounds, boundsOf, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import type { SegmentField } from '../geometry/segment-field.js';
import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import type { KerfRoutes } from './kerf-routes.js';
import type { OpenWays } from './open-ways.js';
import { idMark, stepLetters } from './picture-labels.js';
import { fieldOfChords, type PictureLines, type PictureRoom } from './picture-room.js';
import { DETAIL, grow, type PlanCanvas, picture } from './plan-canvas.js';
import { use } from './plan-maps.js';
import type { Progress } from './plan-progress.js';
import { boardWaste } from './plan-waste.js';
import {
  type CutMarks,
  cutMarks,
  linesOfCut,
  marksOfCut,
  type StepCut,
  stepCut,
  wayMark,
} from './step-cut.js';
import { element } from './svg-markup.js';

/** Width by height of the picture of a step. */
const STEP_ASPECT = 1.6;

/** A picture shows at least this much of the drawing, mm across; of a short cut so many of its lengths, for its marks. */
const LEAST_VIEW = 36;
const SHORT_VIEW = { times: 4, least: 14 };

/** And no more than this many times the page. */
const MOST_VIEW = 1.03;

/** Room around what is sawn, as a part of its size. */
const VIEW_MARGIN = 0.2;

/** So many ids are written into the picture of a step. */
const MOST_IDS = 12;

/** A picture that shows more than this part of the page is drawn large. */
const LARGE = 0.55;

/** A large picture of so many parts takes the full width of the page. */
const MANY_PARTS = 4;

/** Marks are smaller in a large picture, by this. */
const MARKS = { small: 1, large: 0.5, full: 0.36 } as const;

/** The picture of a step. */
export interface StepPicture {
  /** What is sawn, near by. */
  readonly near: string;
  /** A small whole drawing that tells where. */
  readonly far: string;
  /** large: two columns of the page; full: its whole width. */
  readonly size: 'small' | 'large' | 'full';
}

/**
 * What a step saws, with what is around it and what becomes of it; or several steps that share a picture, each with its
 * number, as it is before the first of them.
 *
 * @param number of the first step
 */
export function stepPicture(
  canvas: PlanCanvas,
  pass: Pass,
  steps: readonly CutStep[],
  number: number,
  progress: Progress,
  routes: KerfRoutes,
  ways: OpenWays,
): StepPicture {
  const { plan, page } = canvas;
  const box = fitted(steps.map((step) => stepView(canvas, step)).reduce(joinBounds, EMPTY_BOUNDS));
  const large = box[2] - box[0] > LARGE * (page[2] - page[0]);
  const parts = Math.max(...steps.map((step) => stepCurves(plan.relief.map, step, canvas.shapes).length));
  const size = !large ? 'small' : parts >= MANY_PARTS ? 'full' : 'large';
  const unit = ((box[2] - box[0]) / 100) * MARKS[size];
  const tones = new Map(steps.flatMap((step) => [...tonesOf(plan, pass, step, progress)]));
  const cuts = steps.map((step) =>
    stepCut(canvas, step, steps.length > 1 ? [] : routes.between(pass, step, progress)),
  );
  const open = steps.flatMap((step) => ways.before(pass, step, progress, box));
  const room = roomOf(canvas, pass, box, unit, cuts, open);
  const drawn = cuts.map((cut, i) => cutMarks(canvas, cut, steps.length > 1 ? number + i : null, room));
  const near = [
    ...boardWaste(plan, pass, steps, progress),
    ...areasIn(canvas, pass, box, tones, progress),
    pass.phase === 'add-ons' ? '' : use(DETAIL),
    ...open.map((points) => wayMark(points, 'open', unit)),
    ...inLayers(drawn),
    ...(steps.length > 1 ? [] : idMarks(canvas, pass, steps[0], tones, room)),
    ...steps.flatMap((step) => stepLetters(canvas, step, room)),
  ];
  return {
    near: picture('near', box, near),
    far: picture('far', grow(page, 0.03 * (page[2] - page[0])), farMarks(page, box)),
    size,
  };
}

/** How far labels stay off what is sawn now, and off other lines, in units: half their width and a little. */
const OFF_CUT = 0.8;
const OFF_LINE = 0.3;

/** What is drawn in a picture, for its labels to keep off. */
function roomOf(
  canvas: PlanCanvas,
  pass: Pass,
  view: Bounds,
  unit: number,
  cuts: readonly StepCut[],
  open: readonly (readonly Point[])[],
): PictureRoom {
  const waste = cuts.flatMap(({ step: { wasteOff = [] } }) =>
    wasteOff.flatMap(({ loops }) => loops.map((loop) => [...loop, loop[0]])),
  );
  const line = (field: SegmentField): PictureLines => ({
    field,
    off: OFF_LINE * unit,
    isCut: false,
  });
  return {
    view,
    unit,
    taken: cuts.flatMap((cut) => marksOfCut(cut, unit)),
    lines: [
      { field: fieldOfChords(cuts.flatMap(linesOfCut)), off: OFF_CUT * unit, isCut: true },
      line(pass.phase === 'add-ons' ? canvas.lines.addOns() : canvas.lines.picture()),
      line(fieldOfChords([...waste, ...open])),
    ],
  };
}

/** The regions that a picture shows, by how they look. */
function areasIn(
  { plan: { relief } }: PlanCanvas,
  pass: Pass,
  box: Bounds,
  tones: ReadonlyMap<number, string>,
  progress: Progress,
): string[] {
  const own = new Set(relief.addOns.map(({ region }) => region));
  const byTone = new Map<string, string[]>();
  relief.map.regions.forEach((region, r) => {
    const hidden = pass.phase === 'add-ons' ? !own.has(r) : region.addOn;
    if (hidden || !overlaps(region.bounds, box)) return;
    const standing = pass.phase === 'add-ons' ? 'stays' : progress.standing(r, pass.sheets);
    const tone = tones.get(r) ?? standing;
    const list = byTone.get(tone);
    if (list === undefined) byTone.set(tone, [use(region.id)]);
    else list.push(use(region.id));
  });
  return [...byTone].map(([tone, list]) => `<g class="${tone}">${list.join('')}</g>`);
}

/** Of all steps in a picture the lines first, so that nothing hides where a cut begins. */
function inLayers(marks: readonly CutMarks[]): string[] {
  return [0, 1, 2].flatMap((layer) => marks.map((own) => own[layer]));
}

function idMarks(
  canvas: PlanCanvas,
  pass: Pass,
  step: CutStep,
  tones: ReadonlyMap<number, string>,
  room: PictureRoom,
): string[] {
  const { plan } = canvas;
  const { regions } = plan.relief.map;
  const ids = idsByRegion(plan, pass, step);
  return step.regions
    .filter((r) => tones.has(r) && (step.frees !== 'piece' || ids.has(r)))
    .slice(0, MOST_IDS)
    .map((r) => idMark(canvas, r, ids.get(r) ?? regions[r].id, step, room));
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

function farMarks(page: Bounds, box: Bounds): string[] {
  const rect = ([x0, y0, x1, y1]: Bounds, name: string): string =>
    element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: name });
  return [rect(page, 'page'), rect(box, 'here')];
}

/** The part of the drawing that the picture of a step shows: what is sawn and its start, at a fixed aspect. */
export function stepView(canvas: PlanCanvas, step: CutStep): Bounds {
  const { plan, shapes, page } = canvas;
  const lines = step.edges.map((e) => {
    const xy = shapes.chords(e);
    return boundsOf(Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]));
  });
  const freed = step.frees === 'block' ? [] : step.regions.map((r) => plan.relief.map.regions[r].bounds);
  // What is open already is not worth a wider view.
  const ways = (step.waysIn ?? []).flatMap(({ points, from }) => (from === 'open' ? [] : points));
  const places = boundsOf([step.start.at, ...ways]);
  const [x0, y0, x1, y1] = [...lines, ...freed, places].reduce(joinBounds, EMPTY_BOUNDS);
  const most = MOST_VIEW * Math.max(page[2] - page[0], (page[3] - page[1]) * STEP_ASPECT);
  const wanted = Math.max((x1 - x0) * (1 + 2 * VIEW_MARGIN), (y1 - y0) * (1 + 2 * VIEW_MARGIN) * STEP_ASPECT);
  const least = Math.min(LEAST_VIEW, Math.max(SHORT_VIEW.least, SHORT_VIEW.times * step.length));
  const width = Math.max(least, Math.min(most, wanted));
  const height = width / STEP_ASPECT;
  const left = slide((x0 + x1) / 2 - width / 2, width, page[0], page[2]);
  const top = slide((y0 + y1) / 2 - height / 2, height, page[1], page[3]);
  return [left, top, left + width, top + height];
}

/** A view grown to the fixed aspect. */
function fitted([x0, y0, x1, y1]: Bounds): Bounds {
  const width = Math.max(x1 - x0, (y1 - y0) * STEP_ASPECT);
  const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const [w, h] = [width / 2, width / STEP_ASPECT / 2];
  return [cx - w, cy - h, cx + w, cy + h];
}

/** Keeps a view on the page where it fits. */
function slide(from: number, size: number, least: number, most: number): number {
  if (size >= most - least) return (least + most - size) / 2;
  return Math.min(Math.max(from, least), most - size);
}

function overlaps(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}
