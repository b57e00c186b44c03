import { describe, expect, it } from 'vitest';
import { checkReport } from '../../src/output/check-json.js';
import { regionsReport } from '../../src/output/regions-json.js';
import { JOBS, mapOf, reliefOf } from './jobs.js';
import { schemaFaults } from './schemas.js';

describe.each(JOBS)('%s', (path) => {
  it('fits the schema, with and without numbers', () => {
    for (const report of [regionsReport(mapOf(path)), regionsReport(reliefOf(path))]) {
      expect(schemaFaults('regions', JSON.parse(JSON.stringify(report)))).toEqual([]);
    }
  });

  it('is the same from a map that went through JSON', () => {
    const copy = JSON.parse(JSON.stringify(mapOf(path))) as ReturnType<typeof mapOf>;
    expect(regionsReport(copy)).toEqual(regionsReport(mapOf(path)));
  });

  it('gives hosts only to cutouts, and neighbours both ways', () => {
    const { regions } = regionsReport(reliefOf(path));
    const byId = new Map(regions.map((region) => [region.id, region]));
    for (const region of regions) {
      if (region.host !== null) {
        expect(['recess', 'opening']).toContain(region.role);
        expect(byId.get(region.host)?.role).toBe('piece');
      }
      for (const { id, length } of region.neighbours) {
        const back = byId.get(id)?.neighbours.find((each) => each.id === region.id);
        expect(back?.length).toBe(length);
      }
    }
  });
});

it('counts the findings of a check', () => {
  const finding = {
    rule: 'sliver',
    level: 'warning',
    message: 'Thin.',
    at: [1, 2],
    regions: ['r1'],
  } as const;
  const report = checkReport([
    { file: 'a.svg', findings: [finding, { ...finding, level: 'error' }], regions: 3 },
    { file: 'b.svg', findings: [{ ...finding, level: 'note', at: null }], regions: 0 },
  ]);
  expect(report.summary).toEqual({ files: 2, errors: 1, warnings: 1, notes: 1 });
  expect(schemaFaults('check', report)).toEqual([]);
});
