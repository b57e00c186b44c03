// Maps a workload or a drawing asynchronously, in a process of its own. Prints one line of JSON: the most processor
// time that passed between two turns of the event loop in each of three runs, and by how much memory the process grew.
// node tests/support/measure-map.mjs FILE (.svg, or of encodeWorkload, tests/bench/generate/workload.ts)
import { readFileSync } from 'node:fs';
import { readWorkload } from '../bench/peers/read-workload.mjs';
import { importTypeScript } from './import-typescript.mjs';

const { arrangeLines, arrangeLinesAsync, mapRegions, mapRegionsAsync, readDrawing } = await importTypeScript(
  new URL('./map-entry.ts', import.meta.url),
);

/** Processor time of this process, ms. */
const used = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

/** What is run, after it has been compiled on something like it: as in a program that has mapped before. */
function jobFor(file) {
  if (file.endsWith('.svg')) {
    const drawing = readDrawing(readFileSync(file, 'utf8'));
    mapRegions(drawing);
    return async () => (await mapRegionsAsync(drawing)).edges.length;
  }
  const lines = readWorkload(file);
  const some = lines.starts.slice(0, Math.min(lines.starts.length, 400));
  const few = { coords: lines.coords.slice(0, 2 * some[some.length - 1]), starts: some };
  for (let i = 0; i < 3; i++) arrangeLines(few);
  return async () => (await arrangeLinesAsync(lines)).edgeFrom.length;
}

const job = jobFor(process.argv[2]);
const before = process.resourceUsage().maxRSS;
const longestMs = [];
let peak = 0;
let edges = 0;
for (let run = 0; run < 3; run++) {
  const gaps = [];
  let last = used();
  let running = true;
  const turn = () => {
    const now = used();
    gaps.push(now - last);
    last = now;
    if (running) setImmediate(turn);
  };
  setImmediate(turn);
  edges = await job();
  running = false;
  gaps.push(used() - last);
  longestMs.push(Math.max(...gaps));
  if (run === 0) peak = process.resourceUsage().maxRSS;
}
console.log(JSON.stringify({ edges, longestMs, bytes: (peak - before) * 1024 }));
