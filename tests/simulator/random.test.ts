import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planReport } from '../../src/output/plan-json.js';
import type { CutPlan } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { type Cell, cellRelief } from '../support/cell-relief.js';
import { simulatePlan } from './simulate-plan.js';

const cell: fc.Arbitrary<Cell> = fc.record({
  depth: fc.constantFrom('1', '2', '3', '4', '4', '0', '?', '+'),
  inside: fc.array(
    fc.record({
      shape: fc.constantFrom('circle', 'square'),
      depth: fc.constantFrom('-1', '-1', '-2', '0', '1', '2', '3', '4', '+', '?'),
      right: fc.option(fc.constantFrom('-1', '0', '1', '3', '?'), { nil: undefined }),
    }),
    { maxLength: 3 },
  ),
});

const rows = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 2, maxLength: 2 });

/** Circles as chords lose this part of their area, and the grid of the polygons moves borders by a little. */
const AREA_PART = 3e-3;

describe('plans of random reliefs, carried out on polygons', () => {
  it.each(['pieces', 'continuous'] as const)('go as they say, joint %s', (joint) => {
    fc.assert(
      fc.property(rows, fc.constantFrom('cut', 'board-edge'), (picture, frame) => {
        const plan = planCuts(cellRelief({ rows: picture, sheets: [6, 3, 4, 3], joint, frame }));
        const { problems, pieces, left } = simulatePlan(JSON.parse(JSON.stringify(planReport(plan))));
        expect(problems).toEqual([]);
        for (const [key, area] of dueAreas(plan)) expect(apart(pieces.get(key) ?? 0, area), key).toBe(0);
        for (const key of pieces.keys()) expect(dueAreas(plan).has(key), key).toBe(true);
        for (const { sheet, area } of plan.offcuts) expect(apart(left.get(sheet)!, area), sheet).toBe(0);
      }),
      { numRuns: 25 },
    );
  });
});

/** How far two areas lie apart, mm²; 0 within what chords explain. */
function apart(a: number, b: number): number {
  const off = Math.abs(a - b);
  return off <= 0.05 + AREA_PART * Math.max(a, b) ? 0 : off;
}

/** Area of each piece in each of its sheets, by the numbers of the regions. */
function dueAreas({ relief, pieces }: CutPlan): Map<string, number> {
  const due = new Map<string, number>();
  for (const { id, sheets, regions } of pieces) {
    for (const r of regions) {
      const kept = relief.joint === 'continuous' ? sheets : sheets.slice(relief.regions[r].down);
      for (const sheet of kept) {
        const key = `${id} ${sheet}`;
        due.set(key, (due.get(key) ?? 0) + relief.map.regions[r].area);
      }
    }
  }
  return due;
}
