import { pathData } from '../geometry/path-data.js';
import { type Bounds, boundsOf, EMPTY_BOUNDS, joinBounds, type Point } from '../geometry/point.js';
import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { type LineShapes, lineShapes } from '../workshop/line-shapes.js';
import { stepCurves } from '../workshop/step-curves.js';
import { regionPath } from './map-paths.js';
import { depthTint } from './palette.js';
import { chordsOf, directionMark, idMark, numberMark, startMark } from './plan-marks.js';
import type { Progress } from './plan-progress.js';
import { element, group, svgNumber, textElement } from './svg-markup.js';

/** Width by height of the picture of a step. */
const STEP_ASPECT = 4 / 3;

/** A picture shows at least this much of the drawing, mm across. */
const LEAST_VIEW = 36;

/** Room around what is sawn, as a part of its size. */
const VIEW_MARGIN = 0.2;

/** So many ids are written into the picture of a step. */
const MOST_IDS = 12;

/** Pictures of a plan: made one after the other, since all share the outlines of the regions. */
export interface PlanPictures {
  /** Invisible element that holds the outlines; goes before all pictures. */
  readonly outlines: string;
  /** All pieces in their places, tinted by height, with their ids. */
  pieces(): string;
  /** The whole drawing before a setting, with its steps numbered. */
  setting(pass: Pass, progress: Progress, firstNumber: number): string;
  /** What a step saws, near by, with a small whole drawing that tells where. */
  step(pass: Pass, step: CutStep, progress: Progress): { readonly near: string; readonly far: string };
}

export function planPictures(plan: CutPlan): PlanPictures {
  const { map } = plan.relief;
  const shapes = lineShapes(map);
  const names = idsByRegion(plan);
  const { x, y, width, height } = map.page;
  const page = map.regions.reduce<Bounds>(
    (box, region) => joinBounds(box, region.bounds),
    [x, y, x + width, y + height],
  );
  const paths = map.regions.map((region) =>
    element('path', { id: region.id, d: regionPath(map, region), 'fill-rule': 'evenodd' }),
  );
  const areas = (
    progress: Progress,
    pass: Pass,
    view: Bounds,
    toneOf: (region: number) => string | null,
  ): string[] =>
    map.regions.flatMap((region, r) => {
      if (!overlaps(region.bounds, view) || (region.addOn && pass.phase !== 'add-ons')) return [];
      const name = toneOf(r) ?? (pass.phase === 'add-ons' ? 'stays' : progress.standing(r, pass.sheets));
      return [`<use href="#${region.id}" class="${name}"/>`];
    });
  return {
    outlines: `<svg class="outlines" aria-hidden="true"><defs>${HATCHES}${paths.join('')}</defs></svg>`,
    pieces() {
      const { relief } = plan;
      const size = Math.max(page[2] - page[0], page[3] - page[1]) / 70;
      const tints = relief.regions.flatMap(({ depth, role }, r) => {
        if (map.regions[r].addOn || depth === null || role === 'void' || role === 'opening') return [];
        return [`<use href="#${map.regions[r].id}" fill="${depthTint(depth, relief.stack.sheets.length)}"/>`];
      });
      const ids = plan.pieces.map(({ id, region }) => {
        const { labelPoint, labelRoom } = map.regions[region];
        const fit = Math.max(0.5 * size, Math.min(size, (1.6 * labelRoom) / Math.max(2, id.length)));
        return textElement(labelPoint[0], labelPoint[1] + 0.36 * fit, id, { 'font-size': fit });
      });
      return picture('map', grow(page, size), [...tints, group({ class: 'numbers' }, ids)]);
    },
    setting(pass, progress, firstNumber) {
      const size = Math.max(page[2] - page[0], page[3] - page[1]) / 60;
      const lines = pass.steps.map((step) =>
        element('path', { d: pathData(stepCurves(map, step, shapes)), class: 'now' }),
      );
      const numbers = pass.steps.map((step, i) => numberMark(map, step, firstNumber + i + 1, size));
      const body = [
        ...areas(progress, pass, page, () => null),
        group({ class: 'whole' }, lines),
        group({ class: 'numbers' }, numbers),
      ];
      return picture('map', grow(page, size), body);
    },
    step(pass, step, progress) {
      const runs = stepCurves(map, step, shapes);
      const ids = names(pass, step);
      const box = viewOf(plan, shapes, step, page);
      const unit = (box[2] - box[0]) / 100;
      const freed = new Set(step.frees === 'nothing' ? [] : step.regions);
      const leadIn = step.edges.slice(0, step.leadIn).map((edge, i) => ({ edge, forward: step.forward[i] }));
      const near = [
        ...areas(progress, pass, box, (r) => (freed.has(r) ? toneIn(plan, pass, step, r) : null)),
        element('path', { d: pathData(runs), class: 'now', 'stroke-width': 1.1 * unit }),
        ...leadIn.map(({ edge }) =>
          element('path', { d: pathData([shapes.curves(edge)]), class: 'lead', 'stroke-width': 1.1 * unit }),
        ),
        directionMark(chordsOf(runs[0]), unit),
        startMark(step, unit),
        ...step.regions
          .filter((r) => freed.has(r) && (step.frees !== 'piece' || ids.has(r)))
          .slice(0, MOST_IDS)
          .map((r) =>
            idMark(map.regions[r], (step.frees === 'piece' && ids.get(r)) || map.regions[r].id, step, unit),
          ),
      ];
      const far = [
        element('rect', {
          x: page[0],
          y: page[1],
          width: page[2] - page[0],
          height: page[3] - page[1],
          class: 'page',
        }),
        element('rect', {
          x: box[0],
          y: box[1],
          width: box[2] - box[0],
          height: box[3] - box[1],
          class: 'here',
        }),
      ];
      return {
        near: picture('near', box, near),
        far: picture(`far ${freeCorner(plan, step, box)}`, page, far),
      };
    },
  };
}

