import { describe, expect, test } from 'vitest';
import { decodeDrawing } from '../../src/drawing/decode-drawing.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { PlystepError } from '../../src/error.js';
import { svg } from './pages.js';

const TEXT = svg('<text x="5" y="50">Möwe – 3</text>');
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function utf16(text: string, big: boolean, mark: boolean): Uint8Array {
  const units = [...(mark ? '\uFEFF' : ''), ...text].join('');
  const bytes = new Uint8Array(units.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < units.length; i++) view.setUint16(2 * i, units.charCodeAt(i), !big);
  return bytes;
}

/** ISO-8859-1: one byte for each of the first 256 characters. */
function latin1(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}

const declared = (encoding: string): string => `<?xml version="1.0" encoding="${encoding}"?>\n${TEXT}`;

describe('decodeDrawing', () => {
  test.each([
    ['UTF-8', utf8(TEXT)],
    ['UTF-8 with a mark', utf8(`\uFEFF${TEXT}`)],
    ['UTF-16 LE with a mark', utf16(TEXT, false, true)],
    ['UTF-16 BE with a mark', utf16(TEXT, true, true)],
    ['UTF-16 LE', utf16(TEXT, false, false)],
    ['UTF-16 BE', utf16(TEXT, true, false)],
    ['UTF-8 that says it is UTF-16', utf8(declared('UTF-16'))],
    ['UTF-8 that says it is ISO-8859-1', utf8(declared('ISO-8859-1'))],
    ['UTF-8 that says nonsense', utf8(declared('x-nonsense'))],
    ['UTF-16 that says it is UTF-8', utf16(declared('UTF-8'), false, true)],
  ])('%s', (_, bytes) => {
    expect(readDrawing(decodeDrawing(bytes)).labels.map((label) => label.text)).toEqual(['Möwe – 3']);
  });
  test.each(['ISO-8859-1', 'windows-1252', 'latin1'])('%s as declared', (encoding) => {
    const text = declared(encoding).replace('–', '-');
    expect(readDrawing(decodeDrawing(latin1(text))).labels[0].text).toBe('Möwe - 3');
  });
  test('the digest does not depend on the encoding', () => {
    const digests = [utf8(`\uFEFF${TEXT}`), utf16(TEXT, true, true)].map(
      (bytes) => readDrawing(decodeDrawing(bytes)).digest,
    );
    expect(new Set(digests).size).toBe(1);
  });
  test.each([
    ['no declaration', latin1(TEXT.replace('–', '-'))],
    ['declared as UTF-8', latin1(declared('UTF-8').replace('–', '-'))],
    ['an unknown encoding', latin1(declared('x-nonsense').replace('–', '-'))],
  ])('bytes of no known encoding: %s', (_, bytes) => {
    expect(() => decodeDrawing(bytes)).toThrow(PlystepError);
    expect(() => decodeDrawing(bytes)).toThrow(/Save it again as UTF-8/);
  });
  test.each([
    ['\x89PNG\r\n\x1a\n', 'a PNG picture'],
    ['\xff\xd8\xff\xe0', 'a JPEG picture'],
    ['GIF89a', 'a GIF picture'],
    ['RIFF1234WEBP', 'a picture'],
    ['II*\0', 'a TIFF picture'],
    ['MM\0*', 'a TIFF picture'],
    ['%PDF-1.7\n', 'a PDF document'],
    ['%!PS-Adobe', 'a PostScript document'],
    ['PK\x03\x04', 'a ZIP archive'],
    ['\x1f\x8b\x08', 'packed by gzip'],
  ])('%j under a false name', (start, what) => {
    const call = () => decodeDrawing(latin1(`${start}\0\xff more`));
    expect(call).toThrow(expect.objectContaining({ code: 'not-svg' }));
    expect(call).toThrow(`This is ${what}`);
    expect(call).toThrow(/, not an SVG drawing\. \w.*(SVG|first)/);
  });
  test('nothing', () => {
    expect(decodeDrawing(new Uint8Array())).toBe('');
  });
});
