import { searchBoxes } from '../box-tree.js';
import { distance, type Point } from '../point.js';
import type { AreaBoundary } from './area-boundary.js';
import { middle, type PlacedChord } from './neighbouring-necks.js';
import { middleOfLongest } from './nest-loops.js';
import { alongOf, type Spot, walkedLength } from './spot.js';
import { areaSums, walkedArea } from './walked-area.js';

/** What a cut along a chord takes off: the smaller one of its two sides. */
export interface CutSide {
  /** mm², by the true curves, holes taken off. */
  readonly area: number;
  /** Centre of gravity, by the flattened curves. */
  readonly centroid: Point;
  /** Distance from the middle of the chord to the centre of gravity, mm. */
  readonly lever: number;
}

/** Area and first moments ∫x dA, ∫y dA of a part of the plane. */
interface Moments {
  readonly area: number;
  readonly x: number;
  readonly y: number;
}

/** Sums over a boundary that `cutSide` draws on, made once for all chords. */
export interface CutSums {
  readonly boundary: AreaBoundary;
  /** True areas under the curves, see areaSums. */
  readonly curveAreas: readonly Float64Array[];
  /** Moments under the segments before each vertex, in walking order, about the loop's first vertex; stride 3. */
  readonly before: Float64Array;
  /** Whole loops by the same sums, stride 3, as absolute moments. */
  readonly whole: Float64Array;
  /** For each loop the other loops' boundary places right above a point of it: loop and length along it. */
  readonly above: readonly (readonly Crossing[])[];
  /** For each outline: its holes. */
  readonly holes: ReadonlyMap<number, readonly number[]>;
  /** The point of each loop that `above` is about. */
  readonly points: readonly Point[];
}

interface Crossing {
  readonly loop: number;
  readonly along: number;
}

/** Prepares the sums. O(n log n). */
export function cutSums(b: AreaBoundary): CutSums {
  const curveAreas = areaSums(b);
  const { before, whole } = momentSums(b);
  const holes = new Map<number, number[]>();
  for (let k = 0; k < b.loops.length; k++) {
    const outline = b.outline[k];
    if (outline !== k) holes.set(outline, [...(holes.get(outline) ?? []), k]);
  }
  const points = b.loops.map((_, k) => middleOfLongest(b, k));
  const above = b.loops.map((_, k) => (b.outline[k] === k ? [] : crossingsAbove(b, k, points[k])));
  return { boundary: b, curveAreas, before, whole, above, holes, points };
}

/**
 * The smaller of the two parts into which a cut along the chord parts its outline's area. Both ends of the chord must
 * lie on one loop.
 */
export function cutSide(sums: CutSums, chord: PlacedChord): CutSide {
  const b = sums.boundary;
  const loop = b.loop[chord.a.segment];
  const outline = b.outline[loop];
  const holes = sums.holes.get(outline) ?? [];
  const total = areaOf(sums, outline, holes);
  // Walked from a to b with the inside on the right; on a hole only one way round encloses area.
  let [from, to] = [chord.a, chord.b];
  let area = walkedArea(b, sums.curveAreas, chord.chord.a, chord.chord.b);
  if (loop !== outline && area < 0) {
    [from, to] = [to, from];
    area = walkedArea(b, sums.curveAreas, chord.chord.b, chord.chord.a);
  }
  const [start, end] = [alongOf(b, from), alongOf(b, to)];
  let moments = walkMoments(sums, from, to);
  for (const hole of holes) {
    if (hole === loop || !isBeside(sums, hole, loop, start, end, chord)) continue;
    area -= Math.abs(b.area[hole]);
    moments = add(moments, wholeMoments(sums, hole), 1);
  }
  if (2 * area > total) {
    area = total - area;
    moments = add(
      [outline, ...holes].reduce((m, k) => add(m, wholeMoments(sums, k), 1), NOTHING),
      moments,
      -1,
    );
  }
  const at = middle(chord.chord);
  const centroid: Point = moments.area === 0 ? at : [moments.x / moments.area, moments.y / moments.area];
  return { area, centroid, lever: distance(at, centroid) };
}

const NOTHING: Moments = { area: 0, x: 0, y: 0 };

function add(m: Moments, n: Moments, sign: number): Moments {
  return { area: m.area + sign * n.area, x: m.x + sign * n.x, y: m.y + sign * n.y };
}

function areaOf({ boundary: b }: CutSums, outline: number, holes: readonly number[]): number {
  return Math.abs(b.area[outline]) - holes.reduce((sum, k) => sum + Math.abs(b.area[k]), 0);
}

