import { type RandomSource, randomInteger, randomSource } from '../../support/random.js';
import type { Line, Place, Workload } from './workload.js';

/** Shapes on a page of 1,000 segments, and how much faster than the page their number grows. */
const SEGMENTS_PER_SHAPE = 50;
const PAGE_AREA_AT_200_SHAPES = 1.3e6;
const PAGE_GROWTH = 0.8;

/**
 * A picture-like scene: closed wavy outlines, hills that end on them, and houses with windows, as polylines
 * with steps like those of flattened curves (0.5 to 1.5 mm). The page grows slower than the number of shapes,
 * so larger scenes are more crowded. One shape in twelve is a path whose two ends lie on the outlines of
 * others, to within the rounding of doubles.
 */
export function scene(segments: number, seed = 1): Workload {
  const random = randomSource(seed);
  const shapes = segments / SEGMENTS_PER_SHAPE;
  const page = Math.sqrt(PAGE_AREA_AT_200_SHAPES * (shapes / 200) ** PAGE_GROWTH);
  const lines: Line[] = [];
  const outlines: Line[] = [];
  let left = segments;
  while (left >= 12) {
    const kind = random();
    const centre: Place = [page * random(), page * random()];
    if (kind < 0.1 && outlines.length > 1) {
      const path = pathBetween(nearestPair(outlines, random), random);
      if (path.length - 1 > left) continue;
      lines.push(path);
      left -= path.length - 1;
    } else if (kind < 0.13) {
      for (const part of house(centre, 4 + 8 * random(), random)) {
        lines.push(part);
        left -= part.length - 1;
      }
    } else {
      const outline = wavyOutline(centre, 5 + 7 * random(), random, Math.min(left, 64));
      lines.push(outline);
      outlines.push(outline);
      left -= outline.length - 1;
    }
  }
  return { name: `scene ${segments}`, lines, faces: null };
}

/** A closed outline around `centre` whose radius waves gently. */
function wavyOutline(centre: Place, radius: number, random: RandomSource, most: number): Line {
  const steps = Math.max(12, Math.min(most, Math.round((2 * Math.PI * radius) / (0.7 + 0.4 * random()))));
  const waves = 2 + randomInteger(random, 4);
  const depth = 0.05 + 0.2 * random();
  const phase = 2 * Math.PI * random();
  const line: Line = [];
  for (let i = 0; i < steps; i++) {
    const angle = (2 * Math.PI * i) / steps;
    const r = radius * (1 + depth * Math.sin(waves * angle + phase));
    line.push([centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)]);
  }
  line.push(line[0]);
  return line;
}

/** A rectangle with a roof and two windows, a little askew. */
function house(centre: Place, size: number, random: RandomSource): Line[] {
  const angle = 0.3 * (random() - 0.5);
  const at = (x: number, y: number): Place => [
    centre[0] + size * (x * Math.cos(angle) - y * Math.sin(angle)),
    centre[1] + size * (x * Math.sin(angle) + y * Math.cos(angle)),
  ];
  const box = (x: number, y: number, w: number, h: number): Line => [
    at(x, y),
    at(x + w, y),
    at(x + w, y + h),
    at(x, y + h),
    at(x, y),
  ];
  const roof: Line = [at(-1, -0.5), at(0, -1.3), at(1, -0.5)];
  return [box(-1, -0.5, 2, 1.5), roof, box(-0.7, -0.1, 0.4, 0.5), box(0.3, -0.1, 0.4, 0.5)];
}

/** An outline at random, and the nearest of a dozen others. */
function nearestPair(outlines: readonly Line[], random: RandomSource): readonly [Line, Line] {
  const first = outlines[randomInteger(random, outlines.length)];
  let best = first;
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 12; i++) {
    const other = outlines[randomInteger(random, outlines.length)];
    const d = Math.hypot(other[0][0] - first[0][0], other[0][1] - first[0][1]);
    if (other !== first && d < nearest) {
      nearest = d;
      best = other;
    }
  }
  return [first, best];
}

/** A waving line from a point on one outline to a point on the other. */
function pathBetween([a, b]: readonly [Line, Line], random: RandomSource): Line {
  const from = pointOn(a, random);
  const to = pointOn(b, random);
  const steps = 24;
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const sway = 0.05 + 0.05 * random();
  const line: Line = [from];
  for (let i = 1; i < steps; i++) {
    const t = i / steps;
    const off = sway * Math.sin(2 * Math.PI * t);
    line.push([from[0] + t * dx - off * dy, from[1] + t * dy + off * dx]);
  }
  line.push(to);
  return line;
}

function pointOn(line: Line, random: RandomSource): Place {
  const i = randomInteger(random, line.length - 1);
  const t = 0.2 + 0.6 * random();
  const [a, b] = [line[i], line[i + 1]];
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}
