import { describe, expect, test } from 'vitest';
import { boxes, boxOf, read, rules } from './pages.js';

const STROKE = 'fill="none" stroke="black"';

describe('basic shapes', () => {
  test.each([
    ['rect', '<rect x="1" y="2" width="3" height="4"/>', [1, 2, 4, 6], 4],
    ['rect with one radius', '<rect x="10" y="10" width="30" height="20" rx="5"/>', [10, 10, 40, 30], 8],
    [
      'rect with radii beyond half its sides',
      '<rect x="10" y="10" width="30" height="20" rx="50" ry="50"/>',
      [10, 10, 40, 30],
      4,
    ],
    ['circle', '<circle cx="10" cy="20" r="5"/>', [5, 15, 15, 25], 4],
    ['ellipse', '<ellipse cx="10" cy="20" rx="5" ry="2"/>', [5, 18, 15, 22], 4],
    ['ellipse with one radius', '<ellipse cx="10" cy="20" rx="5"/>', [5, 15, 15, 25], 4],
    ['line', '<line x1="1" y1="2" x2="5" y2="3"/>', [1, 2, 5, 3], 1],
    ['polyline', '<polyline points="1,2 5,3 5,9"/>', [1, 2, 5, 9], 2],
    ['polyline with an odd number', '<polyline points="1,2 5,3 5"/>', [1, 2, 5, 3], 1],
    ['polygon', '<polygon points="1,2 5,3 5,9"/>', [1, 2, 5, 9], 3],
    ['path', '<path d="M1 2h4v7z"/>', [1, 2, 5, 9], 3],
  ])('%s', (_, element, box, curves) => {
    const { shapes } = read(element.replace('/>', ` ${STROKE}/>`));
    expect(shapes).toHaveLength(1);
    expect(boxOf(shapes[0])).toEqual(box);
    expect(shapes[0].subpaths.flatMap((subpath) => subpath.curves)).toHaveLength(curves);
  });

  test.each([
    ['rect without height', '<rect width="3"/>'],
    ['circle without radius', '<circle cx="3" cy="3"/>'],
    ['empty path', '<path d=""/>'],
    ['path without data', '<path/>'],
    ['single move', '<path d="M1 1"/>'],
    ['line of no length', '<line x1="3" y1="3" x2="3" y2="3"/>'],
    ['polyline of one point', '<polyline points="3 3"/>'],
  ])('%s draws nothing', (_, element) => {
    expect(read(element.replace('/>', ` ${STROKE}/>`)).shapes).toEqual([]);
  });

  test('curves stay curves', () => {
    const { shapes } = read(`<path d="M0 50q5 5 10 0c2 1 3 1 4 0a3 2 30 0 1 6 0l10 0" ${STROKE}/>`);
    expect(shapes[0].subpaths[0].curves.map((curve) => curve.kind)).toEqual([
      'quadratic',
      'cubic',
      'arc',
      'line',
    ]);
  });

  test('consecutive curves share their ends to the last bit', () => {
    const { shapes } = read(
      `<g transform="rotate(17) scale(1.3 .7)"><path d="M20 5q.1.2.3.4t.7.1c.1 0 .2.1.3.3s.2.1.5.2a3 1.7 20 0 1 2 .1h1.1v.3z" ${STROKE}/></g>`,
    );
    const { curves } = shapes[0].subpaths[0];
    for (const [i, curve] of curves.entries()) expect(curve.to).toEqual(curves[(i + 1) % curves.length].from);
  });
});

