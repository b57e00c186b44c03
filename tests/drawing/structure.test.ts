import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { boxes, boxOf, read, rules, svg } from './pages.js';

const RECT = '<rect width="10" height="5"/>';

describe('transforms', () => {
  test.each([
    ['translate(3)', [3, 0, 13, 5]],
    ['translate(3,4)', [3, 4, 13, 9]],
    ['scale(2)', [0, 0, 20, 10]],
    ['scale(2 4)', [0, 0, 20, 20]],
    ['translate(20 20) rotate(90)', [15, 20, 20, 30]],
    ['rotate(90 10 10)', [15, 0, 20, 10]],
    ['matrix(1 0 0 1 3 4)', [3, 4, 13, 9]],
    ['translate(5) skewX(45)', [5, 0, 20, 5]],
    ['skewY(45)', [0, 0, 10, 15]],
    ['translate(3) , scale(2)translate(1)', [5, 0, 25, 10]],
    ['matrix(1,0,0,1,10-5) translate(0 8)', [10, 3, 20, 8]],
  ])('%s', (transform, box) => {
    expect(boxes(read(RECT.replace('/>', ` transform="${transform}"/>`)))).toEqual([box]);
  });
  test.each([
    ['transform: translate(3mm, 10%)', [3 * (96 / 25.4), 10]],
    ['transform: rotate(0.25turn); transform-origin: 10px 10px', [15, 0]],
    ['transform: rotate(100grad); transform-origin: 10% 10%', [15, 0]],
    ['transform: scale(2); transform-origin: center', [-50, -50]],
    ['transform: rotate(180deg); transform-box: fill-box; transform-origin: center', [0, 0]],
    ['transform: translateX(3px) translateY(4px)', [3, 4]],
    ['transform: none', [0, 0]],
  ])('%s', (style, corner) => {
    const [box] = boxes(readDrawing(svg(RECT.replace('/>', ` style="${style}"/>`), ' overflow="visible"')));
    for (const i of [0, 1]) expect(box[i]).toBeCloseTo(corner[i], 5);
  });
  test('nested, outermost first', () => {
    expect(boxes(read(`<g transform="translate(10)"><g transform="scale(2)">${RECT}</g></g>`))).toEqual([
      [10, 0, 30, 10],
    ]);
  });
  test.each(['turn(3)', 'scale(1,2,3)', 'rotate(1 2)', 'translate(a)', 'scale(2', 'matrix(1 2 3)'])(
    '%s is left out with a finding',
    (transform) => {
      const drawing = read(RECT.replace('/>', ` transform="${transform}"/>`));
      expect(boxes(drawing)).toEqual([[0, 0, 10, 5]]);
      expect(rules(drawing)).toContain('attribute-fault');
    },
  );
});

describe('viewports', () => {
  test.each([
    ['x="10" y="20" width="20" height="10"', [10, 20, 20, 25]],
    ['width="20" height="10" viewBox="0 0 10 5"', [0, 0, 20, 10]],
    ['width="40" height="10" viewBox="0 0 10 5"', [10, 0, 30, 10]],
    ['width="40" height="10" viewBox="0 0 10 5" preserveAspectRatio="none"', [0, 0, 40, 10]],
    ['width="40" height="10" viewBox="0 0 10 5" preserveAspectRatio="xMaxYMid"', [20, 0, 40, 10]],
    ['width="50%" height="50%" viewBox="0 0 10 10"', [0, 0, 50, 25]],
  ])('svg %s', (attributes, box) => {
    expect(boxes(read(`<svg ${attributes}>${RECT}</svg>`))).toEqual([box]);
  });
  test('percentages are of the nearest viewport', () => {
    const inner = '<rect x="10%" y="10%" width="50%" height="50%"/><circle cx="50%" cy="50%" r="10%"/>';
    const [rect, circle] = boxes(
      read(`<svg width="100" height="100" viewBox="0 0 40 20" preserveAspectRatio="none">${inner}</svg>`),
    );
    expect(rect).toEqual([10, 10, 60, 60]);
    const r = 0.1 * Math.sqrt((40 ** 2 + 20 ** 2) / 2);
    expect(circle[2] - circle[0]).toBeCloseTo(2 * r * 2.5, 6);
  });
  test('a nested viewport clips, unless it overflows', () => {
    const big = '<rect width="99" height="99"/>';
    expect(read(`<svg width="10" height="10">${big}</svg>`).shapes[0].subpaths.every((s) => !s.closed)).toBe(
      true,
    );
    expect(boxes(read(`<svg width="10" height="10" overflow="visible">${big}</svg>`))).toEqual([
      [0, 0, 99, 99],
    ]);
  });
  test('a viewport without size shows nothing', () => {
    expect(
      read(`<svg width="0" height="5">${RECT}</svg><svg viewBox="0 0 0 1">${RECT}</svg>`).shapes,
    ).toEqual([]);
  });
});

