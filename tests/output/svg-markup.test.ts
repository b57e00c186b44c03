import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { expect, it } from 'vitest';
import { element, escapeXml, svgNumber, textElement } from '../../src/output/svg-markup.js';

it('writes numbers short, without exponent and without negative zero', () => {
  expect([1, -0, -0.00001, 1e-7, 12.5, 0.12345, 100, 1234567.5].map((n) => svgNumber(n))).toEqual([
    '1',
    '0',
    '0',
    '0',
    '12.5',
    '0.1235',
    '100',
    '1234567.5',
  ]);
});

it('keeps any text inside its element and its attribute', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      const markup = `<svg>${textElement(0, 0, text, { 'data-name': text })}</svg>`;
      const opened: string[] = [];
      let content = '';
      const parser = new SaxesParser();
      parser.on('error', (error) => {
        throw error;
      });
      parser.on('opentag', (tag) => opened.push(tag.name));
      parser.on('text', (part) => {
        content += part;
      });
      parser.write(markup).close();
      expect(opened).toEqual(['svg', 'text']);
      if (/^[\w <>&"']*$/.test(text)) expect(content).toBe(text);
    }),
  );
});

it('drops marks that would reorder what a reader sees', () => {
  expect(escapeXml('a\u202eb')).toBe('ab');
});

it('leaves undefined attributes out', () => {
  expect(element('path', { d: 'M0 0', id: undefined })).toBe('<path d="M0 0"/>');
});
