import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { PlystepError } from '../../src/error.js';
import { boxes, boxOf, read, rounded, rules, svg } from './pages.js';

const LINE = '<path d="M0 0L10 20" stroke="red"/>';
const root = (attributes: string, content = LINE): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${content}</svg>`;
const sizeOf = (text: string, options = {}): number[] => {
  const { page } = readDrawing(text, options);
  return rounded([page.x, page.y, page.width, page.height]);
};

describe('size', () => {
  // CSS Values and Units: 1 in = 25.4 mm = 96 px, 1 pc = 1/6 in, 1 pt = 1/72 in, 1 Q = 1/4 mm.
  test.each([
    ['mm', 50],
    ['cm', 500],
    ['in', 1270],
    ['pt', (50 * 25.4) / 72],
    ['pc', (50 * 25.4) / 6],
    ['px', (50 * 25.4) / 96],
    ['Q', 12.5],
    ['', (50 * 25.4) / 96],
  ])('unit "%s"', (unit, mm) => {
    expect(sizeOf(root(`width="50${unit}" height="50${unit}" viewBox="0 0 10 20"`))).toEqual(
      rounded([0, 0, mm, mm]),
    );
    const drawing = readDrawing(
      root(`width="2000mm" height="2000mm"`, `<rect width="50${unit}" height="1" fill="red"/>`),
    );
    expect(boxOf(drawing.shapes[0])[2]).toBeCloseTo(mm, 6);
  });
  test.each([90, 72])('%i units an inch', (unitsPerInch) => {
    const text = root('width="90" height="180"');
    expect(sizeOf(text, { unitsPerInch })).toEqual(
      rounded([0, 0, (90 / unitsPerInch) * 25.4, (180 / unitsPerInch) * 25.4]),
    );
    // A millimetre stays one whatever a pixel is.
    const physical = root('width="100mm" height="100mm"', '<rect width="10mm" height="10mm"/>');
    expect(boxes(readDrawing(physical, { unitsPerInch }))).toEqual([[0, 0, 10, 10]]);
  });
  test('a missing size is a note with the assumption', () => {
    const drawing = readDrawing(root('viewBox="0 0 960 480"'));
    expect(drawing.page).toEqual({ x: 0, y: 0, width: 254, height: 127 });
    const found = drawing.findings.find((finding) => finding.rule === 'size-assumed');
    expect(found?.level).toBe('note');
    expect(found?.message).toContain('254 × 127 mm');
    expect(rules(read(LINE))).not.toContain('size-assumed');
  });
  test('one side is enough', () => {
    expect(sizeOf(root('width="50mm" viewBox="0 0 10 20"'))).toEqual([0, 0, 50, 100]);
    expect(sizeOf(root('height="50mm" viewBox="0 0 10 20"'))).toEqual([0, 0, 25, 50]);
    expect(sizeOf(root('width="100%" height="50mm" viewBox="0 0 10 20"'))).toEqual([0, 0, 25, 50]);
  });
  test('without any size the lines are the page', () => {
    const text = root('', '<path d="M96 192H192V384" stroke="red"/>');
    expect(sizeOf(text)).toEqual(rounded([25.4, 50.8, 25.4, 50.8]));
    expect(sizeOf(text, { scaleTo: { width: 10 } })).toEqual([10, 20, 10, 20]);
  });
  test.each([
    ['xMidYMid meet', [45, 0, 55, 20]],
    ['xMinYMid', [0, 0, 10, 20]],
    ['xMaxYMid', [90, 0, 100, 20]],
    ['none', [0, 0, 100, 20]],
  ])('preserveAspectRatio %s', (aspect, box) => {
    const text = root(`width="100mm" height="20mm" viewBox="0 0 10 20" preserveAspectRatio="${aspect}"`);
    expect(boxes(readDrawing(text))).toEqual([box]);
  });
  test.each([
    [{ factor: 2 }, [200, 200], [0, 0, 20, 40]],
    [{ width: 50 }, [50, 50], [0, 0, 5, 10]],
    [{ height: 1000 }, [1000, 1000], [0, 0, 100, 200]],
  ])('scaleTo %o', (scaleTo, size, box) => {
    const drawing = read(LINE, { scaleTo });
    expect([drawing.page.width, drawing.page.height]).toEqual(size);
    expect(boxes(drawing)).toEqual([box]);
  });
  test.each(['viewBox="0 0 0 10" width="5mm"', 'width="0" height="5mm"'])(
    '%s shows nothing',
    (attributes) => {
      const drawing = readDrawing(root(attributes));
      expect(drawing.shapes).toEqual([]);
      expect(rules(drawing)).toContain('no-lines');
    },
  );
  test.each([
    ['width="-5mm" height="5mm"', 'size-fault'],
    ['width="5furlong" height="5mm"', 'unit-unknown'],
    ['width="wide" height="5mm"', 'size-fault'],
    ['viewBox="0 0 10" width="5mm" height="5mm"', 'size-fault'],
    ['viewBox="0 0 -10 10" width="5mm" height="5mm"', 'size-fault'],
    ['width="1e9mm" height="5mm"', 'size-fault'],
    ['viewBox="0 0 1 1e9" width="5mm"', 'size-fault'],
  ])('%s: %s', (attributes, rule) => {
    expect(rules(readDrawing(root(attributes)))).toContain(rule);
  });
});

describe('edge of the page', () => {
  const over =
    '<path d="M50 50H150" stroke="red"/><path d="M10 120H90" stroke="red"/><path d="M10 100H90" stroke="red"/>';
  test('what lies beyond cannot be seen', () => {
    const drawing = read(over);
    expect(boxes(drawing)).toEqual([
      [50, 50, 100, 50],
      [10, 100, 90, 100],
    ]);
    expect(rules(drawing).filter((rule) => rule === 'outside-page')).toHaveLength(2);
  });
  test('or is kept, by option or overflow', () => {
    expect(boxes(read(over, { outsidePage: 'keep' }))).toHaveLength(3);
    expect(boxes(readDrawing(svg(over, ' overflow="visible"')))).toHaveLength(3);
  });
  test('a fill over the edge covers up to it', () => {
    const [shape] = read('<circle cx="100" cy="50" r="10" fill="red"/>').shapes;
    expect(boxOf(shape)).toEqual([90, 40, 100, 60]);
    expect(shape.subpaths.every((subpath) => !subpath.closed)).toBe(true);
    expect(shape.cover?.map((subpath) => [subpath.closed, subpath.curves.at(-1)?.to])).toEqual([
      [true, shape.cover?.[0].curves[0].from],
    ]);
  });
});

describe('background', () => {
  const page = '<rect width="100%" height="100%" fill="#fff"/>';
  test('is recognised, and is a frame', () => {
    const drawing = read(page + LINE);
    expect(drawing.shapes.map((shape) => shape.background)).toEqual([true, false]);
    expect(rules(drawing)).toContain('background');
  });
  test('or is dropped', () => {
    expect(read(page + LINE, { background: 'drop' }).shapes.map((shape) => shape.background)).toEqual([
      false,
    ]);
  });
  test('one beyond the page ends with it', () => {
    const [shape] = read('<path d="M-9-9H120V130H-9Z" fill="#fff"/>').shapes;
    expect([shape.background, boxOf(shape)]).toEqual([true, [0, 0, 100, 100]]);
  });
  test.each([
    ['not first', `${LINE}${page}`],
    ['not filled', '<rect width="100" height="100" fill="none" stroke="red"/>'],
    ['not all over', '<rect width="99" height="100"/>'],
    ['not a rectangle', '<circle cx="50" cy="50" r="60"/>'],
  ])('%s is no background', (_, content) => {
    expect(read(content).shapes.some((shape) => shape.background)).toBe(false);
  });
});

describe('errors', () => {
  const codeOf = (body: () => unknown): string => {
    try {
      body();
    } catch (error) {
      if (error instanceof PlystepError) return error.code;
      throw error;
    }
    return 'none';
  };
  test.each([
    ['', 'not-xml'],
    ['hello', 'not-xml'],
    ['\u0089PNG\r\n\u001a\n\0\0\0\rIHDR', 'not-xml'],
    [svg(LINE).slice(0, 120), 'not-xml'],
    [svg(LINE).replace('</svg>', ''), 'not-xml'],
    [svg(`<g>${LINE}`), 'not-xml'],
    ['<html><body/></html>', 'not-svg'],
    ['<drawing xmlns="http://www.w3.org/2000/svg"/>', 'not-svg'],
    ['<svg xmlns="urn:other"/>', 'not-svg'],
  ])('%j', (text, code) => {
    expect(codeOf(() => readDrawing(text))).toBe(code);
  });
  test('a cut-off file says where', () => {
    const message = /ends inside <g> \(opened in line 2\)/;
    expect(() => readDrawing('<svg xmlns="http://www.w3.org/2000/svg">\n<g>\n<path d="M0 0"/>')).toThrow(
      message,
    );
  });
  test.each([
    { unitsPerInch: 0 },
    { unitsPerInch: Number.NaN },
    { scaleTo: { width: -1 } },
    { scaleTo: {} as { width: number } },
    { dashed: 'score' as 'vein' },
    { exclude: 'layer' as unknown as string[] },
    { limits: { depth: -1 } },
  ])('option %o', (options) => {
    expect(codeOf(() => read(LINE, options))).toBe('bad-option');
  });
  test('nothing to cut', () => {
    const drawing = read('<text x="5" y="50">3</text>');
    expect(drawing.findings.find((finding) => finding.rule === 'no-lines')?.level).toBe('error');
  });
});
