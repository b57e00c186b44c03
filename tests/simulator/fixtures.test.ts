import { describe, expect, it } from 'vitest';
import { planReport } from '../../src/output/plan-json.js';
import { planFixture } from '../support/plan-fixture.js';
import { simulatePlan } from './simulate-plan.js';

/**
 * How far chords and the grid of the polygons may move a border, mm: an area is off by that times its outline,
 * which is taken to be at most 30 times the root of the area.
 */
const OFF = 0.005;
const room = (area: number): number => 30 * Math.sqrt(area) * OFF;

describe.each([
  ['harbour', 'pieces'],
  ['harbour', 'continuous'],
  ['fretwork', 'pieces'],
  ['owl', 'pieces'],
  ['owl', 'continuous'],
] as const)('the plan of %s as %s, carried out on polygons', (name, joint) => {
  const plan = planFixture(name, { joint });
  const report = JSON.parse(JSON.stringify(planReport(plan)));
  const { problems, pieces, left } = simulatePlan(report);

  it('goes as the plan says', () => {
    expect(problems).toEqual([]);
  });

  it('gives every piece exactly its sheets', () => {
    for (const { id, sheets, regions } of plan.pieces) {
      for (const sheet of plan.relief.stack.sheets) {
        const came = pieces.get(`${id} ${sheet.id}`) ?? 0;
        const due = regions
          .filter((r) => sheetsOf(plan, id, r).includes(sheet.id))
          .reduce((sum, r) => sum + plan.relief.map.regions[r].area, 0);
        expect(Math.abs(came - due), `${id} in ${sheet.id}`).toBeLessThanOrEqual(room(due));
        expect(sheets.includes(sheet.id) || came === 0).toBe(true);
      }
    }
  });

  it('leaves the offcuts that the plan names', () => {
    expect(plan.offcuts.length).toBeGreaterThan(0);
    for (const { sheet, area } of plan.offcuts) {
      expect(Math.abs(left.get(sheet)! - area), sheet).toBeLessThanOrEqual(room(area));
    }
  });
});

function sheetsOf(plan: ReturnType<typeof planFixture>, piece: string, region: number): readonly string[] {
  const { sheets } = plan.pieces.find(({ id }) => id === piece)!;
  return plan.relief.joint === 'continuous' ? sheets : sheets.slice(plan.relief.regions[region].down);
}
