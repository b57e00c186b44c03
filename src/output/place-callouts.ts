import type { Bounds, Point } from '../geometry/point.js';
import { boxOfWay, segmentsInBox } from '../geometry/segment-field.js';
import { segmentMeetsBox, segmentsMeet } from '../geometry/segment-meeting.js';
import { BoxGrid, boxesMeet } from './box-grid.js';
import {
  type LabelObstacles,
  type LabelRequest,
  type LabelSizes,
  leaderEnd,
  type PlacedLabel,
  wordings,
} from './label-request.js';
import { type LabelShape, labelExtent } from './label-shape.js';
import { type CalloutBoard, makeRoom } from './make-room.js';

/** Directions and distances (in type sizes) tried for a label beside its region, or beside a mark. */
const TURNS = 24;
const STEPS = 16;
const NEAREST = 1.1;
const NEAREST_MARK = 0.8;
const STEP = 0.55;
const WAYS_OUT = Array.from({ length: TURNS }, (_, turn): Point => {
  const angle = (2 * Math.PI * (turn + 0.5)) / TURNS;
  return [Math.cos(angle), Math.sin(angle)];
});

/**
 * What a callout pays for each thing that it covers or that its leader crosses; one is the price of standing
 * its own size further away. A picture may have prices of its own for `line`, `hidden` and `short`.
 */
const PRICE = {
  /** A line of the drawing under the label. */
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
  readonly prices: NonNullable<LabelObstacles['prices']>;
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
  const cell = sizes.callout * 3;
  const around: Surroundings = {
    obstacles,
    fixed: new BoxGrid(cell),
    targets: new BoxGrid(cell),
    callouts: new BoxGrid(cell),
    plates: new BoxGrid(cell),
    most: requests.length > MANY ? PRICE.label : Number.POSITIVE_INFINITY,
    prices: obstacles.prices ?? PRICE,
  };
  for (const box of fixed) around.fixed.add(box, box);
  for (const request of requests) around.targets.add(request, [...request.at, ...request.at]);
  const placed = new Array<PlacedLabel | null>(requests.length).fill(null);
  /** What the distance of each costs. */
  const farPrices = new Float64Array(requests.length);
  const rounds = requests.length > MANY ? 1 : ROUNDS;
  for (let round = 0; round < rounds; round++) {
    requests.forEach((request, i) => {
      const before = placed[i];
      if (before !== null) take(before, around);
      // Where it stands now is one of the places: no other needs to be looked at longer than that.
      const now =
        before === null
          ? Number.POSITIVE_INFINITY
          : farPrices[i] + priceOf(before, around, Number.POSITIVE_INFINITY);
      const found = bestPlace(request, around, sizes, now);
      if (found !== null) {
        placed[i] = found.label;
        farPrices[i] = found.far;
      }
      if (placed[i] !== null) put(placed[i]!, around);
    });
  }
  if (obstacles.prices !== undefined && requests.length <= MANY)
    makeRoom(placed, calloutBoard(around, sizes));
  return placed;
}

/** What makes room among callouts needs of them. */
function calloutBoard(around: Surroundings, sizes: LabelSizes): CalloutBoard {
  const { line, hidden } = around.prices;
  return {
    isBad: (label) => priceOf(label, around, line) >= Math.min(line, hidden),
    costOf: (label) => {
      const far = Math.hypot(label.at[0] - label.request.at[0], label.at[1] - label.request.at[1]);
      return far / label.size + priceOf(label, around, Number.POSITIVE_INFINITY);
    },
    bestPlace: (request) => bestPlace(request, around, sizes)?.label ?? null,
    put: (label) => put(label, around),
    take: (label) => take(label, around),
    inWay: (label, most) => {
      const found = new Set<PlacedLabel>();
      around.callouts.visit(reachOf(label), (other) => {
        if (priceAmong(label, other, hidden) >= hidden) found.add(other);
        return found.size <= most;
      });
      return [...found];
    },
    placesAmongFixed: (request) => {
      const none = { callouts: new BoxGrid<PlacedLabel>(1), plates: new BoxGrid<PlacedLabel>(1) };
      const alone: Surroundings = { ...around, ...none };
      const places: { label: PlacedLabel; cost: number }[] = [];
      eachPlace(
        request,
        around,
        sizes,
        () => true,
        (label, price) => {
          const cost = price + priceOf(label, alone, Number.POSITIVE_INFINITY);
          if (cost < line) places.push({ label, cost });
        },
      );
      return places.sort((a, b) => a.cost - b.cost).map(({ label }) => label);
    },
  };
}

function put(label: PlacedLabel, { callouts, plates }: Surroundings): void {
  callouts.add(label, reachOf(label));
  plates.add(label, label.box);
}

function take(label: PlacedLabel, { callouts, plates }: Surroundings): void {
  callouts.remove(label);
  plates.remove(label);
}

