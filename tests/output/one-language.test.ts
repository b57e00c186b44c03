import { describe, expect, it } from 'vitest';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { planReport } from '../../src/output/plan-json.js';
import { writePlanMarkdown } from '../../src/output/plan-markdown.js';
import { writeDrawing } from '../../src/output/write-drawing.js';
import { writeOverview } from '../../src/output/write-overview.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { JOBS, planOf } from './jobs.js';

describe.each(JOBS)('all that is written for %s', (path) => {
  const plan = planOf(path);
  const { map } = plan.relief;
  const regionOf = new Map(
    [...plan.pieces, ...plan.relief.addOns].map(({ id, region }) => [id, map.regions[region].id]),
  );
  const pictures: Readonly<Record<string, string>> = {
    overview: writeOverview(plan),
    drawing: writeDrawing(plan),
    page: writePlanHtml(plan),
  };

  it.each(Object.keys(pictures))('the %s has each piece beside its own region', (name) => {
    const pairs = [...pictures[name].matchAll(/>([pa]\d+) (r\d+)</g)];
    expect(pairs.length).toBeGreaterThan(0);
    for (const [, piece, region] of pairs) expect(region).toBe(regionOf.get(piece));
    const alone = [...pictures[name].matchAll(/<text[^>]*>([pa]\d+)<\/text>/g)].map(([, id]) => id);
    for (const id of alone) expect(regionOf.has(id), id).toBe(true);
  });

  it('the tables and the data say the same', () => {
    const rows = [...writePlanMarkdown(plan).matchAll(/^\| (p\d+) \| (r\d+) \|/gm)];
    expect(rows.map(([, piece]) => piece)).toEqual(plan.pieces.map(({ id }) => id));
    for (const [, piece, region] of rows) expect(region).toBe(regionOf.get(piece));
    for (const { id, region } of planReport(plan).pieces) expect(region).toBe(regionOf.get(id));
  });

  it('the sheets name the sheet that they are, behind pieces that have it', () => {
    for (const { sheet, svg } of writeSheets(plan)) {
      for (const [, piece, part] of svg.matchAll(/>(p\d+) (s\d+)</g)) {
        expect(part).toBe(sheet);
        expect(plan.pieces.find(({ id }) => id === piece)?.sheets).toContain(sheet);
      }
      expect(svg).not.toMatch(/<text[^>]*>r\d/);
    }
  });

  it('what hangs together is a block, told before it is first met', () => {
    const isSaid = plan.passes.some(
      ({ blocks, steps }) =>
        blocks.length > 1 ||
        steps.some(({ comesLoose, boardApart }) => comesLoose !== undefined || boardApart !== undefined),
    );
    for (const document of [pictures.page, writePlanMarkdown(plan)]) {
      expect(document).not.toMatch(/\blumps?\b/i);
      const told = document.indexOf('Block (A, B');
      expect(told >= 0).toBe(isSaid);
      const met = document.search(/\b[Bb]locks? comes? loose|Block [A-Z]:/);
      if (met >= 0) expect(told).toBeLessThan(met);
    }
  });
});
