import type { Bounds, Point } from '../geometry/point.js';
import { type SegmentField, segmentField } from '../geometry/segment-field.js';
import type { RegionMap } from '../plane/region-map.js';
import type { LabelRequest, LabelSizes, PlacedLabel } from './label-request.js';
import { labelExtent } from './label-shape.js';
import { flattenedEdges } from './map-paths.js';
import { placeLabels } from './place-labels.js';
import { element, svgNumber, textElement } from './svg-markup.js';
import { BASELINE } from './text-width.js';

/** A word that wants a place in a picture of the whole: in its region, or beside it with a leader. */
export interface MapLabel {
  readonly text: string;
  readonly at: Point;
  /** From `at` to the nearest line, mm; 0 on a line. */
  readonly room: number;
  /** How far a mark at `at` reaches, mm: a leader ends there. Absent: there is none, the leader ends in a dot. */
  readonly reach?: number;
}

/** Writes labels into pictures of one map; the lines that they keep off are worked out once. */
export type MapLabeller = (
  labels: readonly MapLabel[],
  area: Bounds,
  unit: number,
  taken?: readonly Bounds[],
) => string;

/** What a picture of the whole may take of a printed page, mm. */
export const MAP_WIDTH = 186;
export const MAP_HEIGHT = 118;

/** Height of a picture of the whole for a setting with few steps, mm. */
export const SMALL_MAP_HEIGHT = 84;

/** The same for a setting with some more, mm. */
export const MIDDLE_MAP_HEIGHT = 100;

/** Height of the picture of the glue-up: lower, so that it often has room below what is said before it, mm. */
export const GLUE_MAP_HEIGHT = 112;

/** Height of a picture of the whole that stands upright, beside what is said of it, mm. */
export const UPRIGHT_MAP_HEIGHT = 104;

/** One unit, as printed, mm: the smallest type is 2.3 mm (6.5 points). */
const PRINTED_UNIT = 2;

/** Room around a picture of the whole, in units: labels stand there. */
export const MAP_MARGIN = 3;

/** The measure for type and marks in a picture that is printed no larger than this, mm of the drawing. */
export function mapUnit([x0, y0, x1, y1]: Bounds, height: number = MAP_HEIGHT): number {
  const room = 2 * MAP_MARGIN * PRINTED_UNIT;
  return PRINTED_UNIT * Math.max((x1 - x0) / (MAP_WIDTH - room), (y1 - y0) / (height - room), LEAST_UNIT);
}

/** A small drawing is not blown up to the page without end. */
const LEAST_UNIT = 0.05;

export function mapLabeller(map: RegionMap, page: Bounds): MapLabeller {
  const flatness = mapUnit(page) * FLATNESS;
  let fields: { lines: SegmentField; borders: SegmentField } | null = null;
  return (labels, area, unit, taken = []) => {
    if (labels.length > MOST_PLACED) return plainLabels(labels, unit);
    fields ??= {
      lines: segmentField(flattenedEdges(map, map.edges, flatness)),
      borders: segmentField(
        flattenedEdges(
          map,
          map.edges.filter((edge) => edge.kind === 'border'),
          flatness,
        ),
      ),
    };
    const requests = labels.map(({ text, at, room }): LabelRequest => ({ number: null, id: text, at, room }));
    const placed = placeLabels(requests, { ...fields, taken, area }, sizesOf(unit));
    const leaders = placed.map((label, i) =>
      label.form === 'callout' ? leader(label, unit, labels[i].reach ?? 0) : '',
    );
    return `<g class="labels">${leaders.join('')}${placed.map((label) => written(label)).join('')}</g>`;
  };
}

const FLATNESS = 0.05;

/** More labels than this have no room beside their regions on one page: they are written small, on the spot. */
const MOST_PLACED = 300;

function plainLabels(labels: readonly MapLabel[], unit: number): string {
  const texts = labels.map(({ text, at, room }) => {
    const size = Math.min(unit, Math.max(LEAST_TYPE * unit, (2.4 * room) / Math.max(2, text.length)));
    return textElement(at[0], at[1] + size * BASELINE, text, { 'font-size': svgNumber(size, 2) });
  });
  return `<g class="labels">${texts.join('')}</g>`;
}

/** The smallest type of what is written on the spot, in units. */
const LEAST_TYPE = 0.4;

function sizesOf(unit: number): LabelSizes {
  return {
    largest: unit * 1.8,
    smallest: unit * 1.15,
    smallestId: unit * 1.15,
    callout: unit * 1.15,
    calloutId: unit * 1.15,
    clearance: unit * 0.12,
  };
}

function leader({ request, at }: PlacedLabel, unit: number, reach: number): string {
  const [x, y] = request.at;
  const far = Math.hypot(at[0] - x, at[1] - y);
  const part = far === 0 ? 0 : Math.min(1, reach / far);
  const from = [x + part * (at[0] - x), y + part * (at[1] - y)].map((v) => svgNumber(v, 2)).join(' ');
  const d = `M${from}L${svgNumber(at[0], 2)} ${svgNumber(at[1], 2)}`;
  const line = element('path', { d, class: 'leader', 'stroke-width': 0.12 * unit });
  if (reach > 0) return line;
  return line + element('circle', { cx: svgNumber(x, 2), cy: svgNumber(y, 2), r: svgNumber(0.25 * unit, 2) });
}

function written(label: PlacedLabel): string {
  const { request, at, size } = label;
  const text = textElement(at[0], at[1] + size * BASELINE, request.id, { 'font-size': svgNumber(size, 2) });
  if (label.form !== 'callout') return text;
  const [width, height] = labelExtent(request, label);
  const plate = element('rect', {
    x: svgNumber(at[0] - width / 2, 2),
    y: svgNumber(at[1] - height / 2, 2),
    width: svgNumber(width, 2),
    height: svgNumber(height, 2),
    rx: svgNumber(height / 2, 2),
    class: 'plate',
    'stroke-width': 0.1 * size,
  });
  return plate + text;
}
