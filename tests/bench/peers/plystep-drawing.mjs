// Times SVG text to regions, and svg-pathdata parsing the same paths, in turn.
// Usage: node plystep-drawing.mjs FILE.svg RUNS [wall|cpu]. Prints one line of JSON.
import { readFileSync } from 'node:fs';
import { SVGPathData } from 'svg-pathdata';

const dist = process.env.PLYSTEP_BENCH_DIST ?? new URL('../../../dist/', import.meta.url).href;
const { mapRegions, readDrawing } = await import(new URL('src/index.js', dist).href);
const [file, runs, clock = 'wall'] = process.argv.slice(2);
const text = readFileSync(file, 'utf8');
const paths = [...text.matchAll(/\sd="([^"]*)"/g)].map((match) => match[1]);
const times = { read: [], map: [], parse: [] };
let regions = 0;
const now = () => {
  if (clock === 'wall') return performance.now();
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const time = (list, job) => {
  const from = now();
  const out = job();
  list.push(now() - from);
  return out;
};
for (let i = 0; i < Number(runs); i++) {
  const drawing = time(times.read, () => readDrawing(text));
  regions = time(times.map, () => mapRegions(drawing)).regions.length;
  time(times.parse, () => paths.map((d) => new SVGPathData(d).commands.length));
}
console.log(JSON.stringify({ regions, paths: paths.length, ...times }));
