import { describe, expect, test } from 'vitest';
import { parseColor } from '../../src/drawing/style/color.js';
import { NAMED_COLORS } from '../../src/drawing/style/named-colors.js';
import { read, rules } from './pages.js';

const RECT = '<rect id="r" class="wall left" data-x="a b" width="9" height="9"/>';
const fillUnder = (css: string, content = RECT): string | null | undefined =>
  read(`<style>${css}</style>${content}`).shapes[0]?.fill?.color;

describe('selectors', () => {
  test.each([
    ['rect'],
    ['*'],
    ['.wall'],
    ['.left.wall'],
    ['#r'],
    ['rect#r.wall'],
    ['[width]'],
    ['[width="9"]'],
    ['[data-x~=b]'],
    ['[id^=r]'],
    ['[class$=left]'],
    ['[class*="ll l"]'],
    ['svg rect'],
    ['svg > rect'],
    ['style + rect'],
    ['style ~ rect'],
    [':root rect'],
    ['rect:last-child'],
    ['rect:nth-child(2)'],
    ['rect:nth-child(even)'],
    ['rect:nth-child(3n+2)'],
    ['rect:not(.right)'],
    [':is(circle, rect)'],
    ['circle, rect'],
    ['/* a */ rect /* b */'],
  ])('%s matches', (selector) => {
    expect(fillUnder(`${selector}{fill:#00ff00}`)).toBe('#00ff00');
  });
  test.each([
    ['circle'],
    ['.wal'],
    ['#R'],
    ['[width="8"]'],
    ['g rect'],
    ['rect > rect'],
    ['rect + rect'],
    ['rect:first-child'],
    ['rect:hover'],
    ['rect:not(.wall)'],
    ['rect::before'],
    ['.right.wall'],
  ])('%s does not', (selector) => {
    expect(fillUnder(`${selector}{fill:#00ff00}`)).toBe('#000000');
  });
  test.each(['rect[', '>rect', 'rect >', 'rect:not('])('%s is left out, with a finding', (selector) => {
    const drawing = read(`<style>${selector}{fill:red}.wall{fill:#00ff00}</style>${RECT}`);
    expect(drawing.shapes[0].fill?.color).not.toBe('#ff0000');
    expect(rules(drawing)).toContain('style-fault');
  });
});

describe('which declaration wins', () => {
  test.each([
    ['the later of equals', 'rect{fill:red}rect{fill:lime}', RECT],
    ['a class over a type', '.wall{fill:lime}rect{fill:red}', RECT],
    ['an id over classes', '#r{fill:lime}.wall.left{fill:red}', RECT],
    ['a class over ten types', `.wall{fill:lime}${'svg '.repeat(1)}rect{fill:red}`, RECT],
    ['a sheet over an attribute', 'rect{fill:lime}', RECT.replace('/>', ' fill="red"/>')],
    ['style over a sheet', '#r{fill:red}', RECT.replace('/>', ' style="fill:lime"/>')],
    ['important over style', 'rect{fill:lime !important}', RECT.replace('/>', ' style="fill:red"/>')],
    [
      'important style over all',
      '#r{fill:red!important}',
      RECT.replace('/>', ' style="fill:lime ! IMPORTANT"/>'),
    ],
    ['where weighs nothing', 'rect{fill:lime}:where(#r){fill:red}', RECT],
    ['the later in one style', '', RECT.replace('/>', ' style="fill:red;fill:lime"/>')],
    ['one that is valid', '', RECT.replace('/>', ' fill="lime" style="fill:rgb(1"/>')],
  ])('%s', (_, css, content) => {
    if (_ === 'one that is valid') expect(read(content).findings.length).toBeGreaterThan(0);
    else expect(fillUnder(css, content)).toBe('#00ff00');
  });
  test('a sheet after what it styles', () => {
    expect(read(`${RECT}<style>rect{fill:lime}</style>`).shapes[0].fill?.color).toBe('#00ff00');
  });
  test('CDATA and comments around', () => {
    expect(fillUnder('<![CDATA[<!-- rect{fill:lime} -->]]>')).toBe('#00ff00');
  });
});

describe('at-rules', () => {
  test.each([
    ['@media print{rect{fill:lime}}', true],
    ['@media screen{rect{fill:lime}}', false],
    ['@media screen, print{rect{fill:lime}}', true],
    ['@media not screen{rect{fill:lime}}', true],
    ['@media only print and (color){rect{fill:lime}}', true],
    ['@media (prefers-color-scheme: dark){rect{fill:lime}}', false],
    ['@media print and (min-width: 5px){rect{fill:lime}}', false],
    ['@media all{@media print{rect{fill:lime}}}', true],
    ['@layer base{rect{fill:lime}}', true],
    ['@font-face{font-family:x;src:url(x)}rect{fill:lime}', true],
    ['@keyframes k{from{fill:red}}rect{fill:lime}', true],
    ['@supports (x:y){rect{fill:lime}}', false],
    ['@import "other.css";rect{fill:lime}', true],
    ['@import url(https://example.org/x.css);rect{fill:lime}', true],
    ['}rect{fill:lime}', true],
    ['rect{fill:lime', true],
    ['x{y:z;rect{fill:lime}}', false],
  ])('%s', (css, applies) => {
    expect(fillUnder(css)).toBe(applies ? '#00ff00' : '#000000');
  });
  test('the medium is a choice', () => {
    const css = '<style>@media screen{rect{fill:lime}}</style><style media="print">rect{stroke:red}</style>';
    expect(read(css + RECT, { media: 'screen' }).shapes[0].fill?.color).toBe('#00ff00');
    expect(read(css + RECT, { media: 'screen' }).shapes[0].fillOnly).toBe(true);
    expect(read(css + RECT, { media: 'print' }).shapes[0].fillOnly).toBeUndefined();
  });
  test('imports and links are told', () => {
    expect(rules(read(`<style>@import "a.css";</style>${RECT}`))).toContain('external-ignored');
    expect(rules(read(`<style type="text/less">rect{fill:lime}</style>${RECT}`))).toContain('style-fault');
  });
});

