import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatOfName, isSealed, seal } from '../../src/cli/seal.js';

const texts = {
  svg: '<svg xmlns="http://www.w3.org/2000/svg"/>\n',
  html: '<!doctype html><title>x</title>\n',
  markdown: '# Plan\n',
  json: '{\n  "a": 1\n}\n',
  text: 'Pass 4\n',
} as const;

it.each(Object.entries(texts))('knows its own unchanged %s again', (format, text) => {
  const sealed = seal(text, format as keyof typeof texts);
  expect(isSealed(sealed)).toBe(true);
  expect(isSealed(text)).toBe(false);
  expect(isSealed(sealed.replace('plystep:', 'plystep:f'))).toBe(false);
});

it('keeps JSON valid, and an empty object too', () => {
  expect(JSON.parse(seal('{"a":1}', 'json'))).toMatchObject({
    a: 1,
    seal: expect.stringMatching(/^plystep:/),
  });
  expect(JSON.parse(seal('{}', 'json'))).toHaveProperty('seal');
});

it('notices any change of one character', () => {
  fc.assert(
    fc.property(fc.string(), fc.nat(), fc.string({ minLength: 1, maxLength: 1 }), (text, at, char) => {
      const sealed = seal(text, 'text');
      expect(isSealed(sealed)).toBe(true);
      const place = at % sealed.length;
      const changed = sealed.slice(0, place) + char + sealed.slice(place + 1);
      expect(isSealed(changed)).toBe(changed === sealed);
    }),
  );
});

it('tells the format by the ending', () => {
  expect(['a.svg', 'b.HTML', 'c.md', 'd.json', 'e.txt', 'f'].map(formatOfName)).toEqual([
    'svg',
    'html',
    'markdown',
    'json',
    'text',
    'text',
  ]);
});
