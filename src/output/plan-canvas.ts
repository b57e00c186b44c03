import { pathData } from '../geometry/path-data.js';
import { type Bounds, joinBounds } from '../geometry/point.js';
import { type SegmentField, segmentField } from '../geometry/segment-field.js';
import { loopCurves } from '../plane/edge-curves.js';
import { type MapEdge, OUTSIDE, type RegionMap } from '../plane/region-map.js';
import type { CutPlan, LooseWaste } from '../workshop/cut-plan.js';
import { type LineShapes, lineShapes } from '../workshop/line-shapes.js';
import { boardAround } from '../workshop/waste-border.js';
import { type PlanBlocks, planBlocks } from './plan-blocks.js';
import { type MapLabeller, mapLabeller } from './plan-labels.js';
import { wasteNumbers } from './plan-waste.js';
import { element, svgNumber } from './svg-markup.js';

/** What all pictures of one plan share. */
export interface PlanCanvas {
  readonly plan: CutPlan;
  readonly shapes: LineShapes;
  /** The box around the page and all lines, mm. */
  readonly page: Bounds;
  /** The box around the lines alone, mm. */
  readonly drawing: Bounds;
  readonly label: MapLabeller;
  /** The lines that pictures show, each worked out when first asked for. */
  readonly lines: { readonly picture: () => SegmentField; readonly addOns: () => SegmentField };
  /** What hangs together, by letters. */
  readonly blocks: PlanBlocks;
  /** Numbers of the waste of the board that comes off. */
  readonly wasteNumbers: ReadonlyMap<LooseWaste, number>;
  /** Invisible element with the outlines of all regions, which the pictures refer to; goes before them. */
  readonly outlines: string;
}

/** Id of the path with all detail lines. */
export const DETAIL = 'detail-lines';

/** Digits of a picture's coordinates: a hundredth of a millimetre shows on no paper. */
export const PICTURE_DIGITS = 2;

export function planCanvas(plan: CutPlan): PlanCanvas {
  const { map } = plan.relief;
  const { x, y, width, height } = map.page;
  const own = map.regions.map((region) => region.bounds);
  const drawing = own.length === 0 ? ([x, y, x + width, y + height] as const) : own.reduce(joinBounds);
  const page = joinBounds(drawing, [x, y, x + width, y + height]);
  const paths = map.regions.map((region) =>
    element('path', {
      id: region.id,
      d: pathData(
        region.loops.map((loop) => loopCurves(map, loop)),
        { digits: PICTURE_DIGITS },
      ),
      'fill-rule': 'evenodd',
    }),
  );
  const shapes = lineShapes(map);
  const detail = map.edges.flatMap(({ kind }, e) => (kind === 'border' ? [] : [shapes.curves(e)]));
  const veins = element('path', {
    id: DETAIL,
    d: pathData(detail, { digits: PICTURE_DIGITS }),
    class: 'detail',
  });
  return {
    plan,
    shapes,
    page,
    drawing,
    label: mapLabeller(map, page),
    lines: pictureLines(map, shapes),
    blocks: planBlocks(plan),
    wasteNumbers: wasteNumbers(plan),
    outlines: `<svg class="outlines" aria-hidden="true"><defs>${HATCHES}${paths.join('')}${veins}</defs></svg>`,
  };
}

/** The lines of the picture, and those of the add-ons, which are no part of it. */
function pictureLines({ edges, regions }: RegionMap, shapes: LineShapes): PlanCanvas['lines'] {
  const isAddOn = ({ left, right }: MapEdge): boolean =>
    [left, right].some((face) => face !== OUTSIDE && regions[face].addOn);
  const fieldOf = (addOns: boolean): SegmentField => {
    const ends: number[] = [];
    edges.forEach((edge, e) => {
      if (isAddOn(edge) !== addOns) return;
      const xy = shapes.chords(e);
      for (let i = 0; i + 3 < xy.length; i += 2) ends.push(xy[i], xy[i + 1], xy[i + 2], xy[i + 3]);
    });
    return segmentField(Float64Array.from(ends));
  };
  const fields: { picture?: SegmentField; addOns?: SegmentField } = {};
  return {
    picture: () => {
      fields.picture ??= fieldOf(false);
      return fields.picture;
    },
    addOns: () => {
      fields.addOns ??= fieldOf(true);
      return fields.addOns;
    },
  };
}

/** Fills that stay apart in grey print: slanted lines for what is open, dots where only front sheets are gone. */
const HATCHES =
  '<pattern id="gone" width="2.4" height="2.4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">' +
  '<rect width="2.4" height="2.4" fill="#fff"/><rect width="0.45" height="2.4" fill="#a9adb3"/></pattern>' +
  dots('part', '#f5f1e6') +
  dots('kept', '#f3d671') +
  '<pattern id="scrap" width="1.6" height="1.6" patternUnits="userSpaceOnUse">' +
  '<rect width="1.6" height="1.6" fill="#fbe3da"/><path d="M0 0L1.6 1.6M1.6 0L0 1.6" stroke="#d98a70" stroke-width="0.16"/></pattern>';

function dots(id: string, fill: string): string {
  return (
    `<pattern id="${id}" width="1.8" height="1.8" patternUnits="userSpaceOnUse"><rect width="1.8" height="1.8" fill="${fill}"/>` +
    '<circle cx="0.9" cy="0.9" r="0.32" fill="#7d8087"/></pattern>'
  );
}

/** The pictures of settings are so narrow that they stand beside what is said of them. */
export function isUpright({ plan: { relief }, drawing }: PlanCanvas): boolean {
  const [x0, y0, x1, y1] = relief.frame === 'cut' ? boardAround(relief.map) : drawing;
  return x1 - x0 < y1 - y0;
}

/** One picture: a name for its look, what it shows, what is in it. */
export function picture(name: string, [x0, y0, x1, y1]: Bounds, body: readonly string[]): string {
  const box = [x0, y0, x1 - x0, y1 - y0].map((v) => svgNumber(v, PICTURE_DIGITS)).join(' ');
  return `<svg class="${name}" viewBox="${box}" role="img">${body.filter((part) => part !== '').join('')}</svg>`;
}

export function grow([x0, y0, x1, y1]: Bounds, by: number): Bounds {
  return [x0 - by, y0 - by, x1 + by, y1 + by];
}
