import type { LabelRequest, PlacedLabel } from './label-request.js';

/** Callouts that are placed, and what another place of one would cost. */
export interface CalloutBoard {
  /** It stands on a line, hides something or is hidden. */
  isBad(label: PlacedLabel): boolean;
  costOf(label: PlacedLabel): number;
  bestPlace(request: LabelRequest): PlacedLabel | null;
  put(label: PlacedLabel): void;
  take(label: PlacedLabel): void;
  /** Callouts that a label there covers or hides, or is hidden by; no more than one above `most`. */
  inWay(label: PlacedLabel, most: number): PlacedLabel[];
  /** Places that are free but for other callouts, the cheapest first. */
  placesAmongFixed(request: LabelRequest): PlacedLabel[];
}

/** So many places are tried for a badly placed callout, with no more others in the way than this. */
const TRIES = 24;
const MOST_IN_WAY = 3;

/** A change worth less than this is none, in type sizes of distance. */
const WORTH = 0.01;

/**
 * Callouts that stand on a line, hide something or are hidden: each tries places where others are in the way, which look
 * for new ones then. What costs least in all stays. Changes `placed`.
 */
export function makeRoom(placed: (PlacedLabel | null)[], board: CalloutBoard): void {
  const numbers = new Map(placed.map((label, i) => [label?.request.at, i]));
  placed.forEach((before, i) => {
    if (before === null) return;
    board.take(before);
    if (!board.isBad(before)) {
      board.put(before);
      return;
    }
    let least = board.costOf(before) - WORTH;
    let best: readonly PlacedLabel[] | null = null;
    for (const label of board.placesAmongFixed(before.request).slice(0, TRIES)) {
      const found = withOthersMoved(label, board);
      if (found === null || found.cost >= least) continue;
      least = found.cost;
      best = found.labels;
    }
    if (best === null) {
      board.put(before);
      return;
    }
    for (const label of best.slice(1)) board.take(placed[numbers.get(label.request.at)!]!);
    for (const label of best) {
      board.put(label);
      placed[numbers.get(label.request.at) ?? i] = label;
    }
  });
}

/** A label at a place with those in its way moved, and what that costs more for them; all is left as it was. */
function withOthersMoved(
  label: PlacedLabel,
  board: CalloutBoard,
): { readonly labels: readonly PlacedLabel[]; readonly cost: number } | null {
  const inWay = board.inWay(label, MOST_IN_WAY);
  if (inWay.length > MOST_IN_WAY) return null;
  let before = 0;
  for (const other of inWay) {
    board.take(other);
    before += board.costOf(other);
  }
  board.put(label);
  const moved: PlacedLabel[] = [];
  for (const { request } of inWay) {
    const place = board.bestPlace(request);
    if (place === null) break;
    board.put(place);
    moved.push(place);
  }
  let after = 0;
  for (const place of moved) {
    board.take(place);
    after += board.costOf(place);
    board.put(place);
  }
  for (const place of moved) board.take(place);
  board.take(label);
  for (const place of moved) board.put(place);
  const own = board.costOf(label);
  for (const place of moved) board.take(place);
  for (const other of inWay) board.put(other);
  return moved.length < inWay.length ? null : { labels: [label, ...moved], cost: own + after - before };
}
