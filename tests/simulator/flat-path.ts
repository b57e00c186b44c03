import { SVGPathData } from 'svg-pathdata';

/** A point in mm. */
export type XY = readonly [number, number];

/** Straight segments that stay within this of the true curve, mm. */
const FLATNESS = 0.004;

/** Segments of a cubic at most. */
const MOST_PARTS = 400;

/**
 * Path data as runs of points, one run for each M: read by svg-pathdata (arcs as cubics), then cut into even
 * parts. Nothing of the library under test is used.
 */
export function flatPath(d: string): XY[][] {
  const runs: XY[][] = [];
  let at: XY = [0, 0];
  const line = (to: XY): void => {
    runs[runs.length - 1].push(to);
    at = to;
  };
  if (d === '') return [];
  for (const c of new SVGPathData(d).toAbs().normalizeST().qtToC().aToC().commands) {
    if (c.type === SVGPathData.MOVE_TO) {
      runs.push([[c.x, c.y]]);
      at = [c.x, c.y];
    } else if (c.type === SVGPathData.LINE_TO) line([c.x, c.y]);
    else if (c.type === SVGPathData.HORIZ_LINE_TO) line([c.x, at[1]]);
    else if (c.type === SVGPathData.VERT_LINE_TO) line([at[0], c.y]);
    else if (c.type === SVGPathData.CLOSE_PATH) line(runs[runs.length - 1][0]);
    else if (c.type === SVGPathData.CURVE_TO) for (const p of cubic(at, c)) line(p);
    else throw new Error(`a path command that plans do not use: ${c.type}`);
  }
  return runs;
}

interface Cubic {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly x: number;
  readonly y: number;
}

function cubic(from: XY, c: Cubic): XY[] {
  const bend = Math.max(
    Math.hypot(from[0] - 2 * c.x1 + c.x2, from[1] - 2 * c.y1 + c.y2),
    Math.hypot(c.x1 - 2 * c.x2 + c.x, c.y1 - 2 * c.y2 + c.y),
  );
  // The chord of one of n even parts stays within 6 · bend / (8 n²) of the curve.
  const n = Math.min(MOST_PARTS, Math.max(1, Math.ceil(Math.sqrt((0.75 * bend) / FLATNESS))));
  return Array.from({ length: n }, (_, i): XY => {
    const t = (i + 1) / n;
    const u = 1 - t;
    const [a, b, e, f] = [u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t];
    return [a * from[0] + b * c.x1 + e * c.x2 + f * c.x, a * from[1] + b * c.y1 + e * c.y2 + f * c.y];
  });
}

/** A shorter segment is rounding of the written numbers: its direction says nothing. mm */
const LEAST_LENGTH = 1e-3;

/** Points along a run no further apart than `step`, with the unit direction of the line there. */
export function sampleRun(run: readonly XY[], step: number): { at: XY; along: XY }[] {
  const samples: { at: XY; along: XY }[] = [];
  for (let i = 1; i < run.length; i++) {
    const [x0, y0] = run[i - 1];
    const [dx, dy] = [run[i][0] - x0, run[i][1] - y0];
    const length = Math.hypot(dx, dy);
    if (length < LEAST_LENGTH) continue;
    const n = Math.max(1, Math.ceil(length / step));
    for (let k = 0; k < n; k++) {
      const t = (k + 0.5) / n;
      samples.push({ at: [x0 + dx * t, y0 + dy * t], along: [dx / length, dy / length] });
    }
  }
  return samples;
}

/** Area inside runs by the even-odd rule, for runs that do not cross and lie in each other at most once. */
export function ringArea(run: readonly XY[]): number {
  let twice = 0;
  for (let i = 0; i < run.length; i++) {
    const [x0, y0] = run[i];
    const [x1, y1] = run[(i + 1) % run.length];
    twice += x0 * y1 - x1 * y0;
  }
  return Math.abs(twice) / 2;
}
