import { describe, expect, it } from 'vitest';
import { checkRelief } from '../../src/checks/check-relief.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { ReadOptions } from '../../src/drawing/read-options.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { regionsReport } from '../../src/output/regions-json.js';
import { writeDrawing } from '../../src/output/write-drawing.js';
import { writeOverview } from '../../src/output/write-overview.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';

const jobOf = (line: string, options: ReadOptions = {}) => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g fill="none" stroke="#000"><rect x="10" y="10" width="80" height="80"/>${line}</g><text x="50" y="30" font-size="5">1</text></svg>`;
  const map = mapRegions(readDrawing(svg, options));
  const relief = buildRelief(map, { stack: parseStack('2x 3 mm birch') });
  const plan = planCuts(relief);
  const group = (document: string, id: string): string =>
    new RegExp(`<g id="${id}"[^>]*>(.*?)</g>`, 's').exec(document)?.[1] ?? '';
  const [front] = writeSheets(plan).map(({ svg: text }) => text);
  return {
    steps: plan.passes.flatMap(({ steps }) => steps.map(({ kind, length }) => ({ kind, length }))),
    vein: group(front, 'vein'),
    cut: group(front, 'cut'),
    fold: group(front, 'fold'),
    overview: { vein: group(writeOverview(plan), 'veins'), fold: group(writeOverview(plan), 'fold') },
    legend: writeOverview(plan),
    page: writePlanHtml(plan),
    drawing: group(writeDrawing(plan), 'fold'),
    veins: regionsReport(relief).veins,
    open: checkRelief(relief, plan).filter(({ rule }) => rule === 'open-line'),
  };
};

const DASHED = '<path d="M20 50h60" stroke-dasharray="4 2"/>';

describe('a dashed line in a piece', () => {
  const dashed = jobOf(DASHED);
  const unbroken = jobOf('<path d="M20 50h60"/>');

  it('is sawn and shown as an unbroken one that bounds nothing', () => {
    expect(dashed.steps).toContainEqual({ kind: 'vein', length: 60 });
    const { open, ...rest } = dashed;
    const { open: told, ...same } = unbroken;
    expect([rest.drawing, rest.page.includes('Fold mark')]).toEqual(['', false]);
    expect(rest).toEqual(same);
    expect(rest.vein).toContain('M20 50');
    expect(rest.overview.vein).toContain('M20 50');
    expect(rest.veins).toEqual([{ region: 'r1', length: 60, path: expect.stringContaining('20 50') }]);
    expect([open.length, told.length]).toEqual([0, 1]);
  });

  it('is drawn and not sawn as a fold mark', () => {
    const fold = jobOf(DASHED, { dashed: 'fold' });
    expect(fold.steps.some(({ kind }) => kind === 'vein')).toBe(false);
    expect(fold.veins).toEqual([]);
    expect([fold.fold, fold.overview.fold]).toEqual([
      expect.stringContaining('M20 50'),
      expect.stringContaining('M20 50'),
    ]);
    expect(fold.legend).toContain('fold mark, not sawn');
    expect(fold.drawing).toContain('M20 50');
    expect(fold.page).toContain('Fold mark: dashed in grey on the drawing, to be seen, not sawn.');
    const trueSize = fold.page.slice(fold.page.indexOf('<g id="true-size">'));
    expect(/<g id="fold"[^>]*stroke-dasharray[^>]*>(.*?)<\/g>/s.exec(trueSize)?.[1]).toContain('M20 50');
    expect(dashed.legend).not.toContain('fold mark');
    expect([fold.vein, fold.cut.includes('M20 50')]).toEqual(['', false]);
  });
});
