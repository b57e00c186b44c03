import { describe, expect, it } from 'vitest';
import type { Bounds, Point } from '../../src/geometry/point.js';
import { stepLetters } from '../../src/output/picture-labels.js';
import { boxAround, fieldOfChords, type PictureRoom, placeBeside } from '../../src/output/picture-room.js';
import { placesInLoops } from '../../src/output/places-in-loops.js';
import { planCanvas } from '../../src/output/plan-canvas.js';
import type { CutPlan } from '../../src/workshop/cut-plan.js';
import { planFixture } from '../support/plan-fixture.js';

const ALL: Bounds = [-1000, -1000, 1000, 1000];

/** A picture with marks in it and no lines. */
const room = (unit: number, view: Bounds = ALL, taken: readonly Bounds[] = []): PictureRoom => ({
  view,
  unit,
  taken: [...taken],
  lines: [],
});

/** What is written into the picture of a step, where it shows everything. */
function written(plan: CutPlan, number: number): string[] {
  const step = plan.passes.flatMap(({ steps }) => steps)[number - 1];
  const marks = stepLetters(planCanvas(plan), step, room(1));
  return marks.map((mark) => />([^<]+)<\/text>/.exec(mark)?.[1] ?? '');
}

describe('letters in the pictures of steps', () => {
  const owl = planFixture('owl');

  it('stand in what comes apart and in the waste that comes off', () => {
    expect(written(owl, 23)).toEqual(['B', 'C']);
    expect(written(owl, 54).sort()).toEqual(['F', 'w3', 'w4', 'w5']);
    expect(written(owl, 55)).toEqual([]);
  });

  it('keep inside the picture, and off its marks', () => {
    const steps = owl.passes.flatMap(({ steps }) => steps);
    const canvas = planCanvas(owl);
    const lump = steps.findIndex(({ comesLoose }) => comesLoose !== undefined);
    const [r] = steps[lump].comesLoose![0];
    const [x, y] = owl.relief.map.regions[r].labelPoint;
    const [letter] = stepLetters(canvas, steps[lump], room(1, [x - 0.1, y - 0.1, x + 50, y + 30]));
    const [, cx, cy, radius] = /cx="([^"]+)" cy="([^"]+)" r="([^"]+)"/.exec(letter)!.map(Number);
    expect(cy - radius).toBeGreaterThan(y - 0.1);
    expect(cx - radius).toBeGreaterThan(x - 0.1);
    const off = steps.find(({ wasteOff }) => wasteOff !== undefined)!;
    const placeOf = (mark: string) => /<text x="([^"]+)" y="([^"]+)"/.exec(mark)!.slice(1).map(Number);
    const [free] = stepLetters(canvas, off, room(0.4));
    const [fx, fy] = placeOf(free);
    const [moved] = stepLetters(canvas, off, room(0.4, ALL, [boxAround([fx, fy], [0.5, 0.5])]));
    expect(moved).toContain('>w1<');
    expect(Math.hypot(placeOf(moved)[0] - fx, placeOf(moved)[1] - fy)).toBeGreaterThan(1);
  });

  it('stand in the lumps that come loose', () => {
    const harbour = planFixture('harbour');
    const number = harbour.passes
      .flatMap(({ steps }) => steps)
      .findIndex(({ comesLoose = [] }) => comesLoose.length === 3);
    expect(written(harbour, number + 1)).toEqual(['C', 'D', 'E']);
  });
});

describe('placesInLoops', () => {
  const square: readonly Point[] = [
    [0, 0],
    [10, 0],
    [10, 10],
    [0, 10],
  ];
  const hole: readonly Point[] = [
    [1, 1],
    [1, 9],
    [6, 9],
    [6, 1],
  ];

  it('begins in the widest stretch, beside what lies in the area', () => {
    const [[x, y]] = placesInLoops([square, hole], [0, 2, 10, 8]);
    expect(x).toBeCloseTo(8, 9);
    expect(y).toBeGreaterThan(2);
    for (const [px, py] of placesInLoops([square, hole], ALL)) {
      expect(px > 1 && px < 6 && py > 1 && py < 9).toBe(false);
    }
  });

  it('keeps to what the picture shows of it', () => {
    expect(placesInLoops([square], [5, 0, 20, 10])[0][0]).toBeCloseTo(7.5, 9);
    expect(placesInLoops([square], [20, 0, 30, 10])).toEqual([]);
    expect(placesInLoops([square], [0, 20, 10, 30])).toEqual([]);
  });
});

describe('a place beside what a label speaks of', () => {
  it('is off all lines and marks, and its leader passes no mark', () => {
    const lines: readonly (readonly Point[])[] = [-12, -6, 6, 12].map((y) => [
      [-100, y],
      [100, y],
    ]);
    const mark: Bounds = [4, -2, 8, 2];
    const tight: PictureRoom = {
      ...room(1, ALL, [mark]),
      lines: [{ field: fieldOfChords(lines), off: 0.3, isCut: false }],
    };
    const found = placeBeside(tight, [3, 2], [[0, 0]])!;
    const [x, y] = found.at;
    for (const line of [-12, -6, 6, 12]) expect(Math.abs(y - line)).toBeGreaterThan(2.3);
    // To the left: the mark stands to the right.
    expect(x).toBeLessThan(0);
    expect(found.from).toEqual([0, 0]);
  });

  it('begins its leader elsewhere where a mark covers the first place', () => {
    const covered = room(1, ALL, [[-2, -2, 2, 2]]);
    expect(
      placeBeside(
        covered,
        [3, 2],
        [
          [0, 0],
          [20, 0],
        ],
      )!.from,
    ).toEqual([20, 0]);
  });
});
