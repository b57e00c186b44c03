import type { Bounds, Point } from '../geometry/point.js';
import type { SegmentField } from '../geometry/segment-field.js';
import { type LabelShape, type LabelWords, labelExtent } from './label-shape.js';

/** A label that wants a place: where it should stand, and how far the nearest line is there, mm. */
export interface LabelRequest extends LabelWords {
  readonly at: Point;
  readonly room: number;
  /** Said in place of number and id where these have no room. */
  readonly short?: LabelWords;
  /** It speaks of a mark and never stands on it; `room` is then how far the mark reaches. */
  readonly isBeside?: boolean;
  /** Other marks are near: it has a line to its own wherever it stands. */
  readonly isTied?: boolean;
}

/** A placed label: `at` is its middle, mm. */
export interface PlacedLabel extends LabelShape {
  readonly request: LabelRequest;
  readonly at: Point;
  readonly box: Bounds;
  /** Width and height without any room around, mm. Absent: to be worked out. */
  readonly extent?: Point;
  /** What it is a part of, where that is set as one: a line to it ends there. */
  readonly whole?: Bounds;
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
  /** What a label beside its region pays for each line under it, for what hides another or is hidden, for short words. */
  readonly prices?: { readonly line: number; readonly hidden: number; readonly short: number };
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
  /** Words that have short ones are set in a region no smaller than this. Default: as small as all others. */
  readonly smallestLong?: number;
  /** Room around a label beside its region. Default: a tenth of its size. */
  readonly apart?: number;
  /** Room below a label for letters that reach below their line, in parts of its size. Default 0. */
  readonly below?: number;
  /** How labels beside their regions are set. Default `callout`. */
  readonly aside?: 'callout' | 'beside';
}

/** A label set around `at`, its box grown by `margin`, and by `below` at its foot, mm. */
export function labelAt(
  request: LabelRequest,
  shape: LabelShape,
  at: Point,
  margin: number,
  below = 0,
): PlacedLabel {
  const [width, height] = labelExtent(request, shape);
  const [w, h] = [width / 2 + margin, height / 2 + margin];
  return { request, ...shape, at, box: [at[0] - w, at[1] - h, at[0] + w, at[1] + h + below] };
}

/** Gap between a word and the line to its mark, mm. */
const GAP = 0.3;

/** Where the line from what a label speaks of ends: under its plate, or at the nearest edge of what stands without one. */
export function leaderEnd(label: PlacedLabel): Point {
  const { request, at, form, whole } = label;
  if (form !== 'beside') return at;
  const [x, y] = request.at;
  const [width, height] = label.extent ?? labelExtent(request, label);
  const [x0, y0, x1, y1] = whole ?? [
    at[0] - width / 2,
    at[1] - height / 2,
    at[0] + width / 2,
    at[1] + height / 2,
  ];
  const clamp = (v: number, least: number, most: number): number =>
    Math.min(most + GAP, Math.max(least - GAP, v));
  return [clamp(x, x0, x1), clamp(y, y0, y1)];
}

/** The request itself, then with its short words where it has some. */
export function wordings(request: LabelRequest): LabelRequest[] {
  const { short } = request;
  return short === undefined ? [request] : [request, { ...request, ...short }];
}
