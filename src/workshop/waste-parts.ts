import { distance, distanceToSegment, type Point } from '../geometry/point.js';
import { type BorderPoint, wayLine } from './waste-border.js';

/** A part of the waste of a board, by its border: an outline, and perhaps loops around what lies in it. */
export interface WastePart {
  readonly loops: readonly (readonly BorderPoint[])[];
}

/** How near a point must be to a corner or a side of the border to lie on it, mm: rounding only. */
const ON_BORDER = 1e-6;

/** A corner of a border: which part, which loop of it, which corner. */
interface Corner {
  readonly part: number;
  readonly loop: number;
  readonly corner: number;
}

/**
 * Cuts waste along a way that begins and ends on its border and crosses it nowhere else. Where both ends lie on one
 * loop, the part falls in two; else the way opens a ring. Where no part has both ends on its border, which can't be for
 * a way through waste, nothing changes.
 *
 * @param way number of the way, that its sides are named by
 * @param endNode node of the map at the last point, -1: none
 */
export function cutWaste(
  parts: readonly WastePart[],
  points: readonly Point[],
  way: number,
  endNode: number,
): WastePart[] {
  const [from, to] = [points[0], points[points.length - 1]];
  const split = parts.map((part) => withCorner(endNode < 0 ? withCorner(part, to) : part, from));
  const starts = cornersAt(split, points[1], (p) => distance(p.at, from) < ON_BORDER);
  const ends = cornersAt(split, points[points.length - 2], (p) =>
    endNode >= 0 ? p.node === endNode : distance(p.at, to) < ON_BORDER,
  );
  for (const s of starts) {
    const t = ends.find((end) => end.part === s.part);
    if (t === undefined) continue;
    const cut = cutPart(split[s.part], s, t, points, wayLine(way));
    return [...split.slice(0, s.part), ...cut, ...split.slice(s.part + 1)];
  }
  return [...parts];
}

/** The part with a corner at a point that lies on one of its sides. */
function withCorner(part: WastePart, at: Point): WastePart {
  const loops = part.loops.map((loop) => {
    if (loop.some((p) => distance(p.at, at) < ON_BORDER)) return loop;
    return loop.flatMap((p, i) => {
      const next = loop[(i + 1) % loop.length];
      const on = distanceToSegment(at, p.at, next.at) < ON_BORDER;
      return on ? [p, { at, node: -1, line: p.line }] : [p];
    });
  });
  return { loops };
}

/** Corners from which a way sets out into the waste. */
function cornersAt(parts: readonly WastePart[], next: Point, isAt: (p: BorderPoint) => boolean): Corner[] {
  return parts.flatMap(({ loops }, part) =>
    loops.flatMap((points, loop) =>
      points.flatMap((p, corner) =>
        isAt(p) && leadsIn(points, corner, next) ? [{ part, loop, corner }] : [],
      ),
    ),
  );
}

/** The direction from a corner lies on the side of the waste. */
export function leadsIn(loop: readonly BorderPoint[], corner: number, towards: Point): boolean {
  const { at } = loop[corner];
  const turn = (p: Point): number => Math.atan2(p[1] - at[1], p[0] - at[0]);
  const back = turn(loop[(corner + loop.length - 1) % loop.length].at);
  const full = (angle: number): number => (((angle - back) % TURN) + TURN) % TURN;
  const out = full(turn(loop[(corner + 1) % loop.length].at));
  return full(turn(towards)) < (out === 0 ? TURN : out);
}

const TURN = 2 * Math.PI;

function cutPart(part: WastePart, s: Corner, t: Corner, points: readonly Point[], line: number): WastePart[] {
  const { loops } = part;
  const bends = points.slice(1, -1).map((at): BorderPoint => ({ at, node: -1, line }));
  const [first, last] = [loops[s.loop][s.corner], loops[t.loop][t.corner]];
  const on = [{ ...first, line }, ...bends];
  const back = [{ ...last, line }, ...[...bends].reverse()];
  const others = loops.filter((_, i) => i !== s.loop && i !== t.loop);
  if (s.loop !== t.loop) {
    const ring = [
      ...stretch(loops[s.loop], s.corner, s.corner),
      ...on,
      ...stretch(loops[t.loop], t.corner, t.corner),
      ...back,
    ];
    return [{ loops: [ring, ...others] }];
  }
  const one = [...stretch(loops[s.loop], s.corner, t.corner), ...back];
  const two = [...stretch(loops[s.loop], t.corner, s.corner), ...on];
  // An outline runs the other way round than a loop inside: the one that is an outline holds what lies in it.
  const [outer, rest] = loopArea(one) < 0 ? [one, two] : [two, one];
  const inOuter = others.map((loop) => isInside(outer, loop[0].at));
  return [
    { loops: [outer, ...others.filter((_, i) => inOuter[i])] },
    outlineFirst([rest, ...others.filter((_, i) => !inOuter[i])]),
  ];
}

function outlineFirst(loops: readonly (readonly BorderPoint[])[]): WastePart {
  const outlines = loops.filter((loop) => loopArea(loop) < 0);
  return { loops: [...outlines, ...loops.filter((loop) => loopArea(loop) >= 0)] };
}

/** From a corner on to another one, or all round, without the last. */
function stretch(loop: readonly BorderPoint[], from: number, to: number): BorderPoint[] {
  const count = ((to - from + loop.length - 1) % loop.length) + 1;
  return Array.from({ length: count }, (_, i) => loop[(from + i) % loop.length]);
}

/** mm² */
export function partArea({ loops }: WastePart): number {
  return -loops.reduce((sum, loop) => sum + loopArea(loop), 0);
}

/** Area of a loop, mm²: below 0 for an outline, with the waste on its left. */
function loopArea(loop: readonly BorderPoint[]): number {
  return (
    loop.reduce((sum, { at: [x0, y0] }, i) => {
      const [x1, y1] = loop[(i + 1) % loop.length].at;
      return sum + x0 * y1 - x1 * y0;
    }, 0) / 2
  );
}

/** By the number of sides that a ray to the right crosses. */
export function isInside(loop: readonly BorderPoint[], [x, y]: Point): boolean {
  let inside = false;
  loop.forEach(({ at: [x0, y0] }, i) => {
    const [x1, y1] = loop[(i + 1) % loop.length].at;
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside;
  });
  return inside;
}
