import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { ReadLimits } from '../../src/drawing/read-options.js';
import { PlystepError } from '../../src/error.js';
import { svg } from './pages.js';

/** Runs `body`, which must throw the error for a limit; returns the message. */
function limitIn(body: () => unknown): string {
  try {
    body();
  } catch (error) {
    expect(error).toBeInstanceOf(PlystepError);
    expect((error as PlystepError).code).toBe('limit');
    return (error as PlystepError).message;
  }
  throw new Error('nothing was thrown');
}

/** Fewest milliseconds of two runs. */
function fastest(body: () => unknown): number {
  return Math.min(
    ...[1, 2].map(() => {
      const start = performance.now();
      body();
      return performance.now() - start;
    }),
  );
}

/** Far above what any of these takes (tens of ms), far below what quadratic time would. */
const SOON = 4_000;

function soon<T>(body: () => T): T {
  const start = performance.now();
  const result = body();
  expect(performance.now() - start).toBeLessThan(SOON);
  return result;
}

describe('limits are named in the error', () => {
  const line = '<path d="M0 0H9" stroke="red"/>';
  const cases: [keyof ReadLimits, number, string][] = [
    ['textLength', 100, svg(line.repeat(9))],
    ['depth', 50, svg('<g>'.repeat(60) + line + '</g>'.repeat(60))],
    ['elements', 50, svg(line.repeat(60))],
    ['attributes', 50, svg(`<g ${attributes(60)}>${line}</g>`)],
    ['drawnElements', 50, svg(line.repeat(60))],
    ['repeatedElements', 9, svg(`${uses(2, 5)}<use href="#u2"/>`)],
    ['useDepth', 3, svg(`${uses(5, 1)}<use href="#u5"/>`)],
    ['segments', 50, svg(`<path d="M0 0${'h1'.repeat(60)}" stroke="red"/>`)],
    ['characters', 50, svg(`<text x="5" y="5">${'word '.repeat(20)}</text>${line}`)],
    ['entities', 5, `<!DOCTYPE svg [${entities(9)}]>${svg(line)}`],
    ['entityLength', 100, `<!DOCTYPE svg [${entities(4)}]>${svg(`<text>&e3;</text>${line}`)}`],
    ['selectors', 5, svg(`<style>${'a,b{fill:red}'.repeat(5)}</style>${line}`)],
    ['selectorSteps', 50, svg(`<style>${'* path{fill:red}'.repeat(20)}</style>${line.repeat(9)}`)],
    [
      'clipSteps',
      50,
      svg(`<clipPath id="c">${'<circle r="9"/>'.repeat(9)}</clipPath><g clip-path="url(#c)">${line}</g>`),
    ],
  ];
  test.each(cases)('%s', (name, value, text) => {
    const message = limitIn(() => readDrawing(text, { limits: { [name]: value } }));
    expect(message).toContain(`limit "${name}" is ${value}`);
    expect(readDrawing(text).shapes.length).toBeGreaterThan(0);
  });

  test('coordinate: the shape is left out, the others are kept', () => {
    const drawing = readDrawing(svg(`<path d="M0 0H1e300" stroke="red"/>${line}`));
    expect(drawing.shapes).toHaveLength(1);
    const found = drawing.findings.find((finding) => finding.rule === 'out-of-range');
    expect(found?.message).toContain('limit "coordinate"');
    expect(found?.level).toBe('error');
  });

  test('findings: the rest is counted', () => {
    const drawing = readDrawing(svg('<image/>'.repeat(20) + line), { limits: { findings: 5 } });
    const found = drawing.findings.filter((finding) => finding.rule === 'element-ignored');
    expect(found).toHaveLength(6);
    expect(found[5].message).toContain('15 more');
  });
});

/** `u1` shows `fan` times `u0`, `u2` shows `fan` times `u1`, and so on. */
function uses(levels: number, fan: number): string {
  const groups = ['<path id="u0" d="M0 0H1" stroke="red"/>'];
  for (let i = 1; i <= levels; i++) {
    groups.push(`<g id="u${i}">${`<use href="#u${i - 1}"/>`.repeat(fan)}</g>`);
  }
  return `<defs>${groups.join('')}</defs><path d="M0 0H9" stroke="red"/>`;
}

/** `e1` is ten times `e0`, `e2` is ten times `e1`, and so on. */
function entities(levels: number): string {
  const list = ['<!ENTITY e0 "lol">'];
  for (let i = 1; i < levels; i++) list.push(`<!ENTITY e${i} "${`&e${i - 1};`.repeat(10)}">`);
  return list.join('');
}

