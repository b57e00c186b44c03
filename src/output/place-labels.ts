import type { Bounds, Point } from '../geometry/point.js';
import { BoxGrid } from './box-grid.js';
import { type LabelShape, type LabelWords, labelExtent } from './label-shape.js';
import { type SegmentField, segmentsInBox } from './segment-field.js';

/** A label that wants a place: where it should stand, and how far the nearest line is there, mm. */
export interface LabelRequest extends LabelWords {
  readonly at: Point;
  readonly room: number;
}

/** A placed label: `at` is its middle, mm. */
export interface PlacedLabel extends LabelShape {
  readonly request: LabelRequest;
  readonly at: Point;
  readonly box: Bounds;
}

/** Type sizes for one picture, mm. */
export interface LabelSizes {
  readonly largest: number;
  /** Smallest number inside a region, and smallest id. */
  readonly smallest: number;
  readonly smallestId: number;
  /** Number and id of labels that stand beside their region. */
  readonly callout: number;
  readonly calloutId: number;
}

/** The id is set smaller than the number, but no smaller than `smallestId`. */
const ID_PART = 0.62;

/** Each try is this much smaller than the one before. */
const SHRINK = 0.87;

/** Number sizes tried in a region, in parts of the room around its label point. */
const FIRST_TRY = 1.2;

/** Directions and distances (in callout sizes) tried for a label beside its region. */
const CALLOUT_TURNS = 24;
const CALLOUT_STEPS = 16;
const NEAREST = 1.1;
const STEP = 0.55;

/** What a callout pays for each line that it covers, and for each label; one is the price of its own size away. */
const LINE_PRICE = 0.5;
const LABEL_PRICE = 100;

/** Lines beyond these are not counted. */
const COUNTED_LINES = 12;

/**
 * Finds a place for each label: inside its region where it fits without touching a line, large labels first;
 * the rest beside their region, near it, over as few lines as can be and over no other label. `taken` are
 * boxes that no label may cover; `area` is where labels may stand. The order of the requests decides ties.
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  field: SegmentField,
  sizes: LabelSizes,
  taken: readonly Bounds[],
  area: Bounds,
): PlacedLabel[] {
  const boxes = new BoxGrid(sizes.largest * 4, taken);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  const byRoom = requests.map((_, i) => i).sort((a, b) => requests[b].room - requests[a].room || a - b);
  const put = (i: number, label: PlacedLabel | null): void => {
    placed[i] = label;
    if (label !== null) boxes.add(label.box);
  };
  for (const i of byRoom) put(i, placeInside(requests[i], field, sizes, boxes));
  for (let i = 0; i < requests.length; i++) {
    if (placed[i] === null) put(i, placeBeside(requests[i], field, sizes, boxes, area));
  }
  return placed as PlacedLabel[];
}

function placeInside(
  request: LabelRequest,
  field: SegmentField,
  sizes: LabelSizes,
  boxes: BoxGrid,
): PlacedLabel | null {
  const least = request.number === null ? sizes.smallestId : sizes.smallest;
  const first = Math.min(sizes.largest, Math.max(least, request.room * FIRST_TRY));
  for (let tried = first; tried > least * SHRINK; tried *= SHRINK) {
    const size = Math.max(tried, least);
    const idSize = Math.max(size * ID_PART, sizes.smallestId);
    for (const form of ['stacked', 'line'] as const) {
      const label = labelAt(request, { form, size, idSize }, request.at, size * 0.1);
      if (segmentsInBox(field, label.box, 1) === 0 && boxes.overlap(label.box) === 0) return label;
    }
  }
  return null;
}

function placeBeside(
  request: LabelRequest,
  field: SegmentField,
  sizes: LabelSizes,
  boxes: BoxGrid,
  area: Bounds,
): PlacedLabel {
  const size = sizes.callout;
  const shape: LabelShape = { form: 'callout', size, idSize: sizes.calloutId };
  const [width, height] = labelExtent(request, shape);
  let best: PlacedLabel | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < CALLOUT_STEPS; step++) {
    const reach = size * (NEAREST + step * STEP) + request.room;
    // What is left to try lies further away than the best costs.
    if (reach / size > least) break;
    for (let turn = 0; turn < CALLOUT_TURNS; turn++) {
      const angle = (2 * Math.PI * (turn + 0.5)) / CALLOUT_TURNS;
      const x = request.at[0] + Math.cos(angle) * (reach + (width - size) / 2);
      const y = request.at[1] + Math.sin(angle) * (reach + (height - size) / 2);
      const label = labelAt(request, shape, [x, y], size * 0.1);
      if (!within(label.box, area)) continue;
      const lines = segmentsInBox(field, label.box, COUNTED_LINES);
      const cost = reach / size + LINE_PRICE * lines + LABEL_PRICE * boxes.overlap(label.box);
      if (cost < least) {
        least = cost;
        best = label;
      }
    }
  }
  return (
    best ?? labelAt(request, { form: 'line', size: sizes.smallest, idSize: sizes.smallestId }, request.at, 0)
  );
}

function labelAt(request: LabelRequest, shape: LabelShape, at: Point, margin: number): PlacedLabel {
  const [width, height] = labelExtent(request, shape);
  const [w, h] = [width / 2 + margin, height / 2 + margin];
  return { request, ...shape, at, box: [at[0] - w, at[1] - h, at[0] + w, at[1] + h] };
}

function within(box: Bounds, area: Bounds): boolean {
  return box[0] >= area[0] && box[1] >= area[1] && box[2] <= area[2] && box[3] <= area[3];
}
