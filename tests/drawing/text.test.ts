import { describe, expect, test } from 'vitest';
import { read, rounded, rules } from './pages.js';

/** Text and place of each label, 0.1 mm. */
function labels(content: string): [string, number, number][] {
  return read(content).labels.map(({ text, at }) => [
    text,
    ...(at.map((v) => Math.round(v * 10) / 10) as [number, number]),
  ]);
}

describe('where a text lies', () => {
  // A digit is 0.556 em wide and 0.7 em high.
  test.each([
    ['start', 'x="50" y="50"', [52.8, 46.5]],
    ['middle', 'x="50" y="50" text-anchor="middle"', [50, 46.5]],
    ['end', 'x="50" y="50" text-anchor="end"', [47.2, 46.5]],
    ['central', 'x="50" y="50" text-anchor="middle" dominant-baseline="central"', [50, 49.5]],
    ['middle baseline', 'x="50" y="50" text-anchor="middle" dominant-baseline="middle"', [50, 49]],
    ['hanging', 'x="50" y="50" text-anchor="middle" dominant-baseline="hanging"', [50, 54.5]],
    ['displaced', 'x="50" y="50" dx="5" dy="10" text-anchor="middle"', [55, 56.5]],
    ['transformed', 'transform="translate(50 50) rotate(90)" text-anchor="middle"', [53.5, 50]],
    ['in percent', 'x="50%" y="50%" text-anchor="middle"', [50, 46.5]],
    [
      'raised',
      'x="50" y="50" text-anchor="middle"><tspan baseline-shift="5">3</tspan></text><text y="-50"',
      [50, 41.5],
    ],
  ])('%s', (_, attributes, at) => {
    const [first] = labels(`<text font-size="10" ${attributes}>3</text>`);
    expect(first).toEqual(['3', ...at]);
  });
  test('a digit with its central baseline on a point is around that point', () => {
    const [label] = read(
      '<text x="20" y="30" font-size="4" text-anchor="middle" dominant-baseline="central">7</text>',
    ).labels;
    expect(Math.hypot(label.at[0] - 20, label.at[1] - 30)).toBeLessThan(0.5);
    expect(label.size).toBe(4);
  });
  test('size follows the scale', () => {
    const [label] = read(
      '<text transform="scale(2 8)" x="10" y="5" font-size="1em" style="font: 3px sans-serif">7</text>',
    ).labels;
    expect(rounded([label.size])).toEqual([12]);
  });
});

describe('what a text says', () => {
  test.each([
    ['white space', '<text x="50" y="50">\n  12 \t 3\n</text>', ['12 3']],
    ['a name', '<text x="10" y="50">light <tspan font-weight="bold">house</tspan></text>', ['light house']],
    [
      'spans at places of their own',
      '<text><tspan x="10" y="20">1</tspan><tspan x="40" y="20">2</tspan><tspan x="10" y="60">-1</tspan></text>',
      ['1', '2', '-1'],
    ],
    [
      'a number as an editor places its digits',
      '<text font-size="10" x="10 15.6 21.1" y="20">123</text>',
      ['123'],
    ],
    [
      'lines of a text',
      '<text x="10" y="20">tall<tspan x="10" dy="1.2em">mast</tspan></text>',
      ['tall', 'mast'],
    ],
    ['a link in a text', '<text x="10" y="50"><a href="#x">4</a></text>', ['4']],
    ['a true minus', '<text x="10" y="50">\u22122</text>', ['\u22122']],
    ['character references', '<text x="10" y="50">&#51;&amp;</text>', ['3&']],
    ['CDATA', '<text x="10" y="50"><![CDATA[+2]]></text>', ['+2']],
    ['title in a text', '<text x="10" y="50"><title>no</title>5</text>', ['5']],
    ['spaces that count', '<text x="10" y="50" xml:space="preserve">1  2</text>', ['1 2']],
    ['a stretched text', '<text x="10" y="50" textLength="40">12</text>', ['12']],
  ])('%s', (_, content, texts) => {
    expect(read(content).labels.map((label) => label.text)).toEqual(texts);
  });
  test.each([
    ['hidden', '<text x="10" y="50" visibility="hidden">3</text>'],
    ['not displayed', '<text x="10" y="50"><tspan display="none">3</tspan></text>'],
    ['without paint', '<text x="10" y="50" fill="none">3</text>'],
    ['empty', '<text x="10" y="50">  </text>'],
    ['of no size', '<text x="10" y="50" font-size="0">3</text>'],
    ['in defs', '<defs><text x="10" y="50">3</text></defs>'],
    [
      'clipped away',
      '<clipPath id="c"><rect width="5" height="5"/></clipPath><text clip-path="url(#c)" x="50" y="50">3</text>',
    ],
  ])('%s text is no label', (_, content) => {
    expect(read(content).labels).toEqual([]);
  });
  test('text outside of the page is told', () => {
    const drawing = read('<text x="50" y="150">3</text>');
    expect(drawing.labels).toEqual([]);
    expect(rules(drawing)).toContain('outside-page');
  });
  test('text on a path is read as if straight, with a finding', () => {
    const drawing = read('<text x="10" y="50"><textPath href="#p">name</textPath></text>');
    expect(drawing.labels.map((label) => label.text)).toEqual(['name']);
    expect(rules(drawing)).toContain('element-ignored');
  });
  test('each label knows its element', () => {
    const [label] = read('\n<text id="t" x="50" y="50">3</text>').labels;
    expect(label.source).toEqual({ line: 2, column: 1, element: 'text#t' });
  });
});
