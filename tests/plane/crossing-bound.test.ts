import fc from 'fast-check';
import { expect, it } from 'vitest';
import { mostCrossings } from '../../src/plane/crossing-bound.js';
import { packLines } from '../../src/plane/line-set.js';
import { finish } from '../../src/plane/steps.js';

type Segment = readonly [number, number, number, number];

function crosses([ax, ay, bx, by]: Segment, [cx, cy, dx, dy]: Segment): boolean {
  const side = (px: number, py: number, qx: number, qy: number, x: number, y: number): number =>
    Math.sign((qx - px) * (y - py) - (qy - py) * (x - px));
  return (
    side(ax, ay, bx, by, cx, cy) * side(ax, ay, bx, by, dx, dy) < 0 &&
    side(cx, cy, dx, dy, ax, ay) * side(cx, cy, dx, dy, bx, by) < 0
  );
}

it('is never less than the crossings', () => {
  const at = fc.integer({ min: -40, max: 40 });
  fc.assert(
    fc.property(fc.array(fc.tuple(at, at, at, at), { minLength: 1, maxLength: 60 }), (segments) => {
      const lines = packLines(
        segments.map(([ax, ay, bx, by]) => [
          [ax, ay],
          [bx, by],
        ]),
      );
      let count = 0;
      segments.forEach((one, i) => {
        for (const other of segments.slice(i + 1)) if (crosses(one, other)) count++;
      });
      expect(finish(mostCrossings(lines))).toBeGreaterThanOrEqual(count);
    }),
  );
});

it('is small beside the number of pairs for a line of short segments', () => {
  const points = Array.from({ length: 10_001 }, (_, i): [number, number] => [
    100 * Math.cos(i / 700) + i / 300,
    100 * Math.sin(i / 700),
  ]);
  expect(finish(mostCrossings(packLines([points])))).toBeLessThan(200_000);
});

it('gives up where segments are long', () => {
  const lines = Array.from({ length: 2000 }, (_, i): [number, number][] => [
    [0, i],
    [2000, 2000 - i],
  ]);
  expect(finish(mostCrossings(packLines(lines)))).toBe(Number.POSITIVE_INFINITY);
});
