import type { Bounds, Point } from '../geometry/point.js';
import { type SegmentField, segmentField } from '../geometry/segment-field.js';
import type { MapEdge, RegionMap } from '../plane/region-map.js';
import { type LabelRequest, type LabelSizes, leaderEnd, type PlacedLabel } from './label-request.js';
import { type LabelWords, labelExtent } from './label-shape.js';
import { flattenedEdges } from './map-paths.js';
import { placeLabels } from './place-labels.js';
import { chordsOf } from './plan-marks.js';
import { element, svgNumber, textElement } from './svg-markup.js';
import { BASELINE, textWidth } from './text-width.js';

/** A word on a drawing at true size: the id of a piece, or what is said beside a mark. */
export interface TrueWord {
  readonly text: string;
  /** Said where the text has no room. */
  readonly short?: string;
  /** Said after it in type of its own: the cutout that a mark stands in. */
  readonly also?: string;
  readonly at: Point;
  /** From `at` to the nearest line; beside a mark: how far the mark reaches, mm. */
  readonly room: number;
  readonly isBeside?: boolean;
  /** Other marks are so near that it has a line to its own, however close it stands. */
  readonly isTied?: boolean;
}

/** The lines of a drawing that words keep off. */
export interface TrueLines {
  readonly lines: SegmentField;
  readonly borders: SegmentField;
}

/**
 * Type on a drawing at true size, mm: the smallest is about 6 points, what stands beside a mark or a small piece
 * 6.8. Smaller type is read on no bench.
 */
const SIZES: LabelSizes = {
  largest: 3,
  smallest: 2.1,
  smallestId: 2.1,
  smallestLong: 2.4,
  callout: 2.4,
  calloutId: 2.4,
  clearance: 0.25,
  apart: 0.4,
  below: 0.2,
  aside: 'beside',
};

/** A word on a line hides where to saw: it stands anywhere within reach instead. Long words spare looking up. */
const PRICES = { line: 60, hidden: 12, short: 5 };

/** How closely straight pieces follow the curves that words keep off, mm. */
const FLATNESS = 0.1;

/** Words further than this from their mark have a line to it, in sizes. */
const NEAR_MARK = 0.9;

/** A line shorter than this is no more than a dot, mm. */
const LEAST_TIE = 0.2;

/** Radius of the dot in a region that a line from its word ends in, mm. */
const DOT = 0.25;

/**
 * @param edges those that are drawn
 * @param more segments (x0, y0, x1, y1 each, mm) that words keep off too
 */
export function trueLines(
  map: RegionMap,
  edges: readonly MapEdge[] = map.edges,
  more: readonly number[] = [],
): TrueLines {
  const all = [...flattenedEdges(map, edges, FLATNESS), ...foldSegments(map), ...more];
  const borders = flattenedEdges(
    map,
    edges.filter(({ kind }) => kind === 'border'),
    FLATNESS,
  );
  return { lines: segmentField(Float64Array.from(all)), borders: segmentField(borders) };
}

/** Fold marks are drawn too. */
function foldSegments({ details }: RegionMap): number[] {
  const runs = details.flatMap(({ mark, runs }) => (mark === 'fold' ? runs : []));
  return runs.flatMap((run) => {
    const points = chordsOf(run);
    return points.slice(1).flatMap(([x, y], i) => [points[i][0], points[i][1], x, y]);
  });
}

/** Finds a place for each word: see `placeLabels`. @param taken boxes that no word covers */
export function placeTrueWords(
  words: readonly TrueWord[],
  lines: TrueLines,
  area: Bounds,
  taken: readonly Bounds[],
): PlacedLabel[] {
  const requests = words.map(({ text, short, also, ...rest }): LabelRequest => {
    const said = (words: string): LabelWords =>
      also === undefined ? { number: null, id: words } : { number: words, id: also };
    return { ...said(text), ...(short === undefined ? {} : { short: said(short) }), ...rest };
  });
  return placeLabels(requests, { ...lines, area, taken, prices: PRICES }, SIZES);
}

/** A word with another after it as two, each by itself, where they stand; a line to its mark keeps off both. */
export function wordsApart(label: PlacedLabel): readonly [PlacedLabel, PlacedLabel | null] {
  const { request, at, size, idSize, form } = label;
  const { number, id } = request;
  if (number === null) return [label, null];
  const [width, height] = labelExtent(request, label);
  const first = textWidth(number, size, true);
  const second = textWidth(id, idSize);
  const whole = boxAround(at, width / 2, height / 2);
  const left: Point = [at[0] - width / 2 + first / 2, at[1]];
  const right: Point = [at[0] + width / 2 - second / 2, at[1]];
  return [
    {
      ...label,
      request: { ...request, number: null, id: number },
      at: left,
      box: boxAround(left, first / 2, height / 2),
      whole,
    },
    {
      request: { ...request, number: null, id },
      form: form === 'beside' ? 'line' : form,
      size: idSize,
      idSize,
      at: right,
      box: boxAround(right, second / 2, height / 2),
    },
  ];
}

const boxAround = ([x, y]: Point, w: number, h: number): Bounds => [x - w, y - h, x + w, y + h];

/** A placed word as text, with no look of its own. */
export function wordMarkup({ request, at, size }: PlacedLabel, digits?: number): string {
  return textElement(at[0], at[1] + size * BASELINE, request.id, { 'font-size': svgNumber(size, digits) });
}

/** The line from a word to what it speaks of, with a dot in a region; empty where the word stands on it or near it. */
export function leaderMarkup(label: PlacedLabel, digits?: number): string {
  const { request, size, form } = label;
  if (form !== 'beside') return '';
  const [x, y] = request.at;
  const end = leaderEnd(label);
  const far = Math.hypot(end[0] - x, end[1] - y);
  const begin = request.isBeside ? request.room : 0;
  const least = request.isTied ? LEAST_TIE : NEAR_MARK * size;
  if (far === 0 || (request.isBeside && far < begin + least)) return '';
  const num = (v: number): string => svgNumber(v, digits);
  const from: Point = [x + (begin * (end[0] - x)) / far, y + (begin * (end[1] - y)) / far];
  const line = element('path', { d: `M${from.map(num).join(' ')}L${end.map(num).join(' ')}` });
  return request.isBeside ? line : element('circle', { cx: num(x), cy: num(y), r: DOT }) + line;
}
