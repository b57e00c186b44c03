import type { Bounds, Point } from '../geometry/point.js';
import { type LabelShape, type LabelWords, labelExtent } from './label-shape.js';
import type { SegmentField } from './segment-field.js';

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

/** A label set around `at`, its box grown by `margin`. */
export function labelAt(request: LabelRequest, shape: LabelShape, at: Point, margin: number): PlacedLabel {
  const [width, height] = labelExtent(request, shape);
  const [w, h] = [width / 2 + margin, height / 2 + margin];
  return { request, ...shape, at, box: [at[0] - w, at[1] - h, at[0] + w, at[1] + h] };
}
