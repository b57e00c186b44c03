import { pathData } from '../geometry/path-data.js';
import { type Bounds, boundsOf, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import type { CutPlan, CutStep, Pass, WayIn } from '../workshop/cut-plan.js';
import { stepCurves } from '../workshop/step-curves.js';
import { backNumbers } from './back-numbers.js';
import type { KerfRoutes } from './kerf-routes.js';
import { DETAIL, grow, PICTURE_DIGITS, type PlanCanvas, picture } from './plan-canvas.js';
import { use } from './plan-maps.js';
import {
  backMark,
  chordsOf,
  directionMark,
  endMark,
  type IdRoom,
  idMark,
  partMark,
  partPlaces,
  startMark,
} from './plan-marks.js';
import type { Progress } from './plan-progress.js';
import { stepLetters } from './plan-step-letters.js';
import { boardWaste } from './plan-waste.js';
import { element, svgNumber } from './svg-markup.js';

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
): StepPicture {
  const { plan, page } = canvas;
  const box = fitted(steps.map((step) => stepView(canvas, step)).reduce(joinBounds, EMPTY_BOUNDS));
  const large = box[2] - box[0] > LARGE * (page[2] - page[0]);
  const parts = Math.max(...steps.map((step) => stepCurves(plan.relief.map, step, canvas.shapes).length));
  const size = !large ? 'small' : parts >= MANY_PARTS ? 'full' : 'large';
  const unit = ((box[2] - box[0]) / 100) * MARKS[size];
  const tones = new Map(steps.flatMap((step) => [...tonesOf(plan, pass, step, progress)]));
  const cuts = steps.map((step, i) =>
    steps.length > 1
      ? drawnCut(canvas, step, unit, number + i, [])
      : drawnCut(canvas, step, unit, null, routes.between(pass, step, progress)),
  );
  const marks = cuts.flatMap((cut) => cut.marks);
  const lines = cuts.flatMap((cut) => cut.lines);
  const near = [
    ...boardWaste(plan, pass, steps, progress),
    ...areasIn(canvas, pass, box, tones, progress),
    pass.phase === 'add-ons' ? '' : use(DETAIL),
    ...inLayers(cuts.map((cut) => cut.layers)),
    ...(steps.length > 1 ? [] : idMarks(canvas, pass, steps[0], tones, unit, { taken: marks, view: box })),
    ...steps.flatMap((step) => stepLetters(canvas, step, unit, box, { marks, lines })),
  ];
  return {
    near: picture('near', box, near),
    far: picture('far', grow(page, 0.03 * (page[2] - page[0])), farMarks(page, box)),
    size,
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

/** What is drawn of a step, from below: its lines, the ends of its parts, where it begins and its numbers. */
type CutMarks = readonly [lines: string, ends: string, starts: string];

/** A step as drawn, and what else keeps off. */
interface DrawnCut {
  readonly layers: CutMarks;
  /** Where its marks stand, mm. */
  readonly marks: readonly Point[];
  /** Its lines and ways, as chords. */
  readonly lines: readonly (readonly Point[])[];
}

/** Of all steps in a picture the lines first, so that nothing hides where a cut begins. */
function inLayers(marks: readonly CutMarks[]): string[] {
  return [0, 1, 2].flatMap((layer) => marks.map((own) => own[layer]));
}

/**
 * The line of a step with its marks.
 *
 * @param number written at its start; null: the parts are numbered instead
 * @param back the ways back from each part to the next
 */
function drawnCut(
  canvas: PlanCanvas,
  step: CutStep,
  unit: number,
  number: number | null,
  back: readonly (readonly Point[] | null)[],
): DrawnCut {
  const { shapes, plan } = canvas;
  const runs = stepCurves(plan.relief.map, step, shapes);
  const chords = runs.map(chordsOf);
  const lead = step.edges.slice(0, step.leadIn).map((e) => shapes.curves(e));
  const ways = step.waysIn ?? [];
  const [first, numbered] = number === null ? [1, runs.length > 1 ? chords : []] : [number, [chords[0]]];
  const places = partPlaces(numbered, unit);
  const ends = runs.flatMap((run) => [run[0].from, run[run.length - 1].to]);
  const marks = [step.start.at, ...ends, ...places];
  const lines = [
    element('path', {
      d: pathData(runs, { digits: PICTURE_DIGITS }),
      class: 'now',
      'stroke-width': 1.1 * unit,
    }),
    lead.length === 0
      ? ''
      : element('path', {
          d: pathData(lead, { digits: PICTURE_DIGITS }),
          class: 'lead',
          'stroke-width': 0.6 * unit,
        }),
    ...back.map((way) => backMark(way, unit)),
  ];
  const arrows = runs.map((run, i) => endMark(run, unit) + directionMark(chords[i], unit));
  const starts = [
    ...ways.map((way) => wayMark(way, unit)),
    startMark(step, unit, canvas.blocks.step(step).change !== undefined),
    ...backNumbers(back, unit, marks),
    ...places.map((at, i) => partMark(at, first + i, unit)),
  ];
  return {
    layers: [lines.join(''), arrows.join(''), starts.join('')],
    marks,
    lines: [
      ...chords,
      ...ways.map(({ points }) => points),
      ...back.flatMap((way) => (way === null ? [] : [way])),
    ],
  };
}

function idMarks(
  { plan }: PlanCanvas,
  pass: Pass,
  step: CutStep,
  tones: ReadonlyMap<number, string>,
  unit: number,
  room: IdRoom,
): string[] {
  const { regions } = plan.relief.map;
  const ids = idsByRegion(plan, pass, step);
  return step.regions
    .filter((r) => tones.has(r) && (step.frees !== 'piece' || ids.has(r)))
    .slice(0, MOST_IDS)
    .map((r) => idMark(regions[r], ids.get(r) ?? regions[r].id, step, unit, room));
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

/** The way from the edge of the board: in short dashes where it is sawn, thin and grey where it is open already. */
function wayMark({ points, from }: WayIn, unit: number): string {
  const d = `M${points.map(([x, y]) => `${svgNumber(x, PICTURE_DIGITS)} ${svgNumber(y, PICTURE_DIGITS)}`).join('L')}`;
  const [look, width] = from === 'open' ? ['way-open', 0.45] : ['way-in', 0.7];
  return element('path', { d, class: look, 'stroke-width': svgNumber(width * unit, PICTURE_DIGITS) });
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
