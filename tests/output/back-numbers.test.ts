import { describe, expect, it } from 'vitest';
import type { Bounds, Point } from '../../src/geometry/point.js';
import { backNumbers } from '../../src/output/back-numbers.js';
import { partPlaces } from '../../src/output/part-numbers.js';
import { boxAround, fieldOfChords, type PictureRoom } from '../../src/output/picture-room.js';
import { distanceToChords } from '../../src/output/plan-marks.js';

/** A wide picture with marks and lines that are sawn. */
const room = (taken: readonly Bounds[] = [], cuts: readonly (readonly Point[])[] = []): PictureRoom => ({
  view: [-500, -500, 500, 500],
  unit: 1,
  taken: [...taken],
  lines: [{ field: fieldOfChords(cuts), off: 0.8, isCut: true }],
});

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
    expect(placesIn(backNumbers([level, null, upright], room()))).toEqual([
      { x: 50, y: 0, number: 2 },
      { x: 0, y: 30, number: 4 },
    ]);
  });

  it('are left out where one way alone is drawn', () => {
    expect(backNumbers([level], room())).toEqual([]);
    // The other leads no further than is seen at a glance.
    const short: readonly Point[] = [
      [0, 0],
      [3, 0],
    ];
    expect(backNumbers([level, short], room())).toEqual([]);
  });

  it('keep off marks and off the other ways', () => {
    const bent: readonly Point[] = [
      [0, 0],
      [60, 0],
      [60, 60],
    ];
    const mark = boxAround([50, 1], [2, 2]);
    const both = placesIn(backNumbers([level, bent], room([mark])));
    for (const { x, y } of both) expect(Math.max(Math.abs(x - 50), Math.abs(y - 1))).toBeGreaterThan(4.4);
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
    const places = partPlaces(runs, room([], runs));
    expect(places).toHaveLength(2);
    for (const at of places) for (const run of runs) expect(distanceToChords(at, run)).toBeGreaterThan(2.5);
    const [[ax, ay], [bx, by]] = places;
    expect(Math.hypot(ax - bx, ay - by)).toBeGreaterThan(5);
  });

  it('leave the mark of the start free', () => {
    const run: readonly Point[] = [
      [0, 0],
      [6, 0],
    ];
    const start = boxAround([0, 0], [2.4, 2.4]);
    const [[x, y]] = partPlaces([run], room([start], [run]));
    expect(Math.max(Math.abs(x), Math.abs(y))).toBeGreaterThan(4.8);
    expect(Math.hypot(x, y)).toBeLessThan(9);
  });
});