describe('path data', () => {
  const draw = (d: string) => read(`<path d="${d}" ${STROKE}/>`);
  test('a fault: drawn up to it, and told', () => {
    const drawing = draw('M1 1L5 1L5 5L9 x');
    expect(boxes(drawing)).toEqual([[1, 1, 5, 5]]);
    const [found] = drawing.findings.filter((finding) => finding.rule === 'path-fault');
    expect(found.message).toMatch(/index 15/);
    expect(found.source).toEqual({ line: 1, column: 92, element: 'path' });
  });
  test.each([
    ['arc flags run together', 'M10 10a5 5 0 0110 0', 'M10 10a5 5 0 0 1 10 0'],
    ['negative radii', 'M10 10a-5-5 0 0 1 10 0', 'M10 10a5 5 0 0 1 10 0'],
    ['zero radius', 'M10 10a0 5 0 0 1 10 0', 'M10 10h10'],
    ['an arc to where it starts', 'M10 10a5 5 0 0 1 0 0h5', 'M10 10h5'],
    ['radii too small', 'M10 10a1 1 0 0 1 10 0', 'M10 10a5 5 0 0 1 10 0'],
    ['leading zeros', 'M010 010H0020', 'M10 10H20'],
    ['lines after a move', 'M10 10 20 10 20 20', 'M10 10L20 10L20 20'],
    ['after Z the subpath begins where the last one did', 'M10 10h5v5zh-5', 'M10 10h5v5zM10 10h-5'],
    ['relative move after Z', 'M10 10h5v5zm1 1h2', 'M10 10h5v5zM11 11h2'],
    ['smooth without a curve before', 'M10 10S20 20 30 10', 'M10 10C10 10 20 20 30 10'],
    [
      'smooth quadratics in a row',
      'M10 10Q15 20 20 10T30 10T40 10',
      'M10 10Q15 20 20 10Q25 0 30 10Q35 20 40 10',
    ],
  ])('%s', (_, one, other) => {
    const [a, b] = [draw(one), draw(other)];
    expect(rules(a)).not.toContain('path-fault');
    expect(a.shapes.map((s) => s.subpaths)).toEqual(b.shapes.map((s) => s.subpaths));
  });
  test.each(['5 5L9 9', 'L9 9', 'M', 'M1', 'M1 1L', 'M1 1L2,,3', 'M1 1Z5 5', 'M1 1A5 5 0 2 1 9 9'])(
    '%s is a fault',
    (d) => {
      expect(rules(draw(d))).toContain('path-fault');
    },
  );
  test('a closing miss by rounding is no line', () => {
    const { shapes } = draw(`M.1.1${'l.1.2'.repeat(30)}${'l-.1-.2'.repeat(30)}z`);
    expect(shapes[0].subpaths[0].curves).toHaveLength(60);
    expect(shapes[0].subpaths[0].curves[59].to).toEqual([0.1, 0.1]);
  });
});

