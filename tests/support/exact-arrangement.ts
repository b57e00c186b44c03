import type { Point } from '../../src/geometry/point.js';
import type { LineWork } from './line-work.js';

/** What is true of the subdivision of line work, without any rounding. Faces are the bounded ones. */
export interface ExactFacts {
  readonly nodes: number;
  readonly edges: number;
  readonly parts: number;
  readonly faces: number;
  /** Pairs of faces that share border of positive length. */
  readonly pairs: number;
  /** Net face areas, ascending, in the square of the input's unit. */
  readonly areas: readonly number[];
  /** The smallest distance from a node to an edge that does not end there, or the shortest edge. */
  readonly clearance: number;
}

/** A walk around a tree has no area but for the rounding of rational nodes; faces worth a test have more. */
const LEAST_FACE = 0.25;

/** A rational number: numerator and positive denominator, in lowest terms. */
type Rational = readonly [bigint, bigint];

interface Node {
  readonly x: number;
  readonly y: number;
}

/**
 * The subdivision of lines between integer points in rational arithmetic, every pair of segments tried: slow,
 * short, and nothing in common with the code under test. Angles, areas and distances are taken in doubles
 * once the topology is known, so it is good where `clearance` is well above 2⁻²⁰ of the coordinates.
 */
export function exactFacts(lines: LineWork): ExactFacts {
  const { nodes, edges } = nodeLines(lines);
  const out: number[][] = nodes.map(() => []);
  for (const [u, v] of edges) {
    out[u].push(v);
    out[v].push(u);
  }
  for (const [v, around] of out.entries()) {
    const angle = (w: number): number => Math.atan2(nodes[w].y - nodes[v].y, nodes[w].x - nodes[v].x);
    around.sort((a, b) => angle(a) - angle(b));
  }
  const part = findParts(out);
  const { walkOf, walks } = traceWalks(out);
  const areas = walks.map((walk) => signedArea(walk.map((v) => nodes[v])));
  const isFace = areas.map((area) => area > LEAST_FACE);
  const faceOf = walks.map((walk, i) => {
    if (isFace[i]) return i;
    const top = walk.reduce((best, v) => (isAbove(nodes[v], nodes[best]) ? v : best));
    let host = -1;
    for (let j = 0; j < walks.length; j++) {
      if (!isFace[j] || part[walks[j][0]] === part[top] || (host >= 0 && areas[j] >= areas[host])) continue;
      if (
        isInside(
          walks[j].map((v) => nodes[v]),
          nodes[top],
        )
      )
        host = j;
    }
    return host;
  });
  const net = areas.map((area) => Math.max(area, 0));
  for (const [i, area] of areas.entries()) if (!isFace[i] && faceOf[i] >= 0) net[faceOf[i]] += area;
  const pairs = new Set<string>();
  for (const [u, v] of edges) {
    const f = faceOf[walkOf.get(`${u},${v}`) ?? -1];
    const g = faceOf[walkOf.get(`${v},${u}`) ?? -1];
    if (f !== g && f >= 0 && g >= 0) pairs.add(`${Math.min(f, g)},${Math.max(f, g)}`);
  }
  return {
    nodes: nodes.length,
    edges: edges.length,
    parts: new Set(part).size,
    faces: isFace.filter(Boolean).length,
    pairs: pairs.size,
    areas: net.filter((_, i) => isFace[i]).sort((a, b) => a - b),
    clearance: smallestDistance(nodes, edges),
  };
}

/** Splits all segments where they meet; doubles drawn more than once count once. */
function nodeLines(lines: LineWork): { nodes: Node[]; edges: (readonly [number, number])[] } {
  const segments = lines.flatMap((line) =>
    line.slice(1).flatMap((b, i): (readonly [Point, Point])[] => {
      const a = line[i];
      return a[0] === b[0] && a[1] === b[1] ? [] : [[a, b]];
    }),
  );
  const on: Map<string, readonly [Rational, Rational]>[] = segments.map(([a, b]) => {
    const ends = [a, b].map(([x, y]): readonly [Rational, Rational] => [
      [BigInt(x), 1n],
      [BigInt(y), 1n],
    ]);
    return new Map(ends.map((p) => [name(p), p]));
  });
  for (let i = 0; i < segments.length; i++) {
    for (let j = i + 1; j < segments.length; j++) {
      for (const p of meetings(segments[i], segments[j])) {
        on[i].set(name(p), p);
        on[j].set(name(p), p);
      }
    }
  }
  const index = new Map<string, number>();
  const nodes: Node[] = [];
  const edges = new Map<string, readonly [number, number]>();
  for (const [i, [a, b]] of segments.entries()) {
    const along = ([x, y]: readonly [Rational, Rational]): number =>
      (toNumber(x) - a[0]) * (b[0] - a[0]) + (toNumber(y) - a[1]) * (b[1] - a[1]);
    const ordered = [...on[i]].sort(([, p], [, q]) => along(p) - along(q));
    const ids = ordered.map(([key, [x, y]]) => {
      const known = index.get(key);
      if (known !== undefined) return known;
      index.set(key, nodes.length);
      return nodes.push({ x: toNumber(x), y: toNumber(y) }) - 1;
    });
    for (let k = 1; k < ids.length; k++) {
      const [u, v] = [Math.min(ids[k - 1], ids[k]), Math.max(ids[k - 1], ids[k])];
      edges.set(`${u},${v}`, [u, v]);
    }
  }
  return { nodes, edges: [...edges.values()] };
}

