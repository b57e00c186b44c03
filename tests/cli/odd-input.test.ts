import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { describeError } from '../../src/cli/describe-error.js';
import { asFileError } from '../../src/cli/file-error.js';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

const NAMESPACE = 'xmlns="http://www.w3.org/2000/svg"';
const RING = '<circle cx="50" cy="50" r="30" fill="none" stroke="black"/><text x="50" y="50">1</text>';
const page = (attributes: string, content: string): string =>
  `<svg ${NAMESPACE} ${attributes}>${content}</svg>`;
const PAGE = page('width="100mm" height="100mm" viewBox="0 0 100 100"', RING);

/** Checks a file of that content, as a newcomer would. */
async function check(content: string | Uint8Array, name = 'odd.svg') {
  writeFileSync(bench.path(name), content);
  const { code, out, err } = await bench.run(['check', name, '--stack', '3 mm birch']);
  return { code, text: out + err };
}

describe('what cannot be read is told by what, where, and what to do', () => {
  it.each([
    ['an empty file', '', /^plystep: odd\.svg: The file is empty.*Export or download/],
    ['a blank file', ' \r\n \uFEFF', /^plystep: odd\.svg: The file is empty/],
    [
      'a web page',
      '<!DOCTYPE html>\n<html><p>Hi<br></html>',
      /^plystep: odd\.svg:2:1: This is a web page.*Save the drawing itself/,
    ],
    ['a web page with a drawing in it', `<HTML><body>${PAGE}</body></HTML>`, /:1:1: This is a web page/],
    ['another kind of XML', '<gpx><trk/></gpx>', /:1:1: This is not an SVG drawing.*<gpx>.*Save or export/],
    ['no XML', '0\nSECTION\n2\n', /:1:1: This is not an SVG file.*Save or export/],
    ['a file cut off', PAGE.slice(0, 150), /:1:151: The file ends inside <svg>.*cut off/],
    [
      'Windows line ends before a fault',
      page('', '\r\n<path d="M0 0"\r\n<g>\r\n'),
      /:3:2: [\s\S]*\n {2}3 \| <g>\n/,
    ],
    [
      'a picture',
      Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0]),
      /^plystep: odd\.svg: This is a PNG picture.*trace/,
    ],
  ])('%s', async (_, content, expected) => {
    const { code, text } = await check(content);
    expect(code).toBe(2);
    expect(text).toMatch(expected);
    expect(text).not.toMatch(/a fault in plystep itself|\n {4}at /);
  });

  it('a folder', async () => {
    mkdirSync(bench.path('dir.svg'));
    const { code, err } = await bench.run(['check', 'dir.svg']);
    expect([code, err]).toEqual([
      2,
      'plystep: dir.svg: could not read it: this is a folder, and a file is needed. Give the file in it.\n',
    ]);
  });

  // The superuser may read every file, so the fault is made by hand.
  it('a file that may not be read', () => {
    const fault = asFileError(Object.assign(new Error(), { code: 'EACCES' }), 'locked.svg', 'read');
    expect(describeError(fault)).toBe(
      'plystep: locked.svg: could not read it: permission denied. Ask for leave to read it, or for a copy of your own.',
    );
  });
});

describe('what can be read is', () => {
  const utf16 = (text: string, big: boolean): Uint8Array => {
    const bytes = Buffer.from(`\uFEFF${text}`, 'utf16le');
    return big ? bytes.swap16() : bytes;
  };
  it.each([
    ['UTF-16, little end first', utf16(`<?xml version="1.0" encoding="UTF-16"?>${PAGE}`, false)],
    ['UTF-16, big end first', utf16(`<?xml version="1.0" encoding="UTF-16"?>${PAGE}`, true)],
    ['UTF-8 with a mark', `\uFEFF${PAGE}`],
    ['Windows line ends', PAGE.replaceAll('><', '>\r\n<')],
    [
      'a nested svg with percentages',
      page(
        'width="200mm" height="200mm"',
        `<svg x="10%" width="50%" height="50%" viewBox="0 0 100 100">${RING}</svg>`,
      ),
    ],
  ])('%s', async (_, content) => {
    expect(await check(content)).toEqual({
      code: 0,
      text: 'odd.svg: 1 region, 0 errors, 0 warnings, 0 notes\n',
    });
  });

  it('a name with blanks', async () => {
    expect((await check(PAGE, 'my first try.svg')).code).toBe(0);
  });
});

