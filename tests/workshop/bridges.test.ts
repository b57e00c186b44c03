import { describe, expect, it } from 'vitest';
import { neededWidth } from '../../src/workshop/needed-width.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';

const cell = (depth: string, ...inside: string[]) => ({
  depth,
  inside: inside.map((own) => ({ shape: 'square' as const, depth: own })),
});

describe('bridges of a plan', () => {
  it('are the walls around an opening that are thinner than the sheet asks for', () => {
    // An opening of 14 mm in a square of 20 mm leaves walls of 3 mm.
    const plan = planCuts(cellRelief({ rows: [[cell('2', '0')]], sheets: [4, 4] }));
    const walls = plan.bridges.filter((bridge) => bridge.where === 'p1');
    expect(walls).toHaveLength(4);
    const needed = neededWidth({
      material: 'poplar',
      thickness: 4,
      heightSawn: 8,
      kerf: plan.workshop.blade.thickness,
      grainAngle: null,
    });
    for (const wall of walls) {
      expect(wall.width).toBeCloseTo(3, 6);
      expect(wall.needed).toBeCloseTo(needed, 9);
      expect(wall.regions).toHaveLength(1);
    }
  });

  it('are fewer in one sheet than in a stack of four', () => {
    const of = (count: number): number =>
      planCuts(cellRelief({ rows: [[cell(String(count), '0')]], sheets: new Array(count).fill(2.4) })).bridges
        .length;
    expect(of(1)).toBe(0);
    expect(of(4)).toBeGreaterThan(0);
  });

  it('are found in the standing stock between passes, where they are there for a while only', () => {
    // Two pieces of 3 sheets leave the 1 between them as a strip of 20 mm; the insets leave 3 mm beside it.
    const plan = planCuts(
      cellRelief({ rows: [[cell('1', '3'), cell('1', '3')]], sheets: [6, 3, 3], frame: 'board-edge' }),
    );
    const between = plan.bridges.filter((bridge) => bridge.where === 'pass 3');
    expect(between.length).toBeGreaterThan(0);
    expect(between.some((bridge) => Math.abs(bridge.width - 6) < 1e-6)).toBe(true);
  });

  it('are found in the front sheets between recesses', () => {
    const plan = planCuts(cellRelief({ rows: [[cell('2', '-1'), cell('2', '-1')]], sheets: [8, 3] }));
    const bars = plan.bridges.filter((bridge) => bridge.where === 's1');
    // From recess to recess there are 6 mm of the two pieces that are not parted yet.
    expect(bars.some((bridge) => Math.abs(bridge.width - 6) < 1e-6)).toBe(true);
  });

  it('name each place once', () => {
    const { bridges } = planCuts(cellRelief({ rows: [[cell('2', '0'), cell('1', '0')]], sheets: [6, 6] }));
    const places = bridges.map(({ from, to }) => [...from, ...to].map((v) => v.toFixed(2)).join(' '));
    expect(new Set(places).size).toBe(places.length);
  });
});

describe('holes and bridges', () => {
  it('begin the cut away from a thin wall', () => {
    // The left inset lies 3 mm from the edge on all sides; a stack that asks for more makes all corners alike.
    const plan = planCuts(cellRelief({ rows: [[cell('1', '0')]], sheets: [3] }));
    const { start } = plan.passes[0].steps[0];
    expect(start.kind).toBe('drill');
    const near = plan.bridges.flatMap(({ from, to }) => [from, to]);
    const gaps = near.map(([x, y]) => Math.hypot(x - start.begin![0], y - start.begin![1]));
    expect(gaps.every((gap) => gap >= 3)).toBe(true);
  });
});