function attributes(count: number): string {
  return Array.from({ length: count }, (_, i) => `a${i}="1"`).join(' ');
}

describe('bombs', () => {
  test('entities in entities', () => {
    const text = `<!DOCTYPE svg [${entities(200)}]>${svg('<text>&e199;</text>')}`;
    expect(limitIn(() => soon(() => readDrawing(text)))).toContain('entityLength');
  });
  test('one large entity, many times', () => {
    const text = `<!DOCTYPE svg [<!ENTITY a "${'x'.repeat(100_000)}">]>${svg(`<text>${'&a;'.repeat(100_000)}</text>`)}`;
    expect(limitIn(() => soon(() => readDrawing(text)))).toContain('entityLength');
  });
  test('an entity that is itself', () => {
    const text = `<!DOCTYPE svg [<!ENTITY a "x&b;"><!ENTITY b "y&a;">]>${svg('<text x="5" y="50">&a;</text>')}`;
    expect(soon(() => readDrawing(text)).labels).toHaveLength(1);
  });
  test('use of use of use', () => {
    const text = svg(`${uses(20, 10)}<use href="#u20"/>`);
    expect(limitIn(() => soon(() => readDrawing(text)))).toContain('repeatedElements');
    const limits = { drawnElements: 50_000, repeatedElements: 1e30 };
    expect(limitIn(() => soon(() => readDrawing(text, { limits })))).toContain('drawnElements');
  });
  test('use in a circle', () => {
    const drawing = readDrawing(
      svg('<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/><path d="M0 0H9" stroke="red"/></g>'),
    );
    expect(drawing.findings.some((finding) => finding.rule === 'reference-circular')).toBe(true);
    expect(drawing.shapes.length).toBeGreaterThan(0);
  });
  test('clip paths in a circle', () => {
    const drawing = readDrawing(
      svg(
        '<clipPath id="a" clip-path="url(#b)"><circle cx="50" cy="50" r="30"/></clipPath><clipPath id="b" clip-path="url(#a)"><circle cx="50" cy="50" r="20"/></clipPath><path clip-path="url(#a)" d="M0 50H100" stroke="red"/>',
      ),
    );
    expect(drawing.findings.some((finding) => finding.rule === 'reference-circular')).toBe(true);
  });
  test('100,000 levels', () => {
    const text = svg(`${'<g>'.repeat(100_000)}<path d="M0 0H9" stroke="red"/>${'</g>'.repeat(100_000)}`);
    expect(limitIn(() => soon(() => readDrawing(text)))).toContain('depth');
    expect(soon(() => readDrawing(text, { limits: { depth: 200_000 } })).shapes).toHaveLength(1);
  });
  test('a million attributes', () => {
    expect(readDrawing(svg(`<path d="M0 0H9" stroke="red" ${attributes(1_000_000)}/>`)).shapes).toHaveLength(
      1,
    );
  });
  test('100 MB of path data', () => {
    const path = (repeats: number): string => svg(`<path stroke="red" d="M0 0${'h1'.repeat(repeats)}"/>`);
    expect(limitIn(() => soon(() => readDrawing(path(50_000_000))))).toContain('textLength');
    expect(
      limitIn(() => soon(() => readDrawing(path(5_000_000), { limits: { segments: 100_000 } }))),
    ).toContain('segments');
  });
  test('brackets in brackets in a style', () => {
    const deep = '('.repeat(50_000);
    soon(() =>
      readDrawing(
        svg(
          `<style>a{fill:${deep}} ${':not('.repeat(10_000)} {x:y} @media ${deep}{}</style><path style="fill:${deep}" d="M0 0H9" stroke="red"/>`,
        ),
      ),
    );
  });
});

