import type { Bounds, Point } from '../geometry/point.js';
import { BoxGrid } from './box-grid.js';
import { type LabelForm, type LabelShape, type LabelWords, labelExtent } from './label-shape.js';
import { type SegmentField, segmentsInBox, wayIsFree } from './segment-field.js';

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

/** What labels must keep off. */
export interface LabelObstacles {
  /** All lines, veins too: no label in a region touches one. */
  readonly lines: SegmentField;
  /** The borders alone: a label may move within its region, not across a border. */
  readonly borders: SegmentField;
  /** Boxes that no label may cover. */
  readonly taken: readonly Bounds[];
  /** Where labels may stand. */
  readonly area: Bounds;
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
  /** Least distance from a label to a line. */
  readonly clearance: number;
}

/** The id is set smaller than the number, but no smaller than `smallestId`. */
const ID_PART = 0.62;

/** Each try is this much smaller than the one before. */
const SHRINK = 0.87;

/** Number sizes tried in a region, in parts of the room around its label point. */
const FIRST_TRY = 1.2;

/** Places tried beside the label point of a region: directions, and distances in parts of the room there. */
const SHIFT_TURNS = 12;
const SHIFTS = [0.5, 1, 1.7, 2.6, 4];

/** Directions and distances (in callout sizes) tried for a label beside its region. */
const CALLOUT_TURNS = 24;
const CALLOUT_STEPS = 16;
const NEAREST = 1.1;
const STEP = 0.55;

/**
 * What a callout pays for each line that it covers, for each place that another callout speaks of, and for each
 * label; one is the price of standing its own size further away.
 */
const LINE_PRICE = 0.5;
const TARGET_PRICE = 4;
const LABEL_PRICE = 100;

/** Lines beyond these are not counted. */
const COUNTED_LINES = 12;

/**
 * Finds a place for each label: inside its region where it fits without touching a line, large labels first;
 * the rest beside their region, near it, over as few lines as can be and over no other label. The order of the
 * requests decides ties.
 */
export function placeLabels(
  requests: readonly LabelRequest[],
  obstacles: LabelObstacles,
  sizes: LabelSizes,
): PlacedLabel[] {
  const boxes = new BoxGrid(sizes.largest * 4, obstacles.taken);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  const byRoom = requests.map((_, i) => i).sort((a, b) => requests[b].room - requests[a].room || a - b);
  const put = (i: number, label: PlacedLabel | null): void => {
    placed[i] = label;
    if (label !== null) boxes.add(label.box);
  };
  for (const i of byRoom) put(i, placeInside(requests[i], obstacles, sizes, boxes));
  const rest = requests.filter((_, i) => placed[i] === null);
  const targets = new BoxGrid(
    sizes.largest * 4,
    rest.map(({ at: [x, y] }): Bounds => [x, y, x, y]),
  );
  requests.forEach((request, i) => {
    if (placed[i] === null) put(i, placeBeside(request, obstacles, sizes, boxes, targets));
  });
  return placed as PlacedLabel[];
}

function placeInside(
  request: LabelRequest,
  { lines, borders }: LabelObstacles,
  sizes: LabelSizes,
  boxes: BoxGrid,
): PlacedLabel | null {
  const tryAt = (at: Point, size: number, form: LabelForm): PlacedLabel | null => {
    const idSize = Math.max(size * ID_PART, sizes.smallestId);
    const label = labelAt(request, { form, size, idSize }, at, sizes.clearance);
    return segmentsInBox(lines, label.box, 1) === 0 && boxes.overlap(label.box) === 0 ? label : null;
  };
  const all = trySizes(request, sizes);
  for (const size of all) {
    const label = tryAt(request.at, size, 'stacked') ?? tryAt(request.at, size, 'line');
    if (label !== null) return label;
  }
  const shifted = shiftedPlaces(request).filter((at) => wayIsFree(borders, request.at, at));
  for (const size of all) {
    for (const at of shifted) {
      const label = tryAt(at, size, 'stacked') ?? tryAt(at, size, 'line');
      if (label !== null) return label;
    }
  }
  return null;
}

/** Type sizes to try, falling. */
function trySizes(request: LabelRequest, sizes: LabelSizes): number[] {
  const least = request.number === null ? sizes.smallestId : sizes.smallest;
  const all: number[] = [];
  const first = Math.min(sizes.largest, Math.max(least, request.room * FIRST_TRY));
  for (let size = first; size > least; size *= SHRINK) all.push(size);
  return [...all, least];
}

function shiftedPlaces({ at: [x, y], room }: LabelRequest): Point[] {
  return SHIFTS.flatMap((shift) =>
    Array.from({ length: SHIFT_TURNS }, (_, turn): Point => {
      const angle = (2 * Math.PI * turn) / SHIFT_TURNS;
      return [x + Math.cos(angle) * shift * room, y + Math.sin(angle) * shift * room];
    }),
  );
}

function placeBeside(
  request: LabelRequest,
  { lines, area }: LabelObstacles,
  sizes: LabelSizes,
  boxes: BoxGrid,
  targets: BoxGrid,
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
      const cost =
        reach / size +
        LINE_PRICE * segmentsInBox(lines, label.box, COUNTED_LINES) +
        TARGET_PRICE * targets.overlap(label.box) +
        LABEL_PRICE * boxes.overlap(label.box);
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