describe('values', () => {
  test.each([
    ['currentColor', '<g color="#123456"><rect width="9" height="9" fill="currentColor"/></g>', '#123456'],
    [
      'currentColor of its own',
      '<rect width="9" height="9" style="fill:currentcolor;color:#123456"/>',
      '#123456',
    ],
    ['inherited', '<g fill="#123456"><rect width="9" height="9"/></g>', '#123456'],
    ['inherit', '<g fill="#123456"><rect width="9" height="9" fill="inherit"/></g>', '#123456'],
    ['initial', '<g fill="red"><rect width="9" height="9" style="fill:initial"/></g>', '#000000'],
    [
      'unknown keeps what is inherited',
      '<g fill="#123456"><rect width="9" height="9" fill="nocolour"/></g>',
      '#123456',
    ],
    [
      'a custom property',
      '<g style="--c: #123456"><rect width="9" height="9" fill="var(--c)"/></g>',
      '#123456',
    ],
    ['a fallback', '<rect width="9" height="9" fill="var(--c, #123456)"/>', '#123456'],
    [
      'a fallback in a fallback',
      '<rect width="9" height="9" fill="var(--c, var(--d, rgb(18 52 86)))"/>',
      '#123456',
    ],
    [
      'properties in a circle',
      '<rect width="9" height="9" style="--a:var(--b);--b:var(--a);fill:var(--a)"/>',
      '#000000',
    ],
  ])('%s', (_, content, color) => {
    expect(read(content).shapes[0].fill?.color).toBe(color);
  });
  test('geometry in CSS', () => {
    const drawing = read(
      '<style>rect{width:20px;height:10%;x:5px}path{d:path("M1 1H9V9")}</style><rect/><path stroke="red"/>',
    );
    expect(drawing.shapes).toHaveLength(2);
    expect(drawing.shapes[0].subpaths[0].curves[0].to).toEqual([25, 0]);
  });
  test('lengths by the size of text', () => {
    const drawing = read(
      '<g font-size="4"><rect width="2em" height="1ex"/></g><g style="font:bold 5px/1 serif"><rect width="2em" height="1"/></g>',
    );
    expect(drawing.shapes.map((shape) => shape.subpaths[0].curves[0].to[0])).toEqual([8, 10]);
  });
  test('stray text in a style attribute is a finding, the rest counts', () => {
    const drawing = read('<rect width="9" height="9" style="fill:lime; oops; stroke"/>');
    expect(drawing.shapes[0].fill?.color).toBe('#00ff00');
    expect(rules(drawing)).toContain('style-fault');
  });
});

describe('colours', () => {
  test('the table has the 148 names, each of six digits', () => {
    expect(NAMED_COLORS.size).toBe(148);
    expect([...NAMED_COLORS.values()].every((hex) => /^#[0-9a-f]{6}$/.test(hex))).toBe(true);
    expect([...NAMED_COLORS.keys()]).toEqual([...NAMED_COLORS.keys()].sort());
    for (const [name, hex] of NAMED_COLORS) {
      if (name.includes('gray')) expect(NAMED_COLORS.get(name.replace('gray', 'grey'))).toBe(hex);
    }
  });
  test.each([
    ['#AbC', '#aabbcc', 1],
    ['#abc8', '#aabbcc', 136 / 255],
    ['#aabbcc', '#aabbcc', 1],
    ['#aabbcc00', '#aabbcc', 0],
    ['RED', '#ff0000', 1],
    ['transparent', '#000000', 0],
    ['rgb(255, 128, 0)', '#ff8000', 1],
    ['rgb(100% 50% 0%)', '#ff8000', 1],
    ['rgba(255,128,0,.5)', '#ff8000', 0.5],
    ['rgb(255 128 0 / 50%)', '#ff8000', 0.5],
    ['rgb(300, -5, 0)', '#ff0000', 1],
    ['hsl(120, 100%, 50%)', '#00ff00', 1],
    ['hsl(-240deg 100% 50%)', '#00ff00', 1],
    ['hsl(0.5turn 100% 25% / .2)', '#008080', 0.2],
    ['hwb(0 20% 20%)', '#cc3333', 1],
    ['oklch(0.6 0.2 30)', null, 1],
    ['light-dark(#fff, var(--x, #121212))', null, 1],
  ])('%s', (text, hex, alpha) => {
    expect(parseColor(text)).toEqual({ hex, alpha });
  });
  test.each(['', '#ab', '#abcde', 'reddish', 'rgb(1,2)', 'rgb(a,b,c)', 'url(#a)', 'none'])(
    '%j is none',
    (text) => {
      expect(parseColor(text)).toBeNull();
    },
  );
});
