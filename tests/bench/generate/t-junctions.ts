import { type RandomSource, randomSource } from '../../support/random.js';
import type { Line, Place, Workload } from './workload.js';

/** How coarse the faces are. */
export interface Coarseness {
  /** No end lies nearer than this, mm, to a corner, another end or another line. */
  readonly clearance: number;
  /** Mean side of a face, mm. */
  readonly side: number;
}

/** Features of more than ten times the default weld. */
const COARSE: Coarseness = { clearance: 0.25, side: 9.5 };

/** A convex face; edge i runs from corner i to the next one along the line `on[i]`. */
interface Face {
  readonly corners: readonly Place[];
  readonly on: readonly number[];
  readonly area: number;
}

/**
 * A square frame split again and again: each new line joins two points on the border of one convex face, so
 * there are exactly `splits` + 1 faces. The ends are computed in full doubles: they miss the line on which
 * they lie by the rounding of doubles.
 */
export function tJunctions(splits: number, seed = 1, coarseness = COARSE): Workload {
  const { lines } = splitSquare(splits, seed, coarseness);
  return { name: `T-junctions ${splits}`, lines, faces: splits + 1 };
}

/**
 * The same faces, each drawn as a closed outline of its own, as a picture of filled shapes is: every border is
 * drawn twice, and where a line ends on the other side of it the two drawings have different corners.
 */
export function mosaic(splits: number, seed = 1, coarseness = COARSE): Workload {
  const { faces } = splitSquare(splits, seed, coarseness);
  const lines = faces.map(({ corners }): Line => [...corners, corners[0]]);
  return { name: `mosaic ${splits}`, lines, faces: splits + 1 };
}

function splitSquare(
  splits: number,
  seed: number,
  { clearance, side }: Coarseness,
): { lines: Line[]; faces: readonly Face[] } {
  const random = randomSource(seed);
  const size = side * Math.sqrt(splits + 1);
  const frame: Place[] = [
    [0, 0],
    [size, 0],
    [size, size],
    [0, size],
  ];
  const lines: Line[] = [[...frame, frame[0]]];
  // Ends that lie on each line, from either side: lines 0 to 3 are the sides of the frame.
  const ends: Place[][] = [[], [], [], []];
  const heap = new FaceHeap({ corners: frame, on: [0, 1, 2, 3], area: size * size });
  const whole: Face[] = [];
  for (let done = 0; done < splits; ) {
    const face = heap.takeLargest();
    const split = chooseSplit(face, ends, clearance, random);
    if (split === null) {
      whole.push(face);
      continue;
    }
    const line = ends.length;
    ends.push([]);
    ends[face.on[split.edgeA]].push(split.a);
    ends[face.on[split.edgeB]].push(split.b);
    lines.push([split.a, split.b]);
    for (const half of halves(face, split, line)) heap.add(half);
    done++;
  }
  return { lines, faces: [...whole, ...heap.all()] };
}

interface Split {
  readonly edgeA: number;
  readonly a: Place;
  readonly edgeB: number;
  readonly b: Place;
}

/** A line across the face with clearance all round, or null: the face is then left whole. */
function chooseSplit(
  face: Face,
  ends: readonly Place[][],
  clearance: number,
  random: RandomSource,
): Split | null {
  for (let attempt = 0; attempt < 24; attempt++) {
    const edgeA = attempt < 12 ? longestEdge(face) : Math.floor(random() * face.corners.length);
    const [p, q] = edge(face, edgeA);
    const t = 0.3 + 0.4 * random();
    const a: Place = [p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])];
    const turn = Math.PI / 2 + (random() - 0.5);
    const along = Math.atan2(q[1] - p[1], q[0] - p[0]) + turn;
    const hit = leave(face, edgeA, a, [Math.cos(along), Math.sin(along)]);
    if (hit === null) continue;
    const split = { edgeA, a, edgeB: hit.edge, b: hit.at };
    if (isClear(face, split, ends, clearance)) return split;
  }
  return null;
}

