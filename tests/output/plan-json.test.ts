import { describe, expect, it } from 'vitest';
import { planReport } from '../../src/output/plan-json.js';
import { planFixture } from '../support/plan-fixture.js';
import { schemaFaults } from './schemas.js';

describe.each([
  ['harbour', 'pieces'],
  ['owl', 'continuous'],
  ['fretwork', 'pieces'],
] as const)('the report of the plan of %s as %s', (name, joint) => {
  const plan = planFixture(name, { joint });
  const report = JSON.parse(JSON.stringify(planReport(plan))) as ReturnType<typeof planReport>;

  it('keeps to the JSON Schema', () => {
    expect(schemaFaults('plan', report)).toEqual([]);
  });

  it('names regions, pieces and sheets that are there', () => {
    const regions = new Set(report.regions.map((region) => region.id));
    const pieces = new Set([...report.pieces, ...report.addOns].map((piece) => piece.id));
    const sheets = new Set(report.stack.map((sheet) => sheet.id));
    for (const pass of report.passes) {
      expect(pass.sheets.every((id) => sheets.has(id))).toBe(true);
      for (const step of pass.steps) {
        expect(step.regions.every((id) => regions.has(id))).toBe(true);
        expect(step.pieces.every((id) => pieces.has(id))).toBe(true);
      }
    }
  });

  it('frees every piece and every add-on exactly once', () => {
    const freed = report.passes.flatMap((pass) => [
      ...pass.loosePieces,
      ...pass.steps.flatMap((step) => step.pieces),
    ]);
    const all = [...report.pieces, ...report.addOns].map((piece) => piece.id);
    expect([...freed].sort()).toEqual([...all].sort());
  });

  it('has a path as long as it says for every step', () => {
    for (const step of report.passes.flatMap((pass) => pass.steps)) {
      expect(step.path).toMatch(/^M/);
      expect(step.leadIn).toBeLessThanOrEqual(step.length);
    }
  });
});

describe('the schema', () => {
  it('refuses a start of no known kind, and a plan without totals', () => {
    const report = JSON.parse(JSON.stringify(planReport(planFixture('owl'))));
    const { totals: _, ...without } = report;
    expect(schemaFaults('plan', without)).not.toEqual([]);
    report.passes[0].steps[0].start.kind = 'somewhere';
    expect(schemaFaults('plan', report)).not.toEqual([]);
  });
});