describe('numbers', () => {
  test.each(['NaN', 'Infinity', '-Infinity', '1e300', '-1e300', '1e999', '1e-300'])(
    '%s anywhere',
    (number) => {
      const names = [
        'x',
        'y',
        'width',
        'height',
        'rx',
        'cx',
        'r',
        'x1',
        'font-size',
        'stroke-width',
        'stroke-dasharray',
        'opacity',
      ];
      const attributes = names.map((name) => `${name}="${number}"`).join(' ');
      const inside = ['rect', 'circle', 'ellipse', 'line', 'text', 'svg', 'use', 'tspan', 'image']
        .map((name) => `<${name} ${attributes} stroke="red">1</${name}>`)
        .join('');
      const forms = [
        svg(
          `<path d="M0 0L${number} ${number}C${number} 1 2 ${number} 3 4" stroke="red"/>${inside}<path d="M1 1H9" stroke="red"/>`,
        ),
        svg(
          `<g transform="scale(${number}) translate(${number}) rotate(${number})">${inside}</g><path d="M1 1H9" stroke="red"/>`,
        ),
        `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${number} ${number}">${inside}<path d="M1 1H9" stroke="red"/></svg>`,
        `<svg xmlns="http://www.w3.org/2000/svg" viewBox="${number} ${number} 10 10" width="${number}mm" height="${number}">${inside}</svg>`,
        svg(
          `<svg viewBox="0 0 ${number} 1" width="${number}">${inside}</svg><clipPath id="c"><rect ${attributes}/></clipPath><path clip-path="url(#c)" d="M1 1H9" stroke="red"/>`,
        ),
      ];
      for (const text of forms) {
        const drawing = soon(() => readDrawing(text));
        expect(numbersOf(drawing).every((value) => Number.isFinite(value) && Math.abs(value) <= 16_000)).toBe(
          true,
        );
      }
    },
  );
});

/** All numbers anywhere in plain data. */
function numbersOf(data: unknown): number[] {
  if (typeof data === 'number') return [data];
  if (Array.isArray(data)) return data.flatMap(numbersOf);
  if (data === null || typeof data !== 'object') return [];
  // Places in the file may be larger than a page.
  return Object.entries(data).flatMap(([name, value]) => (name === 'source' ? [] : numbersOf(value)));
}

describe('time grows with the file, not with its square', () => {
  const spaces = (n: number): string => ' '.repeat(n);
  const forms: [string, (n: number) => string][] = [
    ['attributes', (n) => `<g ${attributes(n / 2)}/>`],
    ['digits', (n) => `<rect width="${'1'.repeat(n)}!" height="9"/>`],
    ['blank url', (n) => `<rect width="9" height="9" fill="url(${spaces(n)}x"/>`],
    ['fallbacks', (n) => `<rect width="9" height="9" fill="${'url(#a) '.repeat(n / 8)}"/>`],
    ['blank media', (n) => `<style>@media print${spaces(n)}x{}</style>`],
    ['marks', (n) => `<rect width="9" height="9" style="fill:${'! '.repeat(n / 2)}x"/>`],
    ['transforms', (n) => `<rect width="9" height="9" transform="${'rotate('.repeat(n / 7)}"/>`],
    ['points', (n) => `<polyline points="${'1 1,'.repeat(n / 4)}x" stroke="red"/>`],
    ['z', (n) => `<path d="M0 0${'z '.repeat(n / 2)}" stroke="red"/>`],
    ['arcs', (n) => `<path d="M0 0${'a-1-1 0 0 1 1 0a-1-1 0 0 1-1 0'.repeat(n / 31)}" stroke="red"/>`],
    ['zeros', (n) => `<path d="M0 0${'L00 '.repeat(n / 4)}" stroke="red"/>`],
    [
      'labels',
      (n) =>
        `<rect width="9" height="9" ${Array.from({ length: n / 10 }, (_, i) => `p${i}:label="x${i}"`).join(' ')}/>`,
    ],
    [
      'classes',
      (n) => `<style>.q{fill:red}</style><rect width="9" height="9" class="${'q '.repeat(n / 2)}"/>`,
    ],
    ['text', (n) => `<text x="5" y="5">${'ab '.repeat(n / 3)}</text>`],
    ['positions', (n) => `<text x="${'5 '.repeat(n / 2)}" y="5">ab</text>`],
    ['dashes', (n) => `<path d="M0 0H9" stroke="red" stroke-dasharray="${'1 '.repeat(n / 2)}"/>`],
    ['comments', (n) => `${'<!--x-->'.repeat(n / 8)}`],
  ];
  test.each(forms)('%s', (_, form) => {
    const [small, large] = [25_000, 200_000].map((n) => {
      const text = svg(`${form(n)}<path d="M0 0H9" stroke="red"/>`);
      return fastest(() => readDrawing(text));
    });
    // Eight times the text; 64 times the time if it were quadratic. The addend is for clocks and garbage.
    expect(large).toBeLessThan(24 * small + 200);
  });
});