/** Moments of the triangle of the origin and a directed segment. */
function underSegment(px: number, py: number, qx: number, qy: number): Moments {
  const area = (px * qy - py * qx) / 2;
  return { area, x: ((px + qx) / 3) * area, y: ((py + qy) / 3) * area };
}

function momentSums(b: AreaBoundary): { before: Float64Array; whole: Float64Array } {
  const before = new Float64Array(3 * b.x.length);
  const whole = new Float64Array(3 * b.loops.length);
  for (let k = 0; k < b.loops.length; k++) {
    let sum = NOTHING;
    const [ox, oy] = [b.x[b.first[k]], b.y[b.first[k]]];
    for (let i = b.first[k]; i < b.first[k + 1]; i++) {
      before.set([sum.area, sum.x, sum.y], 3 * i);
      const j = b.next[i];
      sum = add(sum, underSegment(b.x[i] - ox, b.y[i] - oy, b.x[j] - ox, b.y[j] - oy), 1);
    }
    whole.set([sum.area, sum.x, sum.y], 3 * k);
  }
  return { before, whole };
}

function wholeMoments(sums: CutSums, k: number): Moments {
  const { x, y, first } = sums.boundary;
  const [area, mx, my] = sums.whole.subarray(3 * k, 3 * k + 3);
  return { area, x: mx + area * x[first[k]], y: my + area * y[first[k]] };
}

/** Moments enclosed by the walk from one spot to another of a loop and the chord back. */
function walkMoments(sums: CutSums, from: Spot, to: Spot): Moments {
  const b = sums.boundary;
  const loop = b.loop[from.segment];
  const [ox, oy] = [b.x[b.first[loop]], b.y[b.first[loop]]];
  const at = ({ segment, part }: Spot): Point => {
    const end = b.next[segment];
    const x = b.x[segment] + part * (b.x[end] - b.x[segment]);
    return [x - ox, b.y[segment] + part * (b.y[end] - b.y[segment]) - oy];
  };
  const upTo = (spot: Spot): Moments => {
    const [area, x, y] = sums.before.subarray(3 * spot.segment, 3 * spot.segment + 3);
    const p = at(spot);
    const i = spot.segment;
    return add({ area, x, y }, underSegment(b.x[i] - ox, b.y[i] - oy, p[0], p[1]), 1);
  };
  let sum = add(upTo(to), upTo(from), -1);
  if (alongOf(b, to) < alongOf(b, from)) {
    const [area, x, y] = sums.whole.subarray(3 * loop, 3 * loop + 3);
    sum = add(sum, { area, x, y }, 1);
  }
  const [p, q] = [at(to), at(from)];
  sum = add(sum, underSegment(p[0], p[1], q[0], q[1]), 1);
  return { area: sum.area, x: sum.x + ox * sum.area, y: sum.y + oy * sum.area };
}

/** Places where the boundary passes right above a point, other than loop `own`. */
function crossingsAbove(b: AreaBoundary, own: number, [px, py]: Point): Crossing[] {
  const found: Crossing[] = [];
  searchBoxes(b.tree, px, Number.NEGATIVE_INFINITY, px, py, (item) => {
    for (let i = b.runs[item]; i < b.runs[item + 1]; i++) {
      const j = b.next[i];
      if (b.loop[i] === own || b.x[i] <= px === b.x[j] <= px) continue;
      const part = (px - b.x[i]) / (b.x[j] - b.x[i]);
      if (b.y[i] + part * (b.y[j] - b.y[i]) >= py) continue;
      found.push({ loop: b.loop[i], along: alongOf(b, { segment: i, part }) });
    }
    return false;
  });
  return found;
}

/** Whether a hole lies in the part enclosed by the walk along `loop` from `start` to `end` and the chord back. */
function isBeside(
  sums: CutSums,
  hole: number,
  loop: number,
  start: number,
  end: number,
  { chord: { from, to } }: PlacedChord,
): boolean {
  const b = sums.boundary;
  const length = walkedLength(b, loop, start, end);
  const crossed = sums.above[hole].filter(
    (c) => c.loop === loop && walkedLength(b, loop, start, c.along) < length,
  ).length;
  const [px, py] = sums.points[hole];
  const overChord =
    from[0] <= px !== to[0] <= px && from[1] + ((px - from[0]) / (to[0] - from[0])) * (to[1] - from[1]) < py;
  return (crossed + (overChord ? 1 : 0)) % 2 === 1;
}