describe('what shows nothing to cut is an error with something to do', () => {
  it.each([
    [
      'text only',
      page('width="9mm" height="9mm"', '<text x="2" y="5">3</text>'),
      /\[no-lines\]\n {4}Give the shapes a stroke/,
    ],
    [
      'a picture only',
      page('width="9mm" height="9mm"', '<image href="x.png" width="9" height="9"/>'),
      /<image> is not read.*\n {4}.*trace/,
    ],
    [
      'a page of a thousand kilometres',
      page('viewBox="0 0 1e9 1e9"', '<circle cx="5e8" cy="5e8" r="3e8" stroke="red"/>'),
      /16000 mm.*\[out-of-range\]\n {4}Give the page its true size/,
    ],
    [
      'lines that close nothing',
      page('width="9mm" height="9mm"', '<path d="M1 1H8" stroke="red"/>'),
      /\[no-region\]\n {4}Close the outlines/,
    ],
  ])('%s', async (_, content, expected) => {
    const { code, text } = await check(content);
    expect(code).toBe(1);
    expect(text).toMatch(expected);
  });

  it('percentages of nothing: the size is assumed, and said', async () => {
    const { text } = await check(page('width="100%" height="100%" viewBox="0 0 100 100"', RING));
    expect(text).toMatch(
      /states no physical size; at 96 px an inch the page is 26\.46 × 26\.46 mm.*\n {4}Check the size/,
    );
  });
});

describe('where it writes', () => {
  it('puts a job beside what is in a folder already, and again over its own', async () => {
    mkdirSync(bench.path('work'));
    writeFileSync(bench.path('work/notes.txt'), 'mine');
    for (let run = 0; run < 2; run++)
      expect((await bench.run(['sheets', 'pond.svg', '--out', 'work'])).code).toBeLessThan(2);
    expect(bench.text('work/notes.txt')).toBe('mine');
    expect(readdirSync(bench.path('work'))).toContain('sheet-1.svg');
  });

  it.each([
    [['overview', 'pond.svg', '--out', '.'], /^plystep: \.: this is a folder.*Give a name in it/],
    [['sheets', 'pond.svg', '--out', 'pond.svg'], /pond\.svg.*a folder is needed\. Choose another place/],
    [['check', 'pond.svg', '-v'], /^plystep: plystep check has no option -v\. Try: plystep check --help\n$/],
    [['check', 'pond.svg', '-xo', 'a.txt'], /has no option -x\./],
  ])('refuses %j', async (line, expected) => {
    const { code, err } = await bench.run(line);
    expect(code).toBe(2);
    expect(err).toMatch(expected);
  });
});

it.each([
  [
    '--config',
    'x.json',
    '{\n  "a": 1,\n  b\n}',
    /^plystep: x\.json:3:3: this settings file is no valid JSON/,
  ],
  ['--config', 'x.json', '{\n  "a": 1', /^plystep: x\.json:2:9: this settings file is no valid JSON/],
  ['--config', 'x.json', '', /^plystep: x\.json.*: this settings file is empty/],
  ['--stack', 'x.json', '[{]', /^plystep: x\.json:1:3: this stack file is no valid JSON/],
  ['--sidecar', 'x.json', '{"a":', /^plystep: x\.json:1:6: the sidecar is no valid JSON/],
])('tells where the JSON of %s is faulty', async (option, name, content, expected) => {
  writeFileSync(bench.path(name), content);
  const { code, err } = await bench.run(['check', 'pond.svg', option, name]);
  expect(code).toBe(2);
  expect(err).toMatch(expected);
});
