import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import { backNumbers } from '../../src/output/back-numbers.js';
import { distanceToChords, partPlaces } from '../../src/output/plan-marks.js';

const placesIn = (marks: readonly string[]) =>
  marks.map((mark) => {
    const [, x, y] = /cx="([^"]+)" cy="([^"]+)"/.exec(mark)!;
    return { x: Number(x), y: Number(y), number: Number(/>(\d+)<\/text>/.exec(mark)?.[1]) };
  });

describe('the numbers on ways back', () => {
  const level: readonly Point[] = [
    [0, 0],
    [100, 0],
  ];
  const upright: readonly Point[] = [
    [0, 0],
    [0, 60],
  ];

  it('stand in the middle, with the number of the part that is led to', () => {
    expect(placesIn(backNumbers([level, null, upright], 1, []))).toEqual([
      { x: 50, y: 0, number: 2 },
      { x: 0, y: 30, number: 4 },
    ]);
  });

  it('are left out where one way alone is drawn', () => {
    expect(backNumbers([level], 1, [])).toEqual([]);
    // The other leads no further than is seen at a glance.
    const short: readonly Point[] = [
      [0, 0],
      [3, 0],
    ];
    expect(backNumbers([level, short], 1, [])).toEqual([]);
  });

  it('keep off marks and off the other ways', () => {
    const both = placesIn(
      backNumbers(
        [
          level,
          [
            [0, 0],
            [60, 0],
            [60, 60],
          ],
        ],
        1,
        [[50, 1]],
      ),
    );
    for (const { x, y } of both) expect(Math.hypot(x - 50, y - 1)).toBeGreaterThan(5);
    expect(both[0].x).toBeGreaterThan(62);
    expect(both[1].y).toBeGreaterThan(2);
  });
});

describe('the numbers of parts', () => {
  it('stand beside the lines of all parts and apart', () => {
    // Two parts that begin at one place and go on close to each other.
    const runs: readonly (readonly Point[])[] = [
      [
        [0, 0],
        [30, 0],
      ],
      [
        [0, 0],
        [30, 8],
      ],
    ];
    const places = partPlaces(runs, 1);
    expect(places).toHaveLength(2);
    for (const at of places) for (const run of runs) expect(distanceToChords(at, run)).toBeGreaterThan(2.5);
    const [[ax, ay], [bx, by]] = places;
    expect(Math.hypot(ax - bx, ay - by)).toBeGreaterThan(5);
  });
});
