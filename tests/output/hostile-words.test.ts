import { expect, it } from 'vitest';
import { describeFindings } from '../../src/cli/describe-findings.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { checkReport } from '../../src/output/check-json.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { planReport } from '../../src/output/plan-json.js';
import { escapeMarkdown, writePlanMarkdown } from '../../src/output/plan-markdown.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { regionsReport } from '../../src/output/regions-json.js';
import { sheetIndex, sheetIndexHtml } from '../../src/output/sheet-index.js';
import { visibleText, visibleTexts } from '../../src/output/visible-text.js';
import { writeDrawing } from '../../src/output/write-drawing.js';
import { writeOverview } from '../../src/output/write-overview.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';

const svg = (name: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40"><rect id="${name}" x="5" y="5" width="30" height="30" fill="none" stroke="black"/></svg>`;

it('keeps marks that turn text out of names', () => {
  const [shape] = readDrawing(svg('a\u202eb\u2066c\u2069')).shapes;
  expect(shape.names).toEqual(['abc']);
});

const HIDDEN = '\u202e\u2066\u2069\u200e\u061c\u200b\u2060\ufeff\u00ad\u001b\u009b\u{e0041}\u2028';
const UNSEEN = /[\p{Bidi_Control}\u200b\u2060\ufeff\u00ad\p{Cc}\u{e0041}\u2028]/u;

it('writes no text of a caller with marks that turn it, or that nobody sees', () => {
  const evil = `a${HIDDEN}b`;
  const drawing = readDrawing(svg('box'));
  const stack = parseStack('2x 3 mm birch').sheets.map((sheet) => ({ ...sheet, material: evil, face: evil }));
  const relief = buildRelief(mapRegions(drawing), {
    stack: { sheets: stack },
    numbers: [{ region: 'r1', depth: 2, name: evil }],
  });
  const plan = planCuts(relief);
  const finding = { rule: 'x', level: 'error', message: evil, fix: evil, regions: [], at: null } as const;
  const sheets = writeSheets(plan, { title: evil });
  const files = [{ file: evil, what: evil }];
  const options = { title: evil, findings: [finding] };
  const written: Readonly<Record<string, string>> = {
    html: writePlanHtml(plan, options),
    markdown: writePlanMarkdown(plan, options),
    text: writePlanText(plan, options),
    json: JSON.stringify(planReport(plan, [finding])),
    regions: JSON.stringify(regionsReport(relief, [finding])),
    check: JSON.stringify(checkReport([{ file: evil, findings: [finding], regions: 1 }])),
    overview: writeOverview(plan, { title: evil }),
    drawing: writeDrawing(plan, evil),
    sheet: sheets[0].svg,
    index: JSON.stringify(sheetIndex(plan, sheets, files)),
    indexHtml: sheetIndexHtml(plan, sheets, evil, files),
    findings: describeFindings('f', [finding]),
  };
  for (const [name, text] of Object.entries(written)) {
    expect(UNSEEN.exec(text.replace(/[\n\r\t]/g, ''))?.index, name).toBeUndefined();
    expect(text, name).toMatch(/a ?\ufffd* ?b/);
  }
});

it('keeps what letters are written with', () => {
  const words = 'می\u200cخواهم, 👩\u200d🔧, ❤\ufe0f, é, 雪';
  expect(visibleText(words)).toBe(words);
  expect(visibleText('a\u2028b\tc\nd')).toBe('a b\tc\nd');
});

it('gives data back as it is where all can be seen', () => {
  const data = { a: [1, 'x', null], b: { c: 'y' } };
  expect(visibleTexts(data)).toBe(data);
  expect(visibleTexts({ ...data, d: 'a\u200bb' })).toEqual({ ...data, d: 'ab' });
});

it('makes no links of addresses in Markdown', () => {
  const text = escapeMarkdown('see https://a.example/x, www.b.example and c@d.example');
  expect(text).toBe('see https\\://a.example/x, www\\.b.example and c\\@d.example');
});

it('tells a number that cannot be used from one that is missing', () => {
  const map = mapRegions(readDrawing(svg('a')));
  const stack = parseStack('2x 3 mm birch');
  const wrong = writeOverview(buildRelief(map, { stack, numbers: [{ region: 'r1', depth: -2 }] }));
  expect(wrong).toContain('number that cannot be used (1)');
  expect(wrong).not.toContain('no number yet');
  expect(writeOverview(buildRelief(map, { stack }))).toContain('no number yet (1)');
});
