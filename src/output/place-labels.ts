import type { Bounds, Point } from '../geometry/point.js';
import { type SegmentField, segmentsInBox } from './segment-field.js';
import { textWidth } from './text-width.js';

/** A label that wants a place. */
export interface LabelRequest {
  /** The depth number as written, or null where there is none yet. */
  readonly number: string | null;
  readonly id: string;
  /** Where it should stand, and how far the nearest line is, mm. */
  readonly at: Point;
  readonly room: number;
}

/** A placed label. */
export interface PlacedLabel {
  readonly request: LabelRequest;
  /** stacked: number above id; line: number and id side by side; callout: like line, beside its region. */
  readonly form: 'stacked' | 'line' | 'callout';
  /** Middle of the label, mm. */
  readonly at: Point;
  /** Type size of the number (of the id where there is none), mm. */
  readonly size: number;
  readonly box: Bounds;
}

/** Sizes for one picture, mm. */
export interface LabelSizes {
  readonly largest: number;
  /** Smallest type inside a region. */
  readonly smallest: number;
  /** Type of labels that stand beside their region. */
  readonly callout: number;
}

/** The id is set smaller than the number. */
export const ID_PART = 0.62;

/** Each try is this much smaller than the one before. */
const SHRINK = 0.85;

/** Directions and distances (in callout sizes) tried for a label beside its region. */
const CALLOUT_TURNS = 24;
const CALLOUT_STEPS = 14;

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
  const first = Math.min(sizes.largest, Math.max(sizes.smallest, request.room * 1.2));
  for (let size = first; size > sizes.smallest * SHRINK; size *= SHRINK) {
    const fitting = Math.max(size, sizes.smallest);
    for (const form of ['stacked', 'line'] as const) {
      if (form === 'stacked' && (request.number === null || fitting * ID_PART < sizes.smallest * 0.8))
        continue;
      const box = boxAround(request.at, labelExtent(request, form, fitting), fitting * 0.12);
      if (segmentsInBox(field, box, 1) === 0 && boxes.overlap(box) === 0) {
        return { request, form, at: request.at, size: fitting, box };
      }
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
  const extent = labelExtent(request, 'callout', size);
  let best: PlacedLabel | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < CALLOUT_STEPS; step++) {
    const reach = size * (1.1 + step * 0.55) + request.room;
    // Every further step costs more than one line crossed, so nearer places win early.
    if (reach / size > least) break;
    for (let turn = 0; turn < CALLOUT_TURNS; turn++) {
      const angle = (2 * Math.PI * (turn + 0.5)) / CALLOUT_TURNS;
      const x = request.at[0] + Math.cos(angle) * (reach + extent[0] / 2);
      const y = request.at[1] + Math.sin(angle) * (reach + extent[1] / 2 - size / 2);
      const box = boxAround([x, y], extent, size * 0.1);
      if (box[0] < area[0] || box[1] < area[1] || box[2] > area[2] || box[3] > area[3]) continue;
      const cost = reach / size + 0.6 * segmentsInBox(field, box, 12) + 100 * boxes.overlap(box);
      if (cost < least) {
        least = cost;
        best = { request, form: 'callout', at: [x, y], size, box };
      }
    }
  }
  return (
    best ?? {
      request,
      form: 'line',
      at: request.at,
      size: sizes.smallest * 0.6,
      box: boxAround(request.at, extent, 0),
    }
  );
}

/** Width and height of a label. */
export function labelExtent(request: LabelRequest, form: PlacedLabel['form'], size: number): Point {
  if (request.number === null) {
    return [
      textWidth(request.id, size) + (form === 'callout' ? size * 0.7 : 0),
      size * (form === 'callout' ? 1.3 : 0.8),
    ];
  }
  const number = textWidth(request.number, size, true);
  const id = textWidth(request.id, size * ID_PART);
  if (form === 'stacked') return [Math.max(number, id), size * (0.74 + 0.25 + 0.74 * ID_PART)];
  return [
    number + size * 0.3 + id + (form === 'callout' ? size * 0.7 : 0),
    size * (form === 'callout' ? 1.3 : 0.8),
  ];
}

function boxAround([x, y]: Point, [width, height]: Point, margin: number): Bounds {
  const [w, h] = [width / 2 + margin, height / 2 + margin];
  return [x - w, y - h, x + w, y + h];
}

/** Boxes by cell, to count overlaps. */
class BoxGrid {
  readonly #cells = new Map<string, Bounds[]>();
  readonly #size: number;

  constructor(size: number, boxes: readonly Bounds[]) {
    this.#size = size;
    for (const box of boxes) this.add(box);
  }

  add(box: Bounds): void {
    for (const key of this.#keys(box)) {
      const cell = this.#cells.get(key);
      if (cell === undefined) this.#cells.set(key, [box]);
      else cell.push(box);
    }
  }

  overlap(box: Bounds): number {
    const met = new Set<Bounds>();
    for (const key of this.#keys(box)) {
      for (const other of this.#cells.get(key) ?? []) {
        if (box[0] < other[2] && other[0] < box[2] && box[1] < other[3] && other[1] < box[3]) met.add(other);
      }
    }
    return met.size;
  }

  #keys(box: Bounds): string[] {
    const [x0, y0, x1, y1] = box.map((value) => Math.floor(value / this.#size));
    const keys: string[] = [];
    for (let x = x0; x <= x1; x++) for (let y = y0; y <= y1; y++) keys.push(`${x},${y}`);
    return keys;
  }
}
