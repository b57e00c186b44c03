import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import { planCanvas } from '../../src/output/plan-canvas.js';
import { placeInWaste, stepLetters } from '../../src/output/plan-step-letters.js';
import type { CutPlan } from '../../src/workshop/cut-plan.js';
import { planFixture } from '../support/plan-fixture.js';

/** What is written into the picture of a step, where it shows everything. */
function written(plan: CutPlan, number: number): string[] {
  const step = plan.passes.flatMap(({ steps }) => steps)[number - 1];
  const marks = stepLetters(planCanvas(plan), step, 1, [-1000, -1000, 1000, 1000]);
  return marks.map((mark) => />([^<]+)<\/text>/.exec(mark)?.[1] ?? '');
}

describe('letters in the pictures of steps', () => {
  const owl = planFixture('owl');

  it('stand in what comes apart and in the waste that comes off', () => {
    expect(written(owl, 23)).toEqual(['B', 'C']);
    expect(written(owl, 54)).toEqual(['F', 'w3', 'w4', 'w5']);
    expect(written(owl, 55)).toEqual([]);
  });

  it('keep inside the picture, and off its marks and lines', () => {
    const steps = owl.passes.flatMap(({ steps }) => steps);
    const canvas = planCanvas(owl);
    const lump = steps.findIndex(({ comesLoose }) => comesLoose !== undefined);
    const [r] = steps[lump].comesLoose![0];
    const [x, y] = owl.relief.map.regions[r].labelPoint;
    const inside = (mark: string): void => {
      const [, cx, cy, radius] = /cx="([^"]+)" cy="([^"]+)" r="([^"]+)"/.exec(mark)!.map(Number);
      expect(cy - radius).toBeGreaterThan(y - 0.1);
      expect(cx - radius).toBeGreaterThan(x - 0.1);
    };
    inside(stepLetters(canvas, steps[lump], 1, [x - 0.1, y - 0.1, x + 50, y + 30])[0]);
    const off = steps.find(({ wasteOff }) => wasteOff !== undefined)!;
    const placeOf = (mark: string) => /x="([^"]+)" y="([^"]+)"/.exec(mark)!.slice(1).map(Number);
    const view = [-1000, -1000, 1000, 1000] as const;
    const [free] = stepLetters(canvas, off, 0.4, view);
    const [fx, fy] = placeOf(free);
    const [moved] = stepLetters(canvas, off, 0.4, view, { marks: [[fx, fy]], lines: [] });
    expect(moved).toContain('>w1<');
    expect(Math.hypot(placeOf(moved)[0] - fx, placeOf(moved)[1] - fy)).toBeGreaterThan(1);
  });

  it('stand in the lumps that come loose', () => {
    expect(written(planFixture('harbour'), 156)).toEqual(['C', 'D', 'E']);
  });
});

describe('placeInWaste', () => {
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

  it('is in the widest stretch, beside what lies in the waste', () => {
    const [x, y] = placeInWaste({ loops: [square, hole] }, [0, 2, 10, 8])!;
    expect(x).toBeCloseTo(8, 9);
    expect(y).toBeGreaterThan(2);
  });

  it('keeps to what the picture shows of it', () => {
    expect(placeInWaste({ loops: [square] }, [5, 0, 20, 10])![0]).toBeCloseTo(7.5, 9);
    expect(placeInWaste({ loops: [square] }, [20, 0, 30, 10])).toBeNull();
    expect(placeInWaste({ loops: [square] }, [0, 20, 10, 30])).toBeNull();
  });
});
