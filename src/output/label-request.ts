import type { Bounds, Point } from '../geometry/point.js';
import type { SegmentField } from '../geometry/segment-field.js';
import { type LabelShape, type LabelWords, labelExtent } from './label-shape.js';

/** A label that wants a place: where it should stand, and how far the nearest line is there, mm. */
export interface LabelRequest extends LabelWords {
  readonly at: Point;
  readonly room: number;
  /** Said in place of the id where that has no room. */
  readonly short?: string;
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
  /** What a label beside its region pays for a line under it, in its own sizes of distance. Default 0.5. */
  readonly linePrice?: number;
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
  /** How labels beside their regions are set. Default `callout`. */
  readonly aside?: 'callout' | 'beside';
}

/** A label set around `at`, its box grown by `margin`. */
export function labelAt(request: LabelRequest, shape: LabelShape, at: Point, margin: number): PlacedLabel {
  const [width, height] = labelExtent(request, shape);
  const [w, h] = [width / 2 + margin, height / 2 + margin];
  return { request, ...shape, at, box: [at[0] - w, at[1] - h, at[0] + w, at[1] + h] };
}

/** The request itself, then with its short words where it has some. */
export function wordings(request: LabelRequest): LabelRequest[] {
  const { short } = request;
  return short === undefined ? [request] : [request, { ...request, id: short }];
}
