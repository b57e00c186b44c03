import { expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { escapeMarkdown } from '../../src/output/plan-markdown.js';
import { writeOverview } from '../../src/output/write-overview.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';

const svg = (name: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40"><rect id="${name}" x="5" y="5" width="30" height="30" fill="none" stroke="black"/></svg>`;

it('keeps marks that turn text out of names', () => {
  const [shape] = readDrawing(svg('a\u202eb\u2066c\u2069')).shapes;
  expect(shape.names).toEqual(['abc']);
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
