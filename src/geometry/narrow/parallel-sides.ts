import type { AreaBoundary } from './area-boundary.js';

/** Sine of the angle between two sides that count as parallel: they part by a micrometre in a metre. */
export const PARALLEL = 1e-6;

/** Offsets from the origin are compared with this much room, mm: an angle of `PARALLEL` over some ten metres. */
const OFFSET_SLACK = 0.02;

/** A straight side, seen from the origin. */
interface Side {
  readonly segment: number;
  /** Direction without sense, 0 to π. */
  readonly angle: number;
  /** Distance of its line from the origin, to the left of that direction; and which way inside lies. */
  readonly offset: number;
  readonly inwards: 1 | -1;
}

/**
 * Straight sides, at least `least` mm long, to which some other one is parallel, facing it at less than `limit` mm: by
 * direction and distance from the origin alone, so they need not lie opposite each other. Of two that face each
 * other, one at least is listed: the one whose inside lies towards smaller offsets. In boundary order.
 */
export function parallelSides(b: AreaBoundary, least: number, limit: number): number[] {
  const sides = longSides(b, least).sort((p, q) => p.angle - q.angle);
  const found: number[] = [];
  for (let from = 0; from < sides.length; ) {
    let to = from + 1;
    while (to < sides.length && sides[to].angle - sides[to - 1].angle <= PARALLEL) to++;
    if (to - from > 1) addFacing(sides.slice(from, to), limit, found);
    from = to;
  }
  return found.sort((p, q) => p - q);
}

function longSides(b: AreaBoundary, least: number): Side[] {
  const sides: Side[] = [];
  for (let i = 0; i < b.x.length; i++) {
    const [x, y] = [b.x[b.next[i]] - b.x[i], b.y[b.next[i]] - b.y[i]];
    const length = Math.sqrt(x * x + y * y);
    if (length < least || b.loops[b.loop[i]][b.curve[i]].kind !== 'line') continue;
    // Directions just under π are those just over 0, turned round.
    const turned = y < -PARALLEL * length || (y < PARALLEL * length && x < 0);
    const sign = turned ? -1 : 1;
    const offset = (sign * (x * b.y[i] - y * b.x[i])) / length;
    sides.push({ segment: i, angle: Math.atan2(sign * y, sign * x), offset, inwards: sign });
  }
  return sides;
}

/** Adds the sides of one direction that have a partner in front, at smaller offsets. */
function addFacing(sides: Side[], limit: number, found: number[]): void {
  sides.sort((p, q) => p.offset - q.offset);
  let last: Side | null = null;
  for (const side of sides) {
    // Inside lies towards larger offsets for +1: such a side and a −1 beyond it face each other.
    if (side.inwards > 0) last = side;
    else if (last !== null && side.offset - last.offset < limit + OFFSET_SLACK) found.push(side.segment);
  }
}
