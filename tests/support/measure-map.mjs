// Maps a workload or a drawing asynchronously, in a process of its own. Prints one line of JSON: for how long, at most,
// the event loop was held between two turns in each of six runs, and by how much memory the process grew.
// node tests/support/measure-map.mjs FILE (.svg, or of encodeWorkload, tests/bench/generate/workload.ts)
import { existsSync, readFileSync } from 'node:fs';
import { readWorkload } from '../bench/peers/read-workload.mjs';
import { importTypeScript } from './import-typescript.mjs';

const { arrangeLines, arrangeLinesAsync, mapRegions, mapRegionsAsync, readDrawing } = await importTypeScript(
  new URL('./map-entry.ts', import.meta.url),
);

/** What Linux tells of the thread that reads it: nanoseconds on a processor, and waiting for one (proc(5)). */
const SCHEDULE = '/proc/thread-self/schedstat';

/**
 * Time of the thread that runs the event loop, ms: what it ran for, without waiting for its turn on a busy machine and
 * without the threads beside it that compile and collect garbage (process.cpuUsage counts those too). Elsewhere than on
 * Linux, time by the clock.
 */
const loopTime = existsSync(SCHEDULE)
  ? () => Number(readFileSync(SCHEDULE, 'utf8').split(' ')[0]) / 1e6
  : () => performance.now();

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

const RUNS = 6;
const job = jobFor(process.argv[2]);
const before = process.resourceUsage().maxRSS;
const longestMs = [];
let peak = 0;
let edges = 0;
for (let run = 0; run < RUNS; run++) {
  const gaps = [];
  let last = loopTime();
  let running = true;
  const turn = () => {
    const now = loopTime();
    gaps.push(now - last);
    last = now;
    if (running) setImmediate(turn);
  };
  setImmediate(turn);
  edges = await job();
  running = false;
  gaps.push(loopTime() - last);
  longestMs.push(Math.max(...gaps));
  if (run === 0) peak = process.resourceUsage().maxRSS;
}
console.log(JSON.stringify({ edges, longestMs, bytes: (peak - before) * 1024 }));
