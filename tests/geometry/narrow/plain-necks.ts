import type { Point } from '../../../src/geometry/point.js';

/** A neck found by plain search. */
export interface PlainNeck {
  readonly from: Point;
  readonly to: Point;
  readonly width: number;
}

/** Two chords whose ends are nearer than this are one, mm. */
const SAME = 1e-9;

/**
 * All necks of a polygon with holes under a width, by the definition and nothing else, in O(n³): for each vertex and each
 * segment the shortest chord between them; it is a neck when no end can move along its segments to make it shorter, when
 * its middle is inside, and when no segment enters the disc that has it as diameter. No index, no orientation. `slack` is
 * the rounding granted to discs (mm) and right angles (cosine).
 */
export function plainNecks(loops: readonly (readonly Point[])[], needed: number, slack: number): PlainNeck[] {
  const segments = loops.flatMap((loop) => loop.map((p, i) => [p, loop[(i + 1) % loop.length]] as const));
  const vertices = loops.flatMap((loop) =>
    loop.map((p, i) => ({
      p,
      around: [loop[(i + loop.length - 1) % loop.length], loop[(i + 1) % loop.length]],
    })),
  );
  const around = new Map(vertices.map(({ p, around }) => [p, around]));
  const found: PlainNeck[] = [];
  for (const v of vertices) {
    for (const [a, b] of segments) {
      if (a === v.p || b === v.p) continue;
      const q = nearest(v.p, a, b);
      const width = Math.hypot(q[0] - v.p[0], q[1] - v.p[1]);
      if (width >= needed || width === 0) continue;
      const rests = holds(v.p, q, v.around, slack) && holds(q, v.p, around.get(q) ?? [a, b], slack);
      const middle: Point = [(v.p[0] + q[0]) / 2, (v.p[1] + q[1]) / 2];
      if (!rests || !isInside(middle, segments)) continue;
      if (segments.some(([c, d]) => gap(middle, nearest(middle, c, d)) < width / 2 - slack)) continue;
      if (
        !found.some((n) => gap(n.from, q) + gap(n.to, v.p) < SAME || gap(n.from, v.p) + gap(n.to, q) < SAME)
      ) {
        found.push({ from: v.p, to: q, width });
      }
    }
  }
  return found;
}

/** Whether moving p towards any of its neighbours does not bring it nearer to q. */
function holds(p: Point, q: Point, neighbours: readonly Point[], slack: number): boolean {
  return neighbours.every((n) => {
    const [x, y] = [n[0] - p[0], n[1] - p[1]];
    const [wx, wy] = [q[0] - p[0], q[1] - p[1]];
    return x * wx + y * wy <= slack * Math.hypot(x, y) * Math.hypot(wx, wy);
  });
}

/** The nearest point of a segment; its ends as they are. */
function nearest(p: Point, a: Point, b: Point): Point {
  const [x, y] = [b[0] - a[0], b[1] - a[1]];
  const t = ((p[0] - a[0]) * x + (p[1] - a[1]) * y) / (x * x + y * y);
  return t <= 0 ? a : t >= 1 ? b : [a[0] + t * x, a[1] + t * y];
}

function gap(p: Point, q: Point): number {
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
}

function isInside([x, y]: Point, segments: readonly (readonly [Point, Point])[]): boolean {
  const above = segments.filter(
    ([a, b]) => a[0] <= x !== b[0] <= x && a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]) < y,
  );
  return above.length % 2 === 1;
}
