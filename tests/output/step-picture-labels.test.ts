import { describe, expect, it } from 'vitest';
import type { Bounds } from '../../src/geometry/point.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { JOBS, planOf } from './jobs.js';
import {
  boxesShare,
  goesThrough,
  labelsIn,
  type Segment,
  segmentsOf,
  type WrittenLabel,
} from './written-labels.js';

/** The picture of a step as written. */
interface Picture {
  readonly number: number;
  /** Ids of pieces and cutouts, numbers of waste. */
  readonly words: readonly WrittenLabel[];
  /** Discs of the numbers of parts, of the ways to them, and of letters. */
  readonly parts: readonly Bounds[];
  readonly ways: readonly Bounds[];
  readonly letters: readonly Bounds[];
  /** Marks of the start, ends of parts, arrows. */
  readonly starts: readonly Bounds[];
  readonly ends: readonly Bounds[];
  readonly arrows: readonly Bounds[];
  /** What is sawn now, and all lines that are seen. */
  readonly cuts: readonly Segment[];
  readonly lines: readonly Segment[];
}

const around = (x: number, y: number, r: number): Bounds => [x - r, y - r, x + r, y + r];

const discs = (svg: string, name: string): Bounds[] =>
  [...svg.matchAll(/<circle cx="([^"]+)" cy="([^"]+)" r="([^"]+)" class="([^"]+)"/g)]
    .filter(([, , , , look]) => look === name)
    .map(([, x, y, r]) => around(Number(x), Number(y), Number(r)));

const squares = (svg: string): Bounds[] =>
  [...svg.matchAll(/<rect x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)" class="begin"/g)].map(
    ([, x, y, w, h]) => [Number(x), Number(y), Number(x) + Number(w), Number(y) + Number(h)],
  );

const shapes = (svg: string, name: string): Segment[][] =>
  [...svg.matchAll(/<path d="([^"]+)" class="([^"]+)"/g)]
    .filter(([, , look]) => look === name)
    .map(([, d]) => segmentsOf(d));

const boundsOf = (segments: readonly Segment[]): Bounds => {
  const points = segments.flat();
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
};

function picturesOf(path: string): Picture[] {
  const html = writePlanHtml(planOf(path));
  const outlines = new Map(
    [...html.matchAll(/<path id="([^"]+)" d="([^"]*)"/g)].map(([, id, d]) => [id, segmentsOf(d)]),
  );
  const found = html.matchAll(/<svg class="near"[^>]*>(.*?)<\/svg><div class="say">.*?<b>(\d+)<\/b>/gs);
  return [...found].map(([, svg, number]) => ({
    number: Number(number),
    words: [...svg.matchAll(/<text [^>]*class="id"[^>]*>[^<]+<\/text>/g)].flatMap(([text]) => labelsIn(text)),
    parts: discs(svg, 'part'),
    ways: discs(svg, 'to-part'),
    letters: discs(svg, 'letter'),
    starts: [
      ...squares(svg),
      ...discs(svg, 'begin'),
      ...discs(svg, 'hole'),
      ...shapes(svg, 'begin eye').map(boundsOf),
    ],
    ends: discs(svg, 'end'),
    arrows: shapes(svg, 'way').map(boundsOf),
    cuts: [...shapes(svg, 'now'), ...shapes(svg, 'way-in')].flat(),
    lines: [...svg.matchAll(/<use href="#([^"]+)"/g)].flatMap(([, id]) => outlines.get(id) ?? []),
  }));
}

/** The steps in which something of the kind is met. */
const stepsWhere = (pictures: readonly Picture[], test: (picture: Picture) => boolean): number[] =>
  pictures.filter(test).map(({ number }) => number);

const someShare = (some: readonly Bounds[], others: readonly Bounds[]): boolean =>
  some.some((a) => others.some((b) => boxesShare(a, b)));

/** Pairs among boxes. */
const shareAmong = (boxes: readonly Bounds[]): boolean =>
  boxes.some((a, i) => boxes.slice(0, i).some((b) => boxesShare(a, b)));

/** The same of round marks, by the boxes around them. */
const discsShare = (discs: readonly Bounds[]): boolean =>
  discs.some(([x0, y0, x1], i) =>
    discs.slice(0, i).some((other) => Math.hypot(x0 - other[0], y0 - other[1]) < 0.98 * (x1 - x0)),
  );

describe.each(JOBS)('labels in the pictures of the steps of %s', (path) => {
  const pictures = picturesOf(path);
  const steps = planOf(path).passes.flatMap((pass) => pass.steps);

  it('are there', () => {
    expect(pictures).toHaveLength(steps.length);
    expect(pictures.reduce((sum, { words }) => sum + words.length, 0)).toBeGreaterThan(steps.length / 4);
    for (const { lines, cuts } of pictures) expect(lines.length * cuts.length).toBeGreaterThan(0);
  });

  it('stand on no line, whether it is sawn now or not', () => {
    const boxes = ({ words }: Picture): Bounds[] => words.map(({ box }) => box);
    expect(
      stepsWhere(pictures, (p) => p.cuts.some((line) => boxes(p).some((box) => goesThrough(line, box)))),
    ).toEqual([]);
    expect(
      stepsWhere(pictures, (p) => p.lines.some((line) => boxes(p).some((box) => goesThrough(line, box)))),
    ).toEqual([]);
  });

  it('stand on no mark and on no other label', () => {
    const labels = (p: Picture): Bounds[] => [...p.words.map(({ box }) => box), ...p.letters];
    expect(
      stepsWhere(pictures, (p) =>
        someShare(labels(p), [...p.starts, ...p.ends, ...p.arrows, ...p.parts, ...p.ways]),
      ),
    ).toEqual([]);
    expect(stepsWhere(pictures, (p) => shareAmong(labels(p)))).toEqual([]);
  });

  it('leave the mark of the start free, and the arrows, however tight a cut is', () => {
    expect(stepsWhere(pictures, (p) => someShare([...p.parts, ...p.ways], p.starts))).toEqual([]);
    expect(stepsWhere(pictures, (p) => someShare([...p.parts, ...p.ways], p.arrows))).toEqual([]);
    expect(stepsWhere(pictures, (p) => discsShare([...p.parts, ...p.ways]))).toEqual([]);
  });

  it('have the numbers of parts off what is sawn now', () => {
    expect(
      stepsWhere(pictures, ({ parts, cuts }) =>
        parts.some(([x0, y0, x1, y1]) => {
          const inset = (x1 - x0) * 0.15;
          const disc: Bounds = [x0 + inset, y0 + inset, x1 - inset, y1 - inset];
          return cuts.some((line) => goesThrough(line, disc));
        }),
      ),
    ).toEqual([]);
  });
});
