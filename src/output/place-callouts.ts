import type { Bounds, Point } from '../geometry/point.js';
import { boxOfWay, segmentsInBox } from '../geometry/segment-field.js';
import { segmentMeetsBox, segmentsMeet } from '../geometry/segment-meeting.js';
import { BoxGrid, boxesMeet } from './box-grid.js';
import {
  type LabelObstacles,
  type LabelRequest,
  type LabelSizes,
  labelAt,
  type PlacedLabel,
  wordings,
} from './label-request.js';
import { type LabelShape, labelExtent } from './label-shape.js';

/** Directions and distances (in type sizes) tried for a label beside its region, or beside a mark. */
const TURNS = 24;
const STEPS = 16;
const NEAREST = 1.1;
const NEAREST_MARK = 0.8;
const STEP = 0.55;

/**
 * What a callout pays for each thing that it covers or that its leader crosses; one is the price of standing
 * its own size further away.
 */
const PRICE = {
  /** A line of the drawing under the label, unless the picture has a price of its own. */
  line: 0.5,
  /** Short words, where it has long ones. */
  short: 2,
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

/**
 * Rounds in which each callout looks for a better place among all others. Above `MANY` callouts there is one
 * round, and a callout that would cover another label gets no place: so no spot holds more than a few, however
 * many are asked for.
 */
const ROUNDS = 4;
export const MANY = 400;

/** What is around while callouts are placed. */
interface Surroundings {
  readonly obstacles: LabelObstacles;
  /** Labels in regions, and marks. */
  readonly fixed: BoxGrid<Bounds>;
  /** The places that callouts speak of. */
  readonly targets: BoxGrid<LabelRequest>;
  /** Callouts by the box around label and leader. */
  readonly callouts: BoxGrid<PlacedLabel>;
  /** Callouts by their plates alone. */
  readonly plates: BoxGrid<PlacedLabel>;
  /** A place must cost less than this. */
  readonly most: number;
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
    plates: new BoxGrid(sizes.callout * 4),
    most: requests.length > MANY ? PRICE.label : Number.POSITIVE_INFINITY,
  };
  for (const box of fixed) around.fixed.add(box, box);
  for (const request of requests) around.targets.add(request, [...request.at, ...request.at]);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  const rounds = requests.length > MANY ? 1 : ROUNDS;
  for (let round = 0; round < rounds; round++) {
    requests.forEach((request, i) => {
      const before = placed[i];
      if (before !== null) take(before, around);
      const label = bestPlace(request, around, sizes) ?? before;
      if (label !== null) put(label, around);
      placed[i] = label;
    });
  }
  return placed;
}

function put(label: PlacedLabel, { callouts, plates }: Surroundings): void {
  callouts.add(label, reachOf(label));
  plates.add(label, label.box);
}

function take(label: PlacedLabel, { callouts, plates }: Surroundings): void {
  callouts.remove(label);
  plates.remove(label);
}

function bestPlace(request: LabelRequest, around: Surroundings, sizes: LabelSizes): PlacedLabel | null {
  const size = sizes.callout;
  const shape: LabelShape = { form: sizes.aside ?? 'callout', size, idSize: sizes.calloutId };
  const nearest = request.isBeside ? NEAREST_MARK : NEAREST;
  let best: PlacedLabel | null = null;
  let least = around.most;
  for (const [shorter, words] of wordings(request).entries()) {
    const [width, height] = labelExtent(words, shape);
    for (let step = 0; step < STEPS; step++) {
      const reach = size * (nearest + step * STEP) + request.room;
      const price = reach / size + shorter * PRICE.short;
      // What is left to try lies further away than the best costs.
      if (price > least) break;
      for (let turn = 0; turn < TURNS; turn++) {
        const angle = (2 * Math.PI * (turn + 0.5)) / TURNS;
        const x = request.at[0] + Math.cos(angle) * (reach + (width - size) / 2);
        const y = request.at[1] + Math.sin(angle) * (reach + (height - size) / 2);
        const label: PlacedLabel = labelAt(words, shape, [x, y], sizes.apart ?? size * 0.1);
        if (!within(label.box, around.obstacles.area)) continue;
        const cost = price + priceOf(label, around, least - price);
        if (cost < least) {
          least = cost;
          best = label;
        }
      }
    }
  }
  return best;
}

/** What a place costs beside its distance; once that is `enough` or more, the rest is not added up. */
function priceOf(label: PlacedLabel, around: Surroundings, enough: number): number {
  const { obstacles, fixed, targets, callouts, plates } = around;
  const { box, at, request } = label;
  // The dearest first: in a crowd most places are given up here.
  if (enough <= PRICE.label && (fixed.meets(box) || plates.meets(box))) return PRICE.label;
  let price = (obstacles.linePrice ?? PRICE.line) * segmentsInBox(obstacles.lines, box, COUNTED_LINES);
  if (price >= enough) return price;
  const reach = reachOf(label);
  fixed.visit(reach, (other) => {
    if (boxesMeet(other, box)) price += PRICE.label;
    else if (segmentMeetsBox(request.at, at, other)) price += PRICE.hidden;
    return price < enough;
  });
  callouts.visit(reach, (other) => {
    price += priceAmong(label, other);
    return price < enough;
  });
  targets.visit(reach, (target) => {
    if (target.at !== request.at) price += priceOfTarget(label, target);
    return price < enough;
  });
  return price;
}

function priceOfTarget({ box, at, request, size }: PlacedLabel, target: LabelRequest): number {
  const [x, y] = target.at;
  if (boxesMeet(box, [x, y, x, y])) return PRICE.target;
  const half = TARGET * size;
  return segmentMeetsBox(request.at, at, [x - half, y - half, x + half, y + half]) ? PRICE.passing : 0;
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
