import type { Bounds, Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import { locateRegions } from '../relief/locate-regions.js';
import type { CutPlan, CutStart } from '../workshop/cut-plan.js';
import { BoxGrid } from './box-grid.js';
import type { PlanCanvas } from './plan-canvas.js';
import { cutoutRegions } from './plan-content-cutouts.js';
import { pointAlong } from './plan-marks.js';
import { joinNumbers, millimetres } from './plan-words.js';
import type { TrueWord } from './true-words.js';

/** Where the blade comes into the work, on a drawing at true size, and what is said beside it. */
export interface TrueStart {
  /** A hole to drill, an open place to thread through, or the way in from the edge of the board. */
  readonly kind: 'drill' | 'thread' | 'way';
  readonly start: CutStart;
  /** From the edge of the board to the start; empty but for ways. */
  readonly way: readonly Point[];
  readonly word: TrueWord;
}

/** How far the cross of a hole reaches beyond its rim, and half the height of an eye, mm. */
export const HOLE_ARM = 0.5;
export const EYE = 1.2;

/**
 * Every hole, every open place to thread through, every way in from the edge of the board, each with its step, bit
 * (where there are several) and setting: `7 · 2.5 mm · set 2`, or `7` where there is no room. A place that a later
 * step comes back to has one mark with both steps: `7 · 2.5 mm · set 2; 31 · set 3`, or `7; 31`. The first mark in
 * a cutout has the region of that after it. Add-ons have none, since they are sawn out of scrap.
 *
 * @param area what the paper shows
 */
export function trueStarts(canvas: PlanCanvas, area: Bounds): TrueStart[] {
  const { passes } = canvas.plan;
  const bits = new Set(
    passes.flatMap(({ steps }) =>
      steps.flatMap(({ start }) => (start.kind === 'drill' ? [start.diameter] : [])),
    ),
  );
  let number = 0;
  const all = passes.flatMap(({ steps, phase }, p) =>
    steps.flatMap((step): TrueStart[] => {
      number++;
      if (phase === 'add-ons') return [];
      const { start, waysIn = [] } = step;
      const short = String(number);
      const word = (at: Point, room: number, bit = ''): TrueWord => ({
        text: `${short}${bit} · set ${p + 1}`,
        short,
        at,
        room,
        isBeside: true,
      });
      // A way that is open already is not drawn again.
      const ways = waysIn.flatMap(({ points, from }): TrueStart[] => {
        if (from === 'open') return [];
        const place = from === 'edge' ? beginningOf(points, area) : middleOf(points);
        return [{ kind: 'way', start, way: points, word: word(place, WAY_REACH) }];
      });
      if (start.kind === 'drill') {
        const bit = bits.size > 1 ? ` · ${millimetres(start.diameter ?? 0, 2)}` : '';
        const room = (start.diameter ?? 1) / 2 + HOLE_ARM;
        return [{ kind: 'drill', start, way: [], word: word(start.at, room, bit) }, ...ways];
      }
      if (start.threaded) return [{ kind: 'thread', start, way: [], word: word(start.at, EYE) }, ...ways];
      return ways;
    }),
  );
  return tied(inCutouts(canvas.plan, joinedByPlace(all)));
}

/** The first mark in each cutout names that too. */
function inCutouts(plan: CutPlan, starts: readonly TrueStart[]): TrueStart[] {
  const { map } = plan.relief;
  const left = new Set(cutoutRegions(plan));
  const locate = locateRegions(map, starts.length);
  return starts.map((start) => {
    const region = start.kind === 'way' ? OUTSIDE : (start.start.region ?? locate(start.start.at));
    if (!left.delete(region)) return start;
    return { ...start, word: { ...start.word, also: map.regions[region].id } };
  });
}

/** Words by marks that are as near to each other as this might be taken for one another's, mm. */
const CROWD = 8;

/** Marks of holes and open places in a crowd have lines to their words. */
function tied(starts: readonly TrueStart[]): TrueStart[] {
  const marks = starts.flatMap(({ kind, start }) => (kind === 'way' ? [] : [start.at]));
  const grid = new BoxGrid<Point>(CROWD);
  for (const at of marks) grid.add(at, [...at, ...at]);
  return starts.map((start) => {
    const { at } = start.start;
    let near = 0;
    if (start.kind !== 'way') {
      grid.visit([at[0] - CROWD, at[1] - CROWD, at[0] + CROWD, at[1] + CROWD], (other) => {
        if (Math.hypot(other[0] - at[0], other[1] - at[1]) < CROWD) near++;
        return near < 2;
      });
    }
    return near < 2 ? start : { ...start, word: { ...start.word, isTied: true } };
  });
}

/** One mark for each place: that of a hole, where there is one, with the words of all steps that begin there. */
function joinedByPlace(starts: readonly TrueStart[]): TrueStart[] {
  const byPlace = new Map<string, TrueStart[]>();
  starts.forEach((start, i) => {
    const place = start.kind === 'way' ? `way ${i}` : start.word.at.join(' ');
    byPlace.set(place, [...(byPlace.get(place) ?? []), start]);
  });
  return [...byPlace.values()].map((own) => {
    const seen = own.find(({ kind }) => kind === 'drill') ?? own[0];
    const text = own.map(({ word }) => word.text).join('; ');
    const short = own.map(({ word }) => word.short).join('; ');
    return { ...seen, word: { ...seen.word, text, short } };
  });
}

/** A word stands so far on from the edge of the board, or further to be on the paper, mm. */
const FROM_EDGE = 2;

/** Where a way begins, as far as the paper shows it; a way that it does not show: its middle. */
function beginningOf(points: readonly Point[], [x0, y0, x1, y1]: Bounds): Point {
  for (let far = FROM_EDGE; ; far++) {
    const found = pointAlong(points, far);
    if (found === null) return middleOf(points);
    const [[x, y]] = found;
    if (x > x0 && x < x1 && y > y0 && y < y1) return [x, y];
  }
}

/**
 * The bits of holes whose number stands alone, where there are several bits: of most of them, and of the others by their
 * numbers. Empty: none stands alone.
 *
 * @param said what stands beside each start
 */
export function bareBits(starts: readonly TrueStart[], said: readonly string[]): string {
  const bySize = new Map<number, number[]>();
  starts.forEach(({ kind, start, word }, i) => {
    if (kind !== 'drill' || said[i] !== word.short || !word.text.includes(' mm')) return;
    const size = start.diameter ?? 0;
    bySize.set(size, [...(bySize.get(size) ?? []), Number.parseInt(said[i], 10)]);
  });
  const sizes = [...bySize].sort((a, b) => b[1].length - a[1].length || a[0] - b[0]);
  if (sizes.length === 0) return '';
  const [[most], ...others] = sizes;
  const also = others.map(([size, numbers]) => `; ${joinNumbers(numbers)}: ${millimetres(size, 2)}`);
  return `Holes with a number alone: ${millimetres(most, 2)}${also.join('')}.`;
}

/** The middle of the longest leg of a way: there it is told from the way that it comes out of. */
function middleOf(points: readonly Point[]): Point {
  const legs = points.slice(1).map((to, i) => [points[i], to] as const);
  const length = ([[x0, y0], [x1, y1]]: (typeof legs)[number]): number => Math.hypot(x1 - x0, y1 - y0);
  const [from, to] = legs.reduce((a, b) => (length(b) > length(a) ? b : a));
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
}

/** A way is a thin line: its words stand close to it, mm. */
const WAY_REACH = 0.2;

/** What marks of starts cover: boxes, and the ways as segments. */
export function takenByStarts(starts: readonly TrueStart[]): { boxes: Bounds[]; segments: number[] } {
  const boxes = starts.flatMap(({ kind, word: { at, room } }): Bounds[] =>
    kind === 'way' ? [] : [[at[0] - room, at[1] - room, at[0] + room, at[1] + room]],
  );
  const segments = starts.flatMap(({ way }) =>
    way.slice(1).flatMap((to, i) => [way[i][0], way[i][1], to[0], to[1]]),
  );
  return { boxes, segments };
}