/** Two sums of the same prices differ by less than this. */
const ROUNDING = 1e-9;

/** The cheapest place, the first of those that cost the same, and what its distance costs. @param known what is to be had */
function bestPlace(
  request: LabelRequest,
  around: Surroundings,
  sizes: LabelSizes,
  known = Number.POSITIVE_INFINITY,
): { readonly label: PlacedLabel; readonly far: number } | null {
  let best: { label: PlacedLabel; far: number } | null = null;
  let least = Math.min(around.most, known + ROUNDING);
  eachPlace(
    request,
    around,
    sizes,
    // What is left to try lies further away than the best costs.
    (far) => far <= least,
    (label, far) => {
      const cost = far + priceOf(label, around, least - far);
      if (cost < least) {
        least = cost;
        best = { label, far };
      }
    },
  );
  return best;
}

/** All places for a callout within reach, for each wording from near to far, as long as the distance is worth its price. */
function eachPlace(
  request: LabelRequest,
  { obstacles: { area }, prices }: Surroundings,
  sizes: LabelSizes,
  isWorth: (price: number) => boolean,
  visit: (label: PlacedLabel, price: number) => void,
): void {
  const size = sizes.callout;
  const shape: LabelShape = { form: sizes.aside ?? 'callout', size, idSize: sizes.calloutId };
  const nearest = request.isBeside ? NEAREST_MARK : NEAREST;
  const below = (sizes.below ?? 0) * size;
  const apart = sizes.apart ?? size * 0.1;
  for (const [shorter, words] of wordings(request).entries()) {
    const extent = labelExtent(words, shape);
    const [width, height] = extent;
    const [w, h] = [width / 2 + apart, height / 2 + apart];
    for (let step = 0; step < STEPS; step++) {
      const reach = size * (nearest + step * STEP) + request.room;
      const price = reach / size + shorter * prices.short;
      if (!isWorth(price)) break;
      for (const [cos, sin] of WAYS_OUT) {
        const x = request.at[0] + cos * (reach + (width - size) / 2);
        const y = request.at[1] + sin * (reach + (height - size) / 2);
        const box: Bounds = [x - w, y - h, x + w, y + h + below];
        if (within(box, area)) visit({ request: words, ...shape, at: [x, y], box, extent }, price);
      }
    }
  }
}

/** What a place costs beside its distance; once that is `enough` or more, the rest is not added up. */
function priceOf(label: PlacedLabel, around: Surroundings, enough: number): number {
  const { obstacles, fixed, targets, callouts, plates, prices } = around;
  const { box, request } = label;
  const end = leaderEnd(label);
  // Where one line is too dear, most places are given up here.
  if (enough <= prices.line && segmentsInBox(obstacles.lines, box, 1) > 0) return prices.line;
  // The dearest first: in a crowd most of the others are.
  if (enough <= PRICE.label && (fixed.meets(box) || plates.meets(box))) return PRICE.label;
  // No more lines are counted than it takes to be too dear.
  const most = Math.min(COUNTED_LINES, Math.max(1, Math.ceil(enough / prices.line)));
  let price = prices.line * segmentsInBox(obstacles.lines, box, most);
  if (price >= enough) return price;
  const reach = reachOf(label);
  fixed.visit(reach, (other) => {
    if (boxesMeet(other, box)) price += PRICE.label;
    else if (segmentMeetsBox(request.at, end, other)) price += prices.hidden;
    return price < enough;
  });
  callouts.visit(reach, (other) => {
    price += priceAmong(label, other, prices.hidden);
    return price < enough;
  });
  targets.visit(reach, (target) => {
    if (target.at !== request.at) price += priceOfTarget(label, target);
    return price < enough;
  });
  return price;
}

function priceOfTarget(label: PlacedLabel, target: LabelRequest): number {
  const { box, request, size } = label;
  const [x, y] = target.at;
  if (boxesMeet(box, [x, y, x, y])) return PRICE.target;
  const half = TARGET * size;
  return segmentMeetsBox(request.at, leaderEnd(label), [x - half, y - half, x + half, y + half])
    ? PRICE.passing
    : 0;
}

function priceAmong(label: PlacedLabel, other: PlacedLabel, hidden: number): number {
  if (boxesMeet(label.box, other.box)) return PRICE.label;
  const [from, to]: [Point, Point] = [label.request.at, leaderEnd(label)];
  const [otherFrom, otherTo]: [Point, Point] = [other.request.at, leaderEnd(other)];
  let price = 0;
  if (segmentsMeet(from, to, otherFrom, otherTo)) price += PRICE.crossing;
  if (segmentMeetsBox(from, to, other.box)) price += hidden;
  if (segmentMeetsBox(otherFrom, otherTo, label.box)) price += hidden;
  return price;
}

/** The box around a callout and its leader. */
function reachOf(label: PlacedLabel): Bounds {
  const { box, request } = label;
  const way = boxOfWay(leaderEnd(label), request.at);
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
