import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { boxes, rules, svg } from './pages.js';

const RECT = '<rect width="9" height="9"/>';

describe('entities', () => {
  const withDoctype = (subset: string, content: string): string =>
    `<?xml version="1.0"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd" [${subset}]>\n${svg(content)}`;
  test.each([
    ['in an attribute', '<!ENTITY w "9">', '<rect width="&w;" height="&w;"/>'],
    ['in quotes of the other kind', "<!ENTITY w '9'>", '<rect width="&w;" height="9"/>'],
    ['of an entity', '<!ENTITY a "9"><!ENTITY w "&a;">', '<rect width="&w;" height="9"/>'],
    ['of a character', '<!ENTITY w "&#x39;">', '<rect width="&w;" height="9"/>'],
    ['the first declaration counts', '<!ENTITY w "9"><!ENTITY w "5">', '<rect width="&w;" height="9"/>'],
    ['after a comment', '<!-- <!ENTITY w "5"> -->\n<!ENTITY w "9">', '<rect width="&w;" height="9"/>'],
    ['for elements', `<!ENTITY r '${RECT}'>`, '<g>&r;</g>'],
    ['for elements among text', `<!ENTITY r '${RECT}'>`, '<g>x &r; y</g>'],
    ['for elements in entities', `<!ENTITY r '${RECT}'><!ENTITY s '<g>&r;</g>'>`, '&s;'],
    [
      'as namespace',
      '<!ENTITY ns "urn:editor"><!ENTITY w "9">',
      '<g xmlns:e="&ns;"><rect width="&w;" height="9"/></g>',
    ],
  ])('%s', (_, subset, content) => {
    expect(boxes(readDrawing(withDoctype(subset, content)))).toEqual([[0, 0, 9, 9]]);
  });
  test.each([
    ['<!ENTITY x SYSTEM "file:///etc/passwd">', '<text x="5" y="50">a&x;b</text>'],
    ['<!ENTITY x PUBLIC "a" "http://example.org/">', '<text x="5" y="50">a&x;b</text>'],
    ['<!ENTITY % x SYSTEM "http://example.org/">%x;', '<text x="5" y="50">ab</text>'],
  ])('nothing outside is read: %s', (subset, content) => {
    const drawing = readDrawing(withDoctype(subset, content));
    expect(drawing.labels.map((label) => label.text)).toEqual(['ab']);
    expect(rules(drawing)).toContain('external-ignored');
  });
});

describe('small faults are repaired, with a finding', () => {
  test.each([
    ['a blank line before the declaration', `\n<?xml version="1.0"?>${svg(RECT)}`],
    ['an unknown entity', svg(`<desc>a&nbsp;b</desc>${RECT}`)],
    ['an attribute twice', svg('<rect width="9" height="9" height="9"/>')],
    ['text after the end', `${svg(RECT)}\nbye`],
    ['a second root', `${svg(RECT)}${svg(RECT)}`],
    ['a control character', svg(`<desc>\u0001</desc>${RECT}`)],
    ['a < in an attribute', svg(`<desc title="a<b"/>${RECT}`)],
    ['no quotes', svg('<rect width=9 height="9"/>')],
  ])('%s', (_, text) => {
    const drawing = readDrawing(text);
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(rules(drawing)).toContain('xml-repaired');
  });
  test.each([
    ['a mark at the start', `\uFEFF${svg(RECT)}`],
    ['no namespace', svg(RECT).replace(' xmlns="http://www.w3.org/2000/svg"', '')],
    [
      'a prefix',
      `<s:svg xmlns:s="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><s:rect width="9" height="9"/></s:svg>`,
    ],
    ['names like those of objects', svg(`<g constructor="x" __proto__="y" toString="z">${RECT}</g>`)],
    ['a prefix that nothing declares', svg('<g x:label="a"><rect width="9" height="9" y:z="1"/></g>')],
  ])('%s is no fault', (_, text) => {
    const drawing = readDrawing(text);
    expect(boxes(drawing)).toEqual([[0, 0, 9, 9]]);
    expect(rules(drawing)).toEqual([]);
  });
});

describe('places', () => {
  test.each(['\n', '\r\n', '\r'])('lines end by %j', (end) => {
    const text = `<?xml version="1.0"?>${end}${svg(`${end}  <g>${end}\t<rect${end} id="a" width="9"${end} height="9"/></g>`)}`;
    expect(readDrawing(text).shapes[0].source).toEqual({ line: 4, column: 2, element: 'rect#a' });
  });
  test('errors of XML name line and column', () => {
    const text = `<svg xmlns="http://www.w3.org/2000/svg">\n<g>\n</h></svg>`;
    expect(() => readDrawing(text)).toThrow(/line 3, column 5/);
  });
});