describe('what is visible', () => {
  test.each([
    ['fill only', '<rect width="9" height="9" fill="red"/>', 1],
    ['black fill by default', '<rect width="9" height="9"/>', 1],
    ['no fill, no stroke', '<rect width="9" height="9" fill="none"/>', 0],
    ['stroke of no width', '<rect width="9" height="9" fill="none" stroke="red" stroke-width="0"/>', 0],
    ['transparent stroke', '<rect width="9" height="9" fill="none" stroke="rgb(255 0 0 / 0%)"/>', 0],
    ['opacity 0', '<rect width="9" height="9" opacity="0"/>', 0],
    ['opacity 0 around', '<g opacity="0"><rect width="9" height="9"/></g>', 0],
    ['fill-opacity 0', '<rect width="9" height="9" fill-opacity="0"/>', 0],
    ['display none', '<g display="none"><rect width="9" height="9"/></g>', 0],
    ['hidden', '<g visibility="hidden"><rect width="9" height="9"/></g>', 0],
    ['visible in hidden', '<g visibility="hidden"><rect width="9" height="9" visibility="visible"/></g>', 1],
    ['a filled line', '<line x2="9" y2="9" fill="red"/>', 0],
    ['a filled bare line', '<path d="M0 0L9 9"/>', 0],
    ['in defs', '<defs><rect width="9" height="9"/></defs>', 0],
    ['flattened by its transform', '<rect width="9" height="9" transform="scale(0 1)"/>', 0],
    [
      'a gradient',
      '<linearGradient id="g"><stop stop-color="red"/></linearGradient><rect width="9" height="9" fill="url(#g)"/>',
      1,
    ],
    ['a gradient without stops', '<linearGradient id="g"/><rect width="9" height="9" fill="url(#g)"/>', 0],
    ['a missing paint', '<rect width="9" height="9" fill="url(#g)"/>', 0],
    ['a missing paint with a fallback', '<rect width="9" height="9" fill="url(#g) red"/>', 1],
  ])('%s', (_, content, count) => {
    expect(read(content).shapes).toHaveLength(count);
  });

  test('filled open lines show closed, stroked ones do not', () => {
    const [filled, stroked] = read(
      '<path d="M10 10H20V20" fill="red"/><path d="M10 10H20V20" fill="white" stroke="black"/>',
    ).shapes;
    expect(filled.subpaths[0].curves).toHaveLength(3);
    expect(filled.cover).toBeUndefined();
    expect(filled.fillOnly).toBe(true);
    expect(stroked.subpaths[0].curves).toHaveLength(2);
    expect(stroked.cover?.[0].curves).toHaveLength(3);
    expect(stroked.fillOnly).toBeUndefined();
  });

  test.each([
    ['opaque', 'fill="red"', {}, true],
    ['half-transparent', 'fill="red" fill-opacity=".5"', {}, false],
    [
      'half-transparent, by choice',
      'fill="red" fill-opacity=".5"',
      { translucentFills: 'hide' as const },
      true,
    ],
    ['half-transparent by its colour', 'fill="#ff000080"', {}, false],
    ['none', 'fill="none" stroke="red"', {}, false],
    ['add-on', 'fill="red" data-depth="+1"', {}, false],
  ])('%s fill hides: %s', (_, attributes, options, hides) => {
    expect(read(`<circle cx="50" cy="50" r="9" ${attributes}/>`, options).shapes[0].hides).toBe(hides);
  });

  test('a gradient in units far smaller than a millimetre', () => {
    const fine =
      '<linearGradient id="g"><stop stop-color="red"/></linearGradient><rect width="50000" height="50000" fill="url(#g)"/>';
    const drawing = read(`<g transform="scale(.001)">${fine}</g>`);
    expect(boxes(drawing)).toEqual([[0, 0, 50, 50]]);
    expect(rules(drawing)).toEqual([]);
  });

  test('a note counts translucent fills', () => {
    const drawing = read(
      '<g opacity=".5"><circle cx="50" cy="50" r="9"/><circle cx="50" cy="50" r="5"/></g>',
    );
    expect(drawing.findings.find((finding) => finding.rule === 'translucent-fill')?.message).toMatch(
      /^2 fills/,
    );
    expect(drawing.shapes.map((shape) => shape.fill?.opacity)).toEqual([0.5, 0.5]);
  });
});

describe('dashes', () => {
  const dashed = '<path d="M0 0H50" stroke="red" stroke-dasharray="2 1"/>';
  test.each([
    ['vein', 'detail', 'vein'],
    ['fold', 'detail', 'fold'],
    ['cut', 'cut', undefined],
  ] as const)('read as %s', (choice, use, mark) => {
    const drawing = read(dashed, { dashed: choice });
    expect([drawing.shapes[0].use, drawing.shapes[0].mark]).toEqual([use, mark]);
    expect(rules(drawing).includes('dashed-line')).toBe(choice !== 'cut');
  });
  test.each([
    ['no gaps', '2 0', 'cut'],
    ['none', 'none', 'cut'],
    ['negative', '2 -1', 'cut'],
    ['longer than the line', '60', 'cut'],
    ['shorter than the line', '20', 'detail'],
    ['percentages', '1% 1%', 'detail'],
  ])('%s', (_, pattern, use) => {
    expect(read(dashed.replace('2 1', pattern)).shapes[0].use).toBe(use);
  });
  test('pathLength scales the pattern', () => {
    expect(read('<path d="M0 0H50" pathLength="1" stroke="red" stroke-dasharray="1"/>').shapes[0].use).toBe(
      'cut',
    );
    expect(read('<path d="M0 0H50" pathLength="1" stroke="red" stroke-dasharray=".5"/>').shapes[0].use).toBe(
      'detail',
    );
  });
});
