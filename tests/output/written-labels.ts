import type { Bounds } from '../../src/geometry/point.js';
import { flatPath, type XY } from '../simulator/flat-path.js';

/** A word in a written picture. */
export interface WrittenLabel {
  readonly text: string;
  /** What its letters cover: from the height of digits down to the line, and below it for letters that go there. */
  readonly box: Bounds;
}

export type Segment = readonly [XY, XY];

/** Widths in parts of the size, from the published metrics of Helvetica, the larger of plain and bold. */
const WIDTHS: Readonly<Record<string, number>> = {
  ' ': 0.278,
  '.': 0.278,
  ';': 0.333,
  '·': 0.333,
  a: 0.556,
  e: 0.556,
  m: 0.889,
  p: 0.611,
  r: 0.389,
  s: 0.556,
  t: 0.333,
  w: 0.778,
};

/** Digits, and all that is not in the table. */
const DIGIT = 0.556;
const OTHER = 0.722;

function widthOf(text: string, size: number): number {
  return [...text].reduce((sum, c) => sum + (WIDTHS[c] ?? (/\d/.test(c) ? DIGIT : OTHER)), 0) * size;
}

/** The words of a piece of SVG, all set around their middle. */
export function labelsIn(svg: string): WrittenLabel[] {
  const found = svg.matchAll(/<text x="([^"]+)" y="([^"]+)"[^>]*?font-size="([^"]+)"[^>]*>([^<]+)<\/text>/g);
  return [...found].map(([, cx, base, type, text]) => {
    const [x, y, size] = [Number(cx), Number(base), Number(type)];
    const half = widthOf(text, size) / 2;
    return { text, box: [x - half, y - 0.72 * size, x + half, y + (/[p;]/.test(text) ? 0.2 * size : 0)] };
  });
}

/** Path data as segments, read by code that is not under test. */
export function segmentsOf(d: string): Segment[] {
  return flatPath(d).flatMap((run) => run.slice(1).map((to, i): Segment => [run[i], to]));
}

/** Whether a segment goes through a box: some of its points in it, looked for by halving. */
export function goesThrough([from, to]: Segment, box: Bounds): boolean {
  const [x0, y0, x1, y1] = box;
  if (Math.max(from[0], to[0]) <= x0 || Math.min(from[0], to[0]) >= x1) return false;
  if (Math.max(from[1], to[1]) <= y0 || Math.min(from[1], to[1]) >= y1) return false;
  const middle: XY = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  if (middle[0] > x0 && middle[0] < x1 && middle[1] > y0 && middle[1] < y1) return true;
  if (Math.hypot(to[0] - from[0], to[1] - from[1]) < LEAST_CHORD) return false;
  return goesThrough([from, middle], box) || goesThrough([middle, to], box);
}

/** A chord shorter than this that only grazes a corner is not seen, mm. */
const LEAST_CHORD = 0.01;

export function boxesShare(a: Bounds, b: Bounds): boolean {
  return a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
}

/** The labels that others cover in part, by pairs. */
export function labelsOnLabels(labels: readonly WrittenLabel[]): string[] {
  return labels.flatMap(({ text, box }, i) =>
    labels.slice(0, i).flatMap((other) => (boxesShare(box, other.box) ? [`${other.text} / ${text}`] : [])),
  );
}

/** The labels that lie on a line. */
export function labelsOnLines(labels: readonly WrittenLabel[], lines: readonly Segment[]): string[] {
  return labels.filter(({ box }) => lines.some((line) => goesThrough(line, box))).map(({ text }) => text);
}