describe('use', () => {
  test.each([
    [
      'a shape',
      `<defs><rect id="a" width="10" height="5"/></defs><use href="#a" x="3" y="4"/>`,
      [3, 4, 13, 9],
    ],
    [
      'by the older link',
      `<defs><rect id="a" width="10" height="5"/></defs><use xmlns:l="http://www.w3.org/1999/xlink" l:href="#a" x="3"/>`,
      [3, 0, 13, 5],
    ],
    [
      'with a transform',
      `<defs><rect id="a" width="10" height="5"/></defs><use href="#a" x="3" transform="scale(2)"/>`,
      [6, 0, 26, 10],
    ],
    ['later in the file', `<use href="#a"/><defs><rect id="a" width="10" height="5"/></defs>`, [0, 0, 10, 5]],
    [
      'a symbol',
      `<symbol id="a" viewBox="0 0 10 5"><rect width="10" height="5"/></symbol><use href="#a" width="20" height="10"/>`,
      [0, 0, 20, 10],
    ],
    [
      'a symbol without size',
      `<symbol id="a"><rect width="10" height="5"/></symbol><use href="#a" y="2"/>`,
      [0, 2, 10, 7],
    ],
    [
      'an svg, with another size',
      `<defs><svg id="a" width="1" height="1" viewBox="0 0 10 5"><rect width="10" height="5"/></svg></defs><use href="#a" width="20" height="10"/>`,
      [0, 0, 20, 10],
    ],
    [
      'use of use',
      `<defs><rect id="a" width="10" height="5"/><use id="b" href="#a" x="1"/></defs><use href="#b" x="1"/>`,
      [2, 0, 12, 5],
    ],
  ])('%s', (_, content, box) => {
    expect(boxes(read(content))).toEqual([box]);
  });
  test('style comes from where it stands, unless it has its own', () => {
    const drawing = read(
      '<defs fill="none"><rect id="a" width="9" height="9"/><rect id="b" width="9" height="9" fill="blue"/></defs><g fill="red"><use href="#a"/><use href="#b"/></g>',
    );
    expect(drawing.shapes.map((shape) => shape.fill?.color)).toEqual(['#ff0000', '#0000ff']);
  });
  test.each([
    ['nothing', '<use/>', 'reference-missing'],
    ['what is not there', '<use href="#x"/>', 'reference-missing'],
    ['another file', '<use href="other.svg#x"/>', 'external-ignored'],
    ['an address', '<use href="https://example.org/#x"/>', 'external-ignored'],
    ['itself', '<use id="x" href="#x"/>', 'reference-circular'],
    ['what it stands in', '<g id="x"><use href="#x"/></g>', 'reference-circular'],
  ])('of %s: %s', (_, content, rule) => {
    const drawing = read(content + RECT);
    expect(rules(drawing)).toContain(rule);
    expect(drawing.shapes).toHaveLength(1);
  });
  test('the source is the element that draws', () => {
    const { shapes } = read('<defs>\n<rect id="a" width="9" height="9"/></defs>\n<use href="#a"/>');
    expect(shapes[0].source).toEqual({ line: 2, column: 1, element: 'rect#a' });
  });
});

describe('switch', () => {
  const pick = (languages: string[], content: string) => read(`<switch>${content}</switch>`, { languages });
  const both =
    '<rect systemLanguage="de" width="1" height="1"/><rect systemLanguage="en" width="2" height="2"/><rect width="3" height="3"/>';
  test.each([
    [['en'], 2],
    [['de', 'en'], 1],
    [['fr'], 3],
    [[], 3],
  ])('languages %j', (languages, width) => {
    expect(boxOf(pick(languages, both).shapes[0])[2]).toBe(width);
  });
  test('a regional language will do', () => {
    expect(boxOf(pick(['en'], '<rect systemLanguage="en-GB" width="1" height="1"/>').shapes[0])[2]).toBe(1);
  });
  test('what needs an extension gives way to its substitute', () => {
    const drawing = read(
      '<switch><foreignObject requiredExtensions="urn:x"/><g><rect width="2" height="2"/></g></switch>',
    );
    expect(boxes(drawing)).toEqual([[0, 0, 2, 2]]);
    expect(rules(drawing)).not.toContain('element-ignored');
  });
});