/** The ids to write on: those of pieces and add-ons, by their own region. */
function idsByRegion(plan: CutPlan): (pass: Pass, step: CutStep) => ReadonlyMap<number, string> {
  const addOns = new Map(plan.relief.addOns.map(({ region, id }) => [region, id]));
  return (pass, step) => {
    if (pass.phase === 'add-ons') return addOns;
    const own = plan.pieces.filter(
      ({ sheets }) => plan.relief.joint === 'pieces' || sheets[0] === step.sheets[0],
    );
    return new Map(own.map(({ region, id }) => [region, id]));
  };
}

/** What becomes of a region that a step frees: waste that falls out with a piece is not the piece. */
function toneIn({ pieces, relief }: CutPlan, pass: Pass, step: CutStep, region: number): string {
  if (step.frees !== 'piece' || pass.phase === 'add-ons') return step.frees;
  const kept = pieces.some(
    ({ sheets, regions }) =>
      (relief.joint === 'pieces' || sheets[0] === step.sheets[0]) && regions.includes(region),
  );
  return kept ? 'piece' : 'waste';
}

/** Hatches for what is gone: readable in grey print. */
const HATCHES =
  '<pattern id="gone" width="2.4" height="2.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">' +
  '<rect width="2.4" height="2.4" fill="#f4f4f2"/><rect width="0.5" height="2.4" fill="#b9bcc0"/></pattern>' +
  '<pattern id="part" width="2.4" height="2.4" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">' +
  '<rect width="2.4" height="2.4" fill="#fbf6ea"/><rect width="0.4" height="2.4" fill="#d9cba8"/></pattern>';

function picture(name: string, [x0, y0, x1, y1]: Bounds, body: readonly string[]): string {
  const box = [x0, y0, x1 - x0, y1 - y0].map((v) => svgNumber(v, 2)).join(' ');
  return `<svg class="${name}" viewBox="${box}" role="img">${body.filter((part) => part !== '').join('')}</svg>`;
}

/** The part of the drawing that the picture of a step shows: what is sawn and its start, at a fixed aspect. */
function viewOf({ relief }: CutPlan, shapes: LineShapes, step: CutStep, page: Bounds): Bounds {
  const lines = step.edges.map((e) => {
    const xy = shapes.chords(e);
    return boundsOf(Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]));
  });
  const freed = step.regions.map((r) => relief.map.regions[r].bounds);
  const [x0, y0, x1, y1] = [
    ...lines,
    ...(step.frees === 'block' ? [] : freed),
    boundsOf([step.start.at]),
  ].reduce(joinBounds, EMPTY_BOUNDS);
  const width = Math.max(
    LEAST_VIEW,
    (x1 - x0) * (1 + 2 * VIEW_MARGIN),
    (y1 - y0) * (1 + 2 * VIEW_MARGIN) * STEP_ASPECT,
  );
  const height = width / STEP_ASPECT;
  const [cx, cy] = [(x0 + x1) / 2, (y0 + y1) / 2];
  const left = slide(cx - width / 2, width, page[0], page[2]);
  const top = slide(cy - height / 2, height, page[1], page[3]);
  return [left, top, left + width, top + height];
}

/** Part of a picture's width and height that the small drawing takes in its corner. */
const INSET = 0.3;

/** A corner of the picture in which neither the start nor an id stands. */
function freeCorner({ relief }: CutPlan, step: CutStep, [x0, y0, x1, y1]: Bounds): string {
  const points = [step.start.at, ...step.regions.map((r) => relief.map.regions[r].labelPoint)];
  const taken = (right: boolean, low: boolean): boolean =>
    points.some(([x, y]) => {
      const [u, v] = [(x - x0) / (x1 - x0), (y - y0) / (y1 - y0)];
      return (right ? u > 1 - INSET : u < INSET) && (low ? v > 1 - INSET : v < INSET);
    });
  for (const [name, right, low] of CORNERS) if (!taken(right, low)) return name;
  return CORNERS[0][0];
}

const CORNERS = [
  ['low-right', true, true],
  ['low-left', false, true],
  ['top-right', true, false],
  ['top-left', false, false],
] as const;

/** Keeps a view on the page where it fits. */
function slide(from: number, size: number, least: number, most: number): number {
  if (size >= most - least) return (least + most - size) / 2;
  return Math.min(Math.max(from, least), most - size);
}

function overlaps(a: Bounds, b: Bounds): boolean {
  return a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];
}

function grow([x0, y0, x1, y1]: Bounds, by: number): Bounds {
  return [x0 - by, y0 - by, x1 + by, y1 + by];
}
