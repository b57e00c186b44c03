import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { planReport } from '../../src/output/plan-json.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import type { CutPlan } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { findRoute } from '../../src/workshop/way-grid.js';
import { simulatePlan } from '../simulator/simulate-plan.js';

describe('findRoute', () => {
  it('goes straight where nothing is in the way', () => {
    const route = findRoute({ board: [0, 0, 40, 30], ends: [], isClear: () => true }, [20, 10.5])!;
    expect(route.end).toBe(-1);
    expect(route.points.at(-1)).toEqual([20, 10.5]);
    const length = route.points.slice(1).reduce((sum, [x, y], i) => {
      return sum + Math.hypot(x - route.points[i][0], y - route.points[i][1]);
    }, 0);
    expect(length).toBeCloseTo(10.5, 6);
  });

  it('begins at an end that is nearer, and finds none where all is closed', () => {
    const ends = [{ at: [20, 13] as const, extra: 0 }];
    expect(findRoute({ board: [0, 0, 40, 30], ends, isClear: () => true }, [20, 10.5])!.end).toBe(0);
    expect(findRoute({ board: [0, 0, 40, 30], ends, isClear: () => false }, [20, 10.5])).toBeNull();
  });
});

/** A lane into a square that turns five times, with a small piece at its end that it alone leads to. */
function maze(width: number): CutPlan {
  const [a, b] = [
    `M80 26H32V68H68V44H50V38`,
    `M80 ${26 + width}H${32 + width}V${68 - width}H${68 - width}V${44 + width}H${50 - width}V38H50`,
  ];
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">' +
    `<path fill="none" stroke="#000" d="M20 20H80V80H20ZM${50 - width} 38V34H50V38${a}${b}"/></svg>`;
  const map = mapRegions(readDrawing(svg));
  const lane = map.regions.findIndex(({ outsideLength }) => outsideLength > 0 && outsideLength < 20);
  const relief = buildRelief(map, {
    stack: { sheets: [{ id: 's1', thickness: 3, material: 'poplar' }] },
    numbers: map.regions.map(({ labelPoint }, r) => ({ at: labelPoint, depth: r === lane ? '0' : '1' })),
    frame: 'cut',
  });
  expect(relief.regions[lane].role).toBe('void');
  return planCuts(relief);
}

describe('a start deep in a maze of the outline', () => {
  it('is come to round as many corners as it takes', () => {
    const plan = maze(6);
    const ways = plan.passes.flatMap(({ steps }) => steps.flatMap(({ waysIn = [] }) => waysIn));
    expect(Math.max(...ways.map(({ points }) => points.length))).toBeGreaterThanOrEqual(6);
    expect(plan.findings.map(({ rule }) => rule)).not.toContain('way-in');
    const { problems } = simulatePlan(JSON.parse(JSON.stringify(planReport(plan))));
    expect(problems).toEqual([]);
  });

  it('is told where the lane is too narrow for the blade', () => {
    const found = maze(0.5).findings.filter(({ rule }) => rule === 'way-in');
    expect(found).toHaveLength(1);
    expect(found[0].at![1]).toBeCloseTo(38, 3);
  });
});
