import type { Bounds, Point } from '../geometry/point.js';
import { BoxGrid, boxesMeet } from './box-grid.js';
import {
  type LabelObstacles,
  type LabelRequest,
  type LabelSizes,
  labelAt,
  type PlacedLabel,
} from './label-request.js';
import { type LabelShape, labelExtent } from './label-shape.js';
import { boxOfWay, segmentsInBox } from './segment-field.js';
import { segmentMeetsBox, segmentsMeet } from './segment-meeting.js';

/** Directions and distances (in type sizes) tried for a label beside its region. */
const TURNS = 24;
const STEPS = 16;
const NEAREST = 1.1;
const STEP = 0.55;

/**
 * What a callout pays for each thing that it covers or that its leader crosses; one is the price of standing
 * its own size further away.
 */
const PRICE = {
  /** A line of the drawing under the label. */
  line: 0.5,
  /** A place that another callout speaks of, under the label. */
  target: 4,
  /** Another label, or a mark, under the label. */
  label: 100,
  /** Another label under the leader, or a leader under the label. */
  hidden: 5,
  /** Two leaders that cross. */
  crossing: 4,
  /** A leader that passes a place that another callout speaks of. */
  passing: 3,
} as const;

/** A leader passes a place when it comes this near to it, in type sizes. */
const TARGET = 0.5;

/** Lines beyond these are not counted. */
const COUNTED_LINES = 12;

/** Rounds in which each callout looks for a better place among all others; above so many callouts, one. */
const ROUNDS = 4;
const MANY = 400;

/** What is around while callouts are placed. */
interface Surroundings {
  readonly obstacles: LabelObstacles;
  /** Labels in regions, and marks. */
  readonly fixed: BoxGrid<Bounds>;
  /** The places that callouts speak of. */
  readonly targets: BoxGrid<LabelRequest>;
  /** Callouts by the box around label and leader. */
  readonly callouts: BoxGrid<PlacedLabel>;
}

/**
 * Places labels beside their regions: near, over as few lines as can be, over no other label, with leaders that
 * do not cross. Each is placed in turn, then each again among all others, a few times. Null: no place was found.
 */
export function placeCallouts(
  requests: readonly LabelRequest[],
  obstacles: LabelObstacles,
  sizes: LabelSizes,
  fixed: readonly Bounds[],
): (PlacedLabel | null)[] {
  const cell = sizes.largest * 4;
  const around: Surroundings = {
    obstacles,
    fixed: new BoxGrid(cell),
    targets: new BoxGrid(cell),
    callouts: new BoxGrid(cell),
  };
  for (const box of fixed) around.fixed.add(box, box);
  for (const request of requests) around.targets.add(request, [...request.at, ...request.at]);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  const rounds = requests.length > MANY ? 1 : ROUNDS;
  for (let round = 0; round < rounds; round++) {
    requests.forEach((request, i) => {
      const before = placed[i];
      if (before !== null) around.callouts.remove(before);
      const label = bestPlace(request, around, sizes) ?? before;
      if (label !== null) around.callouts.add(label, reachOf(label));
      placed[i] = label;
    });
  }
  return placed;
}

function bestPlace(request: LabelRequest, around: Surroundings, sizes: LabelSizes): PlacedLabel | null {
  const size = sizes.callout;
  const shape: LabelShape = { form: 'callout', size, idSize: sizes.calloutId };
  const [width, height] = labelExtent(request, shape);
  let best: PlacedLabel | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < STEPS; step++) {
    const reach = size * (NEAREST + step * STEP) + request.room;
    // What is left to try lies further away than the best costs.
    if (reach / size > least) break;
    for (let turn = 0; turn < TURNS; turn++) {
      const angle = (2 * Math.PI * (turn + 0.5)) / TURNS;
      const x = request.at[0] + Math.cos(angle) * (reach + (width - size) / 2);
      const y = request.at[1] + Math.sin(angle) * (reach + (height - size) / 2);
      const label: PlacedLabel = labelAt(request, shape, [x, y], size * 0.1);
      if (!within(label.box, around.obstacles.area)) continue;
      const cost = reach / size + priceOf(label, around);
      if (cost < least) {
        least = cost;
        best = label;
      }
    }
  }
  return best;
}

function priceOf(label: PlacedLabel, { obstacles, fixed, targets, callouts }: Surroundings): number {
  const { box, at, request } = label;
  let price = PRICE.line * segmentsInBox(obstacles.lines, box, COUNTED_LINES);
  for (const target of targets.near(reachOf(label))) {
    if (target === request) continue;
    const [x, y] = target.at;
    const spot: Bounds = [
      x - TARGET * label.size,
      y - TARGET * label.size,
      x + TARGET * label.size,
      y + TARGET * label.size,
    ];
    if (boxesMeet(box, [x, y, x, y])) price += PRICE.target;
    else if (segmentMeetsBox(request.at, at, spot)) price += PRICE.passing;
  }
  for (const other of fixed.near(reachOf(label))) {
    if (boxesMeet(other, box)) price += PRICE.label;
    else if (segmentMeetsBox(request.at, at, other)) price += PRICE.hidden;
  }
  for (const other of callouts.near(reachOf(label))) price += priceAmong(label, other);
  return price;
}

function priceAmong(label: PlacedLabel, other: PlacedLabel): number {
  if (boxesMeet(label.box, other.box)) return PRICE.label;
  const [from, to]: [Point, Point] = [label.request.at, label.at];
  const [otherFrom, otherTo]: [Point, Point] = [other.request.at, other.at];
  let price = 0;
  if (segmentsMeet(from, to, otherFrom, otherTo)) price += PRICE.crossing;
  if (segmentMeetsBox(from, to, other.box)) price += PRICE.hidden;
  if (segmentMeetsBox(otherFrom, otherTo, label.box)) price += PRICE.hidden;
  return price;
}

/** The box around a callout and its leader. */
function reachOf({ box, at, request }: PlacedLabel): Bounds {
  const way = boxOfWay(at, request.at);
  return [
    Math.min(box[0], way[0]),
    Math.min(box[1], way[1]),
    Math.max(box[2], way[2]),
    Math.max(box[3], way[3]),
  ];
}

function within(box: Bounds, area: Bounds): boolean {
  return box[0] >= area[0] && box[1] >= area[1] && box[2] <= area[2] && box[3] <= area[3];
}
