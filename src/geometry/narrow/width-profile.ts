import type { AreaBoundary } from './area-boundary.js';
import { inwards, type Spot, segmentLength } from './spot.js';
import { type TangentDisc, tangentDisc } from './tangent-disc.js';

/**
 * The width of an area as seen from points along its boundary: at each sample the largest disc inside that touches
 * there. Samples lie in the middle of the segments, of equal parts of long straight ones, and as fans of directions at
 * sharp reflex corners. Discs are found when asked for and kept, so that walks over the same ground cost once.
 */
export interface WidthProfile {
  readonly boundary: AreaBoundary;
  /** Discs of this radius and more count as wide, mm. */
  readonly limit: number;
  /** Largest distance of samples on straight stretches, mm. */
  readonly step: number;
  /** The first segment that has samples. */
  readonly base: number;
  /** Number of samples in the fan at the first vertex of each segment from `base` on. */
  readonly fan: Uint8Array;
  /** First sample of each segment from `base` on, and the number of samples at the end; a fan comes first. */
  readonly start: Int32Array;
  /** Segment of each sample. */
  readonly segment: Int32Array;
  /** Radius of the disc: NaN not yet asked for, Infinity wide. */
  readonly radius: Float64Array;
  /** Centre of the disc, and the spot where it touches across, where the radius is finite. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly otherSegment: Int32Array;
  readonly otherPart: Float64Array;
}

/** Directions in a fan: both ends and the middle. */
const FAN_SIZE = 3;

/** Cosine of the turn above which a reflex corner gets a fan (18°): flattened curves turn less. */
const FAN_TURN = 0.95;

/** An empty profile with samples at most `step` mm apart on straight stretches; of one loop only if asked for. */
export function widthProfile(b: AreaBoundary, limit: number, step: number, loop = -1): WidthProfile {
  const base = loop < 0 ? 0 : b.first[loop];
  const n = (loop < 0 ? b.x.length : b.first[loop + 1]) - base;
  const start = new Int32Array(n + 1);
  const fan = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    fan[i] = fanSize(b, base + i);
    start[i + 1] = start[i] + fan[i] + partsOf(b, base + i, step);
  }
  const count = start[n];
  const segment = new Int32Array(count);
  for (let i = 0; i < n; i++) segment.fill(base + i, start[i], start[i + 1]);
  return {
    base,
    boundary: b,
    limit,
    step,
    fan,
    start,
    segment,
    radius: new Float64Array(count).fill(Number.NaN),
    x: new Float64Array(count),
    y: new Float64Array(count),
    otherSegment: new Int32Array(count),
    otherPart: new Float64Array(count),
  };
}

/** The first sample of a segment; for the one behind the last, the number of samples. */
export function firstSample(p: WidthProfile, segment: number): number {
  return p.start[segment - p.base];
}

/** The first sample of a loop, and the one behind its last. */
export function samplesOfLoop(p: WidthProfile, loop: number): [number, number] {
  const { first } = p.boundary;
  return [firstSample(p, first[loop]), firstSample(p, first[loop + 1])];
}

/** Long segments are sampled in parts; chords of curves in the middle too, where their direction is right. */
function partsOf(b: AreaBoundary, i: number, step: number): number {
  const parts = Math.max(1, Math.ceil(segmentLength(b, i) / step));
  const { kind } = b.loops[b.loop[i]][b.curve[i]];
  return kind === 'line' || parts % 2 === 1 ? parts : parts + 1;
}

function fanSize(b: AreaBoundary, v: number): number {
  const p = b.prev[v];
  const [inX, inY] = [b.x[v] - b.x[p], b.y[v] - b.y[p]];
  const [outX, outY] = [b.x[b.next[v]] - b.x[v], b.y[b.next[v]] - b.y[v]];
  if (inX * outY - inY * outX >= 0) return 0;
  const cosine = (inX * outX + inY * outY) / b.lengths[p] / b.lengths[v];
  return cosine < FAN_TURN ? FAN_SIZE : 0;
}

