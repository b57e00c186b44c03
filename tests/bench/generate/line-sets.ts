import { randomSource } from '../../support/random.js';
import type { Line, Workload } from './workload.js';

/** Straight segments of 1 to 9 mm thrown at a square page; at 100,000 about two crossings a segment. */
export function randomSegments(count: number, seed = 1): Workload {
  const random = randomSource(seed);
  const page = 3.05 * Math.sqrt(count);
  const lines: Line[] = [];
  for (let i = 0; i < count; i++) {
    const x = page * random();
    const y = page * random();
    const length = 1 + 8 * random();
    const angle = 2 * Math.PI * random();
    lines.push([
      [x, y],
      [x + length * Math.cos(angle), y + length * Math.sin(angle)],
    ]);
  }
  return { name: `random ${count}`, lines, faces: null };
}

/** k lines across k lines, each a little askew: k² crossings, (k − 1)² faces. */
export function grid(k: number, seed = 1): Workload {
  const random = randomSource(seed);
  const pitch = 4;
  const size = pitch * (k + 1);
  const lines: Line[] = [];
  for (let i = 1; i <= k; i++) {
    const a = pitch * (i + 0.4 * (random() - 0.5));
    const b = pitch * (i + 0.4 * (random() - 0.5));
    lines.push([
      [0, a],
      [size, b],
    ]);
    lines.push([
      [b, 0],
      [a, size],
    ]);
  }
  return { name: `grid ${k}`, lines, faces: (k - 1) ** 2 };
}
