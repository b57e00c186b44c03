/**
 * Reading against the path parser alone on the same path data, and against @resvg/resvg-js parsing the same
 * file, at 10 kB, 1 MB and 20 MB. Prints medians in ms and ratios. `node tests/bench/reading.mjs`
 *
 * The files are traced outlines: closed runs of thirty relative cubics, one path element each, styled as vector
 * editors write them. The numbers are drawn from a fixed seed.
 */
import { Resvg } from '@resvg/resvg-js';
import { SVGPathDataParser } from 'svg-pathdata';
import { importTypeScript } from '../support/import-typescript.mjs';

const { readDrawing } = await importTypeScript(new URL('../../src/drawing/read-drawing.ts', import.meta.url));

/** Size in characters, and rounds; the first few warm the compiler up and do not count. */
const SIZES = [
  { size: 10_000, rounds: 300, warm: 100 },
  { size: 1_000_000, rounds: 11, warm: 3 },
  { size: 20_000_000, rounds: 5, warm: 1 },
];

let state = 1;
function random() {
  state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
  return state / 0x80000000;
}

function makeFile(size) {
  const parts = [
    '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="200mm" viewBox="0 0 1000 1000">\n',
  ];
  const paths = [];
  let length = parts[0].length;
  while (length < size) {
    const curves = Array.from(
      { length: 30 },
      () => `c${Array.from({ length: 6 }, () => (random() * 10 - 5).toFixed(2)).join(',')}`,
    );
    const path = `M${(150 + random() * 700).toFixed(2)},${(150 + random() * 700).toFixed(2)}${curves.join('')}z`;
    paths.push(path);
    const element = `<path id="p${paths.length}" style="fill:none;stroke:#000000;stroke-width:0.5" d="${path}"/>\n`;
    parts.push(element);
    length += element.length;
  }
  return { text: `${parts.join('')}</svg>\n`, paths };
}

function parsePaths(paths) {
  let count = 0;
  for (const path of paths) {
    const parser = new SVGPathDataParser();
    const commands = [];
    parser.parse(path, commands);
    parser.finish(commands);
    count += commands.length;
  }
  return count;
}

function time(body) {
  const start = performance.now();
  body();
  return performance.now() - start;
}

const median = (values) => values.sort((a, b) => a - b)[values.length >> 1];

const rows = [];
for (const { size, rounds, warm } of SIZES) {
  const { text, paths } = makeFile(size);
  const times = { read: [], paths: [], resvg: [] };
  for (let round = 0; round < rounds; round++) {
    const read = time(() => readDrawing(text));
    const parser = time(() => parsePaths(paths));
    const resvg = time(() => new Resvg(text));
    if (round < warm) continue;
    times.read.push(read);
    times.paths.push(parser);
    times.resvg.push(resvg);
  }
  const [read, parser, resvg] = [times.read, times.paths, times.resvg].map(median);
  rows.push({
    characters: text.length,
    'readDrawing ms': Number(read.toFixed(2)),
    'path parser ms': Number(parser.toFixed(2)),
    'resvg ms': Number(resvg.toFixed(2)),
    'ratio to path parser': Number((read / parser).toFixed(2)),
    'ratio to resvg': Number((read / resvg).toFixed(2)),
    'ns a character': Number(((read * 1e6) / text.length).toFixed(0)),
  });
}
console.table(rows);
