// Runs the asynchronous map on a workload in a process of its own. Prints one line of JSON: the most processor time
// that passed between two turns of the event loop, and by how much memory the process grew.
// node tests/support/measure-map.mjs FILE (of encodeWorkload, tests/bench/generate/workload.ts)
import { readWorkload } from '../bench/peers/read-workload.mjs';
import { importTypeScript } from './import-typescript.mjs';

const { arrangeLines, arrangeLinesAsync } = await importTypeScript(
  new URL('../../src/plane/arrange-lines.ts', import.meta.url),
);

/** Processor time of this process, ms. */
const used = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const lines = readWorkload(process.argv[2]);
// Compiles first, as in a program that has mapped something before.
const some = lines.starts.slice(0, Math.min(lines.starts.length, 400));
for (let i = 0; i < 3; i++)
  arrangeLines({ coords: lines.coords.slice(0, 2 * some[some.length - 1]), starts: some });
const before = process.resourceUsage().maxRSS;
const longest = [];
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
  edges = (await arrangeLinesAsync(lines)).edgeFrom.length;
  running = false;
  gaps.push(used() - last);
  longest.push(Math.max(...gaps));
  if (run === 0) peak = process.resourceUsage().maxRSS;
}
console.log(
  JSON.stringify({
    segments: lines.coords.length / 2 - (lines.starts.length - 1),
    edges,
    longestMs: longest,
    bytes: (peak - before) * 1024,
  }),
);