const name = ([x, y]: readonly [Rational, Rational]): string => `${x[0]}/${x[1]},${y[0]}/${y[1]}`;

const toNumber = ([num, den]: Rational): number => {
  const whole = num / den;
  return Number(whole) + Number(num - whole * den) / Number(den);
};

/** The points where two segments meet: none, one, or the ends of a common stretch. */
function meetings(s: readonly [Point, Point], t: readonly [Point, Point]): (readonly [Rational, Rational])[] {
  const [[ax, ay], [bx, by]] = s.map(([x, y]) => [BigInt(x), BigInt(y)]);
  const [[cx, cy], [dx, dy]] = t.map(([x, y]) => [BigInt(x), BigInt(y)]);
  const ex = bx - ax;
  const ey = by - ay;
  const fx = dx - cx;
  const fy = dy - cy;
  const det = ex * fy - ey * fx;
  if (det !== 0n) {
    const u = (cx - ax) * fy - (cy - ay) * fx;
    const v = (cx - ax) * ey - (cy - ay) * ex;
    const within = (w: bigint): boolean => (det > 0n ? w >= 0n && w <= det : w <= 0n && w >= det);
    if (!within(u) || !within(v)) return [];
    return [[reduced(ax * det + u * ex, det), reduced(ay * det + u * ey, det)]];
  }
  if ((cx - ax) * ey !== (cy - ay) * ex) return [];
  const isOn = (px: bigint, py: bigint, [p, q]: readonly [Point, Point]): boolean =>
    Number(px) >= Math.min(p[0], q[0]) &&
    Number(px) <= Math.max(p[0], q[0]) &&
    Number(py) >= Math.min(p[1], q[1]) &&
    Number(py) <= Math.max(p[1], q[1]);
  const ends: [bigint, bigint, readonly [Point, Point]][] = [
    [ax, ay, t],
    [bx, by, t],
    [cx, cy, s],
    [dx, dy, s],
  ];
  return ends.filter(([x, y, other]) => isOn(x, y, other)).map(([x, y]) => [reduced(x, 1n), reduced(y, 1n)]);
}

function reduced(num: bigint, den: bigint): Rational {
  let a = num < 0n ? -num : num;
  let b = den < 0n ? -den : den;
  while (b !== 0n) [a, b] = [b, a % b];
  return den < 0n ? [-num / a, -den / a] : [num / a, den / a];
}

function findParts(out: readonly (readonly number[])[]): number[] {
  const part = out.map(() => -1);
  for (let start = 0; start < out.length; start++) {
    if (part[start] >= 0) continue;
    const stack = [start];
    part[start] = start;
    for (let v = stack.pop(); v !== undefined; v = stack.pop()) {
      for (const w of out[v]) {
        if (part[w] >= 0) continue;
        part[w] = start;
        stack.push(w);
      }
    }
  }
  return part;
}

/** Walks with a face on one side: at each node turn into the edge just before the reverse one. */
function traceWalks(out: readonly (readonly number[])[]): { walkOf: Map<string, number>; walks: number[][] } {
  const walkOf = new Map<string, number>();
  const walks: number[][] = [];
  for (const [start, around] of out.entries()) {
    for (const first of around) {
      if (walkOf.has(`${start},${first}`)) continue;
      const walk: number[] = [];
      let [u, v] = [start, first];
      while (!walkOf.has(`${u},${v}`)) {
        walkOf.set(`${u},${v}`, walks.length);
        walk.push(u);
        const next = out[v];
        const turn = next[(next.indexOf(u) + next.length - 1) % next.length];
        [u, v] = [v, turn];
      }
      walks.push(walk);
    }
  }
  return { walkOf, walks };
}

const isAbove = (p: Node, q: Node): boolean => p.y < q.y || (p.y === q.y && p.x < q.x);

function signedArea(walk: readonly Node[]): number {
  const o = walk[0];
  let twice = 0;
  for (let i = 0; i < walk.length; i++) {
    const p = walk[i];
    const q = walk[(i + 1) % walk.length];
    twice += (p.x - o.x) * (q.y - o.y) - (p.y - o.y) * (q.x - o.x);
  }
  return twice / 2;
}

function isInside(walk: readonly Node[], p: Node): boolean {
  let odd = false;
  for (let i = 0; i < walk.length; i++) {
    const a = walk[i];
    const b = walk[(i + 1) % walk.length];
    if (a.y < p.y !== b.y < p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x)) odd = !odd;
  }
  return odd;
}

function smallestDistance(nodes: readonly Node[], edges: readonly (readonly [number, number])[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const [u, v] of edges) {
    const [a, b] = [nodes[u], nodes[v]];
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const square = dx * dx + dy * dy;
    least = Math.min(least, Math.sqrt(square));
    for (const [w, p] of nodes.entries()) {
      if (w === u || w === v) continue;
      const t = Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square));
      least = Math.min(least, Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
    }
  }
  return least;
}