describe('names and depths', () => {
  const layered =
    '<g id="sky" e:label="Sky layer" xmlns:e="urn:editor" data-depth="2"><title>High up</title><g id="in"><rect id="sun" data-name="Sun" width="9" height="9" data-depth="3"/></g><rect width="5" height="5"/></g><rect id="ground" width="7" height="7"/>';
  test('own names first, then those around, innermost first', () => {
    expect(read(layered).shapes.map((shape) => shape.names)).toEqual([
      ['Sun', 'sun', 'in', 'High up', 'Sky layer', 'sky'],
      ['High up', 'Sky layer', 'sky'],
      ['ground'],
    ]);
  });
  test('what is meant for people comes first, an id that only numbers elements last of all', () => {
    const names = (content: string) => read(content).shapes[0].names;
    const shape = (attributes: string, content = '') =>
      `<path d="M0 0H9" stroke="red" ${attributes}>${content}</path>`;
    const all = shape(
      'id="moon7" data-name="c" xmlns:q="urn:editor" q:label="b" aria-label="The  moon"',
      '<desc>no name</desc><title> Moon </title><x:title xmlns:x="urn:x">no name</x:title>',
    );
    expect(names(all)).toEqual(['The moon', 'Moon', 'b', 'c', 'moon7']);
    expect(names(`<g id="g12"><g id="Boats">${shape('id="path1042"')}</g></g>`)).toEqual([
      'Boats',
      'path1042',
      'g12',
    ]);
    expect(names(`<g id="layer1" label="Hulls">${shape('id="path-3.1"')}</g>`)).toEqual([
      'Hulls',
      'layer1',
      'path-3.1',
    ]);
    expect(names(shape('id="path7"'))).toEqual(['path7']);
    expect(names(shape('id="pathway7"', '<title/>'))).toEqual(['pathway7']);
    expect(names(shape('aria-label="  "'))).toEqual([]);
  });
  test.each(['The moon', 'Moon', 'b', 'c', 'path1', 'Sky'])(
    '%s names the shape in include and exclude',
    (name) => {
      const moon =
        '<g aria-label="Sky"><path id="path1" data-name="c" xmlns:q="urn:e" q:label="b" aria-label="The moon" d="M0 0H9" stroke="red"><title>Moon</title></path></g><path id="path2" d="M0 1H9" stroke="red"/>';
      expect(read(moon, { include: [name] }).shapes.map(({ source }) => source.element)).toEqual([
        'path#path1',
      ]);
      expect(read(moon, { exclude: [name] }).shapes.map(({ source }) => source.element)).toEqual([
        'path#path2',
      ]);
    },
  );
  test('the nearest depth counts', () => {
    expect(read(layered).shapes.map((shape) => shape.depth)).toEqual(['3', '2', null]);
  });
  test.each([
    [{ include: ['Sky layer'] }, 2],
    [{ exclude: ['sky'] }, 1],
    [{ include: ['sky'], exclude: ['Sun'] }, 1],
  ])('%o', (options, count) => {
    expect(read(layered, options).shapes).toHaveLength(count);
  });
  test('a name that is nowhere is told', () => {
    expect(rules(read(layered, { exclude: ['Sea'] }))).toContain('name-unknown');
  });
  test('an add-on of its own', () => {
    expect(read('<g data-depth=" +2"><rect width="9" height="9"/></g>').shapes[0].addOn).toBe(true);
    expect(read('<rect data-depth="2" width="9" height="9"/>').shapes[0].addOn).toBe(false);
  });
});

describe('what is not read', () => {
  test.each([
    ['image', '<image href="a.png" width="9" height="9"/>', 'element-ignored'],
    [
      'foreignObject',
      '<foreignObject><p xmlns="http://www.w3.org/1999/xhtml">x</p></foreignObject>',
      'element-ignored',
    ],
    ['an unknown element', '<shape d="M0 0H9"/>', 'element-ignored'],
    [
      'drawing in another namespace',
      '<x:y xmlns:x="urn:x"><rect width="9" height="9"/></x:y>',
      'element-ignored',
    ],
    ['script', '<script>draw()</script>', 'element-ignored'],
    ['animation', '<animate attributeName="x"/>', 'element-ignored'],
    ['mask', '<mask id="m"/><rect mask="url(#m)" width="9" height="9"/>', 'effect-ignored'],
    ['filter', '<rect filter="url(#f)" width="9" height="9"/>', 'effect-ignored'],
    ['a motion of CSS', '<rect style="translate: 5px 5px" width="9" height="9"/>', 'effect-ignored'],
    ['markers', '<path marker-end="url(#m)" stroke="red" d="M0 0H9"/>', 'effect-ignored'],
    ['a pattern', '<pattern id="p"/><rect fill="url(#p)" width="9" height="9"/>', 'effect-ignored'],
  ])('%s: a finding that names it', (name, content, rule) => {
    const drawing = read(`\n${content}${RECT}`);
    const found = drawing.findings.find((finding) => finding.rule === rule);
    expect(found?.source?.line).toBe(2);
    expect(drawing.shapes.length, name).toBeGreaterThan(0);
  });
  test('data of editors is passed over in silence', () => {
    const drawing = read(
      `<metadata><r:x xmlns:r="urn:r"/></metadata><e:view xmlns:e="urn:e"><e:guide/></e:view>${RECT}`,
    );
    expect(rules(drawing)).toEqual([]);
  });
});
