import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { writePlanMarkdown } from '../../src/output/plan-markdown.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { sheetIndexHtml } from '../../src/output/sheet-index.js';
import { DRAWING_FILE, writeDrawing } from '../../src/output/write-drawing.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { JOBS, planOf } from './jobs.js';

describe.each(JOBS)('the drawing of %s', (path) => {
  const plan = planOf(path);
  const { relief } = plan;
  const drawing = writeDrawing(plan, 'A & B');

  it('has every region of the base when it is read back, so every line', () => {
    const base = relief.map.regions.filter(({ addOn }) => !addOn);
    const lines = readDrawing(drawing, {
      exclude: ['holes', 'add-ons'].filter((id) => drawing.includes(`id="${id}"`)),
    });
    const read = mapRegions(lines, relief.map.options);
    expect(read.regions).toHaveLength(base.length);
    const areas = (regions: readonly { readonly area: number }[]) =>
      regions.map(({ area }) => area).sort((a, b) => a - b);
    const want = areas(base);
    areas(read.regions).forEach((area, i) => {
      expect(Math.abs(area - want[i])).toBeLessThan(1e-3 * Math.max(1, want[i]));
    });
  });

  it('has every hole with its step, and each piece with both of its ids', () => {
    const holes = plan.passes
      .filter(({ phase }) => phase !== 'add-ons')
      .flatMap(({ steps }) => steps.filter(({ start }) => start.kind === 'drill'));
    const group = /<g id="holes"[^>]*>(.*?)<\/g>/s.exec(drawing)?.[1] ?? '';
    expect(group.match(/<circle/g) ?? []).toHaveLength(holes.length);
    for (const { id, region } of plan.pieces) {
      expect(drawing).toContain(`>${id} ${relief.map.regions[region].id}<`);
    }
  });

  it('is named by the plans and linked to in the index', () => {
    for (const document of [writePlanText(plan), writePlanMarkdown(plan)]) {
      expect(document).toContain(DRAWING_FILE);
      expect(document).not.toContain('file of sheet 1');
    }
    const sheets = writeSheets(plan);
    expect(sheetIndexHtml(plan, sheets, 'x', DRAWING_FILE)).toContain(`href="${DRAWING_FILE}"`);
    expect(sheetIndexHtml(plan, sheets, 'x')).not.toContain(DRAWING_FILE);
  });
});

it('the plans tell the region of each piece, as the sheets name it', () => {
  const plan = planOf('fixtures/harbour/harbour');
  const text = writePlanText(plan);
  const markdown = writePlanMarkdown(plan);
  for (const { id, region } of plan.pieces) {
    const name = plan.relief.map.regions[region].id;
    expect(text).toMatch(new RegExp(`^${id} +${name} `, 'm'));
    expect(markdown).toContain(`| ${id} | ${name} |`);
    expect(writeDrawing(plan)).toContain(`>${id} ${name}<`);
  }
});