/** The part of its segment at which a sample lies; 0 in a fan. */
export function partOf(p: WidthProfile, k: number): number {
  const i = p.segment[k];
  const fan = p.fan[i - p.base];
  const place = k - firstSample(p, i) - fan;
  return place < 0 ? 0 : (place + 0.5) / (firstSample(p, i + 1) - firstSample(p, i) - fan);
}

/** The first sample of a segment's own row, behind a fan, that lies beyond a part of it, or at it if `at` is set. */
export function sampleBeyond(p: WidthProfile, segment: number, part: number, at: boolean): number {
  const first = firstSample(p, segment) + p.fan[segment - p.base];
  const count = firstSample(p, segment + 1) - first;
  const passed = (k: number): boolean => {
    const there = (k + 0.5) / count;
    return at ? there < part : there <= part;
  };
  // Right but for rounding, which the two loops set straight.
  let k = Math.max(0, Math.min(count, Math.round(part * count)));
  while (k > 0 && !passed(k - 1)) k--;
  while (k < count && passed(k)) k++;
  return first + k;
}

/** The radius at a sample, mm; Infinity where it is wide. */
export function radiusOf(p: WidthProfile, k: number): number {
  if (Number.isNaN(p.radius[k])) {
    const disc = discOf(p.boundary, contactOf(p, k), p.limit);
    p.radius[k] = disc?.radius ?? Number.POSITIVE_INFINITY;
    if (disc !== null) {
      p.x[k] = disc.x;
      p.y[k] = disc.y;
      p.otherSegment[k] = disc.other.segment;
      p.otherPart[k] = disc.other.part;
    }
  }
  return p.radius[k];
}

/** A point of the boundary with a direction in which a disc may touch there. */
export interface Contact {
  readonly x: number;
  readonly y: number;
  /** Unit vector from the point to the disc's centre. */
  readonly nx: number;
  readonly ny: number;
  /** The segments on which the point lies. */
  readonly own: number;
  readonly own2: number;
}

/** Where and how the disc of a sample touches. */
export function contactOf(p: WidthProfile, k: number): Contact {
  const b = p.boundary;
  const i = p.segment[k];
  const place = k - firstSample(p, i);
  if (place >= p.fan[i - p.base]) return contactAt(b, { segment: i, part: partOf(p, k) });
  const before = inwards(b, b.prev[i]);
  const after = inwards(b, i);
  const share = place / (FAN_SIZE - 1);
  const x = before[0] * (1 - share) + after[0] * share;
  const y = before[1] * (1 - share) + after[1] * share;
  const length = Math.hypot(x, y);
  // A hairpin: its two normals cancel, and the way between them is straight on.
  const [nx, ny] = length < HAIRPIN ? [before[1], -before[0]] : [x / length, y / length];
  return { x: b.x[i], y: b.y[i], nx, ny, own: i, own2: b.prev[i] };
}

/** Length of the sum of two unit vectors that are as good as opposite. */
const HAIRPIN = 1e-6;

/** The largest disc inside of a contact, or null when it has the limit's radius or more. */
export function discOf(
  b: AreaBoundary,
  { x, y, nx, ny, own, own2 }: Contact,
  limit: number,
): TangentDisc | null {
  return tangentDisc(b, x, y, nx, ny, own, own2, limit);
}

/** A spot within this part of a segment's end lies on the neighbouring segment too, as far as rounding can tell. */
const AT_END = 1e-6;

function contactAt(b: AreaBoundary, { segment, part }: Spot): Contact {
  const end = b.next[segment];
  const [nx, ny] = inwards(b, segment);
  return {
    x: b.x[segment] + part * (b.x[end] - b.x[segment]),
    y: b.y[segment] + part * (b.y[end] - b.y[segment]),
    ...{ nx, ny },
    own: segment,
    own2: part < AT_END ? b.prev[segment] : part > 1 - AT_END ? end : segment,
  };
}

/** The disc that touches a segment at a spot. */
export function discFrom(b: AreaBoundary, spot: Spot, limit: number): TangentDisc | null {
  return discOf(b, contactAt(b, spot), limit);
}