/** Where a ray from `a` leaves the convex face. */
function leave(face: Face, from: number, a: Place, d: Place): { edge: number; at: Place } | null {
  for (let i = 0; i < face.corners.length; i++) {
    if (i === from) continue;
    const [p, q] = edge(face, i);
    const e: Place = [q[0] - p[0], q[1] - p[1]];
    const det = d[0] * e[1] - d[1] * e[0];
    if (det === 0) continue;
    const t = ((a[0] - p[0]) * d[1] - (a[1] - p[1]) * d[0]) / -det;
    if (t > 0 && t < 1) return { edge: i, at: [p[0] + t * e[0], p[1] + t * e[1]] };
  }
  return null;
}

function isClear(face: Face, split: Split, ends: readonly Place[][], clearance: number): boolean {
  for (const [end, own] of [
    [split.a, split.edgeA],
    [split.b, split.edgeB],
  ] as const) {
    for (const other of ends[face.on[own]]) if (toSegment(other, split.a, split.b) < clearance) return false;
    for (let i = 0; i < face.corners.length; i++) {
      if (i !== own && toSegment(end, ...edge(face, i)) < clearance) return false;
    }
  }
  return face.corners.every((corner) => toSegment(corner, split.a, split.b) >= clearance);
}

/** The two faces on both sides of a split. */
function halves(face: Face, { edgeA, a, edgeB, b }: Split, line: number): readonly [Face, Face] {
  const side = (from: Place, fromEdge: number, to: Place, toEdge: number): Face => {
    const corners: Place[] = [from];
    const on: number[] = [face.on[fromEdge]];
    const n = face.corners.length;
    for (let i = (fromEdge + 1) % n; ; i = (i + 1) % n) {
      corners.push(face.corners[i]);
      on.push(face.on[i]);
      if (i === toEdge) break;
    }
    corners.push(to);
    on.push(line);
    return { corners, on, area: areaOf(corners) };
  };
  return [side(a, edgeA, b, edgeB), side(b, edgeB, a, edgeA)];
}

function edge(face: Face, i: number): readonly [Place, Place] {
  return [face.corners[i], face.corners[(i + 1) % face.corners.length]];
}

function longestEdge(face: Face): number {
  let best = 0;
  for (let i = 1; i < face.corners.length; i++) {
    if (apart(...edge(face, i)) > apart(...edge(face, best))) best = i;
  }
  return best;
}

function apart(a: Place, b: Place): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

function toSegment(p: Place, a: Place, b: Place): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const t = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
  const u = Math.max(0, Math.min(1, t));
  return Math.hypot(p[0] - a[0] - u * dx, p[1] - a[1] - u * dy);
}

function areaOf(corners: readonly Place[]): number {
  let twice = 0;
  for (let i = 0; i < corners.length; i++) {
    const [p, q] = [corners[i], corners[(i + 1) % corners.length]];
    twice += p[0] * q[1] - p[1] * q[0];
  }
  return Math.abs(twice) / 2;
}

/** A binary heap of faces, the largest on top. */
class FaceHeap {
  readonly #faces: Face[];

  constructor(first: Face) {
    this.#faces = [first];
  }

  add(face: Face): void {
    const faces = this.#faces;
    let i = faces.length;
    faces.push(face);
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (faces[up].area >= face.area) break;
      faces[i] = faces[up];
      i = up;
    }
    faces[i] = face;
  }

  all(): readonly Face[] {
    return this.#faces;
  }

  takeLargest(): Face {
    const faces = this.#faces;
    const top = faces[0];
    const last = faces.pop();
    if (last === undefined) throw new Error('no face is left to split');
    if (faces.length === 0) return top;
    let i = 0;
    for (;;) {
      let child = 2 * i + 1;
      if (child >= faces.length) break;
      if (child + 1 < faces.length && faces[child + 1].area > faces[child].area) child++;
      if (faces[child].area <= last.area) break;
      faces[i] = faces[child];
      i = child;
    }
    faces[i] = last;
    return top;
  }
}
