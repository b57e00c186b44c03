import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import { BOARD_LINE, type BorderPoint } from '../../src/workshop/waste-border.js';
import { cutWaste, partArea, type WastePart } from '../../src/workshop/waste-parts.js';

const loop = (points: readonly Point[], line: number): BorderPoint[] =>
  points.map((at, i) => ({ at, node: line === BOARD_LINE ? -1 : i, line }));

/** A board of 100 by 100 with a square of 40 in its middle: waste on the left of every walk, y down. */
const ring: WastePart = {
  loops: [
    loop(
      [
        [0, 100],
        [100, 100],
        [100, 0],
        [0, 0],
      ],
      BOARD_LINE,
    ),
    loop(
      [
        [30, 30],
        [70, 30],
        [70, 70],
        [30, 70],
      ],
      0,
    ),
  ],
};

const areas = (parts: readonly WastePart[]): number[] => parts.map(partArea).sort((a, b) => a - b);

describe('cutWaste', () => {
  it('opens a ring with the first way, and parts it with the second', () => {
    const open = cutWaste(
      [ring],
      [
        [0, 30],
        [30, 30],
      ],
      0,
      0,
    );
    expect(areas(open)).toEqual([8400]);
    expect(open[0].loops).toHaveLength(1);
    const parted = cutWaste(
      open,
      [
        [100, 70],
        [70, 70],
      ],
      1,
      2,
    );
    // Above: the strip of 30, and both sides beside the square down to the ways.
    expect(areas(parted)).toEqual([4200, 4200]);
  });

  it('parts a corner off by a way that branches off another, with a bend', () => {
    const open = cutWaste(
      [ring],
      [
        [0, 30],
        [30, 30],
      ],
      0,
      0,
    );
    const parted = cutWaste(
      open,
      [
        [10, 30],
        [10, 70],
        [30, 70],
      ],
      1,
      3,
    );
    expect(areas(parted)).toEqual([800, 7600]);
  });

  it('keeps what lies in a part with that part', () => {
    const hole = loop(
      [
        [10, 10],
        [20, 10],
        [20, 20],
        [10, 20],
      ],
      5,
    );
    const open = cutWaste(
      [{ loops: [...ring.loops, hole] }],
      [
        [0, 30],
        [30, 30],
      ],
      0,
      0,
    );
    expect(areas(open)).toEqual([8300]);
    const parted = cutWaste(
      open,
      [
        [100, 50],
        [70, 50],
      ],
      1,
      -1,
    );
    expect(areas(parted)).toEqual([3500, 4800]);
    expect(parted.map(({ loops }) => loops.length).sort()).toEqual([1, 2]);
  });

  it('parts without loss: n ways from the edge give n parts, whose areas add up', () => {
    const place = fc.integer({ min: 1, max: 39 });
    fc.assert(
      fc.property(fc.uniqueArray(place, { minLength: 1, maxLength: 8 }), (places) => {
        let parts: WastePart[] = [ring];
        places.forEach((at, way) => {
          const x = 30 + at;
          parts = cutWaste(
            parts,
            [
              [x, 0],
              [x, 30],
            ],
            way,
            -1,
          );
        });
        expect(parts).toHaveLength(places.length);
        expect(parts.reduce((sum, part) => sum + partArea(part), 0)).toBeCloseTo(8400, 6);
        for (const part of parts) expect(partArea(part)).toBeGreaterThan(0);
      }),
    );
  });
});
