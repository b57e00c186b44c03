import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief, renumber } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { joinBridges } from '../../src/workshop/bridges.js';
import type { Bridge } from '../../src/workshop/cut-plan.js';
import { neededWidth } from '../../src/workshop/needed-width.js';
import { planAgain, planCuts } from '../../src/workshop/plan-cuts.js';
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

  it.each([Number.NaN, -1, Number.POSITIVE_INFINITY, '3'])('are not asked to be %s wide', (width) => {
    const relief = cellRelief({ rows: [[cell('2', '-1')]], sheets: [3, 3] });
    expect(() => planCuts(relief, {}, () => width as number)).toThrow(
      /planCuts: widthFor must give a width in mm, from 0; it gave/,
    );
  });

  it('name each place once', () => {
    const { bridges } = planCuts(cellRelief({ rows: [[cell('2', '0'), cell('1', '0')]], sheets: [6, 6] }));
    const places = bridges.map(({ from, to }) => [...from, ...to].map((v) => v.toFixed(2)).join(' '));
    expect(new Set(places).size).toBe(places.length);
  });
});

describe('what a bridge carries', () => {
  // A block of 30 × 40 mm, a bar of 2 × 20 mm, and a block of 20 × 20 mm.
  const drawing = readDrawing(
    '<svg xmlns="http://www.w3.org/2000/svg" width="90mm" height="50mm" viewBox="0 0 90 50">' +
      '<path d="M5 5h30v19h20v-9h20v20h-20v-9h-20v19h-30z" fill="none" stroke="black"/>' +
      '<text x="15" y="25" font-size="4">1</text></svg>',
  );
  const only = (stack: string): Bridge => {
    const relief = buildRelief(mapRegions(drawing), { stack: parseStack(stack), frame: 'cut' });
    const [bridge, ...rest] = planCuts(relief).bridges.filter(({ where }) => where === 'p1');
    expect(rest).toEqual([]);
    return bridge;
  };

  it('is what hangs on it, by area and arm', () => {
    const { width, effect, side, at } = only('4 mm poplar');
    expect([width, effect]).toEqual([expect.closeTo(2, 9), 'parts']);
    expect(at[0]).toBeCloseTo(45, 6);
    expect(side?.area).toBeCloseTo(20 * 20 + 2 * 10, 6);
    // The block's centre lies at x = 65, that of half the bar at 50; the bar in the middle at 45.
    expect(side?.lever).toBeCloseTo((400 * 65 + 20 * 50) / 420 - 45, 6);
  });

  it('is its length: the bar, and a little at both ends till it is wide enough', () => {
    const { length, needed } = only('4 mm poplar');
    expect(length).toBeGreaterThan(20);
    expect(length).toBeLessThan(20 + 2 * needed);
  });

  it('is how it runs to the grain, which counts in wood and not in a board', () => {
    const along = only('8 mm poplar (grain 0)');
    const across = only('8 mm poplar (grain 90)');
    expect([along.grainAngle, across.grainAngle]).toEqual([0, 90]);
    expect(across.needed).toBeGreaterThan(along.needed);
    expect(only('4 mm poplar').grainAngle).toBeNull();
    expect(only('8 mm birch plywood (grain 90)').grainAngle).toBeNull();
  });
});

describe('one place in several scenes', () => {
  const bridge: Bridge = {
    at: [10, 5],
    from: [10, 4],
    to: [10, 6],
    width: 2,
    needed: 3,
    where: 'p1',
    regions: [0],
    effect: 'opens',
    length: 4,
    side: null,
    grainAngle: null,
  };

  it('is the worst that may happen there, and the width that passes in all', () => {
    const standing = { ...bridge, where: 'pass 2', effect: 'parts' as const, side: { area: 9, lever: 3 } };
    expect(joinBridges([[bridge], [{ ...standing, needed: 4 }]])).toEqual([{ ...standing, needed: 4 }]);
    expect(joinBridges([[{ ...bridge, needed: 5 }], [standing]])).toEqual([{ ...standing, needed: 5 }]);
    expect(joinBridges([[bridge], [{ ...bridge, where: 'pass 1' }]])).toEqual([bridge]);
    expect(joinBridges([[bridge], [{ ...bridge, where: 'pass 1', needed: 4 }]])[0].where).toBe('pass 1');
  });

  it('is found whichever way round its ends are; other places stay', () => {
    const turned = { ...bridge, from: bridge.to, to: bridge.from };
    const beside = { ...bridge, at: [11, 5], from: [11, 4], to: [11, 6] } as Bridge;
    expect(joinBridges([[bridge, beside], [turned]])).toEqual([bridge, beside]);
  });
});

describe('planAgain', () => {
  const rows = [
    [cell('2', '0'), cell('1', '0')],
    [cell('2', '-1'), cell('2')],
  ];
  const relief = cellRelief({ rows, sheets: [6, 6] });

  it('looks again only where the work changed, and finds the same', () => {
    const first = planAgain(relief);
    expect(first.reused).toBe(0);
    expect(first.plan).toEqual(planCuts(relief));
    const again = planAgain(relief, {}, null, first.memo);
    expect([again.fresh, again.plan]).toEqual([0, first.plan]);
    for (const body of relief.bodies) {
      const changed = renumber(relief, {
        numbers: [{ region: relief.map.regions[body.region].id, depth: body.sheets === 1 ? '2' : '1' }],
      });
      const second = planAgain(changed, {}, null, first.memo);
      expect(second.plan).toEqual(planCuts(changed));
      expect(second.reused).toBeGreaterThan(0);
      expect(second.fresh).toBeLessThan(first.fresh);
    }
  });

  it('takes nothing over for another blade, other numbers or another model', () => {
    const { memo } = planAgain(relief);
    const others = [
      planAgain(relief, { bridges: { drift: 0.03 } }, null, memo),
      planAgain(relief, { blade: { ...planCuts(relief).workshop.blade, thickness: 0.5 } }, null, memo),
      planAgain(relief, {}, () => 4, memo),
    ];
    for (const { reused } of others) expect(reused).toBe(0);
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
