import type { Bounds, Point } from '../geometry/point.js';
import { segmentsInBox, wayIsFree } from '../geometry/segment-field.js';
import { BoxGrid } from './box-grid.js';
import {
  type LabelObstacles,
  type LabelRequest,
  type LabelSizes,
  labelAt,
  type PlacedLabel,
  wordings,
} from './label-request.js';
import { type LabelForm, type LabelShape, labelExtent } from './label-shape.js';
import { MANY, placeCallouts } from './place-callouts.js';

/** The id is set smaller than the number, but no smaller than `smallestId`. */
const ID_PART = 0.62;

/** In a crowd, type inside a region may be this part of the smallest that is read well on paper. */
const CROWD_PART = 0.25;

/** Each try is this much smaller than the one before. */
const SHRINK = 0.87;

/** Number sizes tried in a region, in parts of the room around its label point. */
const FIRST_TRY = 1.2;

/** Places tried beside the label point of a region: directions, and distances in parts of the room there. */
const SHIFT_TURNS = 12;
const SHIFTS = [0.5, 1, 1.7, 2.6, 4];
const SHIFT_WAYS = Array.from({ length: SHIFT_TURNS }, (_, turn): Point => {
  const angle = (2 * Math.PI * turn) / SHIFT_TURNS;
  return [Math.cos(angle), Math.sin(angle)];
});

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
  const boxes = new BoxGrid<Bounds>(sizes.smallest * 2);
  for (const box of obstacles.taken) boxes.add(box, box);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  const byRoom = requests.map((_, i) => i).sort((a, b) => requests[b].room - requests[a].room || a - b);
  const setInside = (some: readonly number[], allowed: LabelSizes): number[] =>
    some.filter((i) => {
      const label = requests[i].isBeside ? null : placeInside(requests[i], obstacles, allowed, boxes);
      if (label !== null) boxes.add(label.box, label.box);
      placed[i] = label;
      return label === null;
    });
  const left = setInside(byRoom, sizes);
  // So many callouts would hide the picture: small type is read by enlarging it.
  const many = left.filter((i) => !requests[i].isBeside).length > MANY;
  const rest = many ? setInside(left, smallerType(sizes)) : left;
  rest.sort((a, b) => a - b);
  const fixed = [...obstacles.taken, ...placed.flatMap((label) => (label === null ? [] : [label.box]))];
  const asked = rest.map((i) => requests[i]);
  placeCallouts(asked, obstacles, sizes, fixed).forEach((label, k) => {
    placed[rest[k]] = label;
    if (label !== null) boxes.add(label.box, label.box);
  });
  const nowhere = rest.filter((i) => placed[i] === null);
  for (const i of setInside(nowhere, smallerType(sizes))) placed[i] = smallLabel(requests[i], sizes);
  return placed as PlacedLabel[];
}

/** The last resort: small type on the spot, or right beside the mark there. */
function smallLabel(request: LabelRequest, sizes: LabelSizes): PlacedLabel {
  const shape = { form: 'line', size: sizes.smallest, idSize: sizes.smallestId } as const;
  const [words] = wordings(request).slice(-1);
  if (!request.isBeside) return labelAt(words, shape, request.at, 0);
  const [x, y] = request.at;
  const [width] = labelExtent(words, shape);
  return labelAt(words, shape, [x + request.room + width / 2, y - request.room], 0);
}

function smallerType(sizes: LabelSizes): LabelSizes {
  const [smallest, smallestId] = [sizes.smallest * CROWD_PART, sizes.smallestId * CROWD_PART];
  return { ...sizes, smallest, smallestId, clearance: sizes.clearance * CROWD_PART };
}

function placeInside(
  request: LabelRequest,
  obstacles: LabelObstacles,
  sizes: LabelSizes,
  boxes: BoxGrid<Bounds>,
): PlacedLabel | null {
  for (const words of wordings(request)) {
    const label = placeWords(words, obstacles, sizes, boxes);
    if (label !== null) return label;
  }
  return null;
}

function placeWords(
  request: LabelRequest,
  { lines, borders }: LabelObstacles,
  sizes: LabelSizes,
  boxes: BoxGrid<Bounds>,
): PlacedLabel | null {
  const all = trySizes(request, sizes);
  // Without a number both are the same.
  const forms: readonly LabelForm[] = request.number === null ? ['stacked'] : ['stacked', 'line'];
  const shapes = forms.map((form) =>
    all.map((size) => {
      const shape: LabelShape = { form, size, idSize: Math.max(size * ID_PART, sizes.smallestId) };
      return { shape, extent: labelExtent(request, shape) };
    }),
  );
  const boxAt = ([x, y]: Point, form: number, i: number): Bounds => {
    const { shape, extent } = shapes[form][i];
    const [w, h] = [extent[0] / 2 + sizes.clearance, extent[1] / 2 + sizes.clearance];
    return [x - w, y - h, x + w, y + h + (sizes.below ?? 0) * shape.size];
  };
  const isFree = (at: Point, form: number, i: number): boolean => {
    const box = boxAt(at, form, i);
    return segmentsInBox(lines, box, 1) === 0 && !boxes.meets(box);
  };
  // The boxes of one form at one place lie in one another, so the largest that is free is found by halving.
  const largestFree = (at: Point, form: number, before: number): number => {
    let [low, high] = [0, before - 1];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (isFree(at, form, middle)) high = middle;
      else low = middle + 1;
    }
    return low;
  };
  let best: PlacedLabel | null = null;
  let size = all.length;
  const tryAt = (at: Point, isWayFree: () => boolean): void => {
    for (let form = 0; form < forms.length; form++) {
      if (size === 0 || !isFree(at, form, size - 1)) continue;
      if (!isWayFree()) return;
      size = largestFree(at, form, size);
      best = { request, ...shapes[form][size].shape, at, box: boxAt(at, form, size) };
    }
  };
  tryAt(request.at, () => true);
  if (best !== null) return best;
  for (const at of shiftedPlaces(request)) tryAt(at, () => wayIsFree(borders, request.at, at));
  return best;
}

/** Type sizes to try, falling. */
function trySizes(request: LabelRequest, sizes: LabelSizes): number[] {
  const smallest = request.number === null ? sizes.smallestId : sizes.smallest;
  const { short } = request;
  const isLong = short !== undefined && (short.id !== request.id || short.number !== request.number);
  const least = isLong ? (sizes.smallestLong ?? smallest) : smallest;
  const all: number[] = [];
  const first = Math.min(sizes.largest, Math.max(least, request.room * FIRST_TRY));
  for (let size = first; size > least; size *= SHRINK) all.push(size);
  return [...all, least];
}

function shiftedPlaces({ at: [x, y], room }: LabelRequest): Point[] {
  return SHIFTS.flatMap((shift) =>
    SHIFT_WAYS.map(([cos, sin]): Point => [x + cos * shift * room, y + sin * shift * room]),
  );
}
