// Times this library's core, from polylines to faces with adjacency and containment.
// Usage: node plystep.mjs FILE RUNS SECONDS [WELD]. Prints one line of JSON.
import { readFileSync } from 'node:fs';
import { readWorkload, report } from './read-workload.mjs';

const dist = process.env.PLYSTEP_BENCH_DIST ?? new URL('../../../dist/', import.meta.url).href;
const { arrangeLines } = await import(new URL('src/plane/arrange-lines.js', dist).href);
const [file, runs, seconds, weld] = process.argv.slice(2);
const lines = readWorkload(file);
const { version } = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url)));
const options = weld === undefined ? {} : { weld: Number(weld) };
report(`plystep ${version}`, Number(runs), Number(seconds), () => {
  const a = arrangeLines(lines, options);
  return { faces: a.faceCount, nodes: a.nodeX.length, edges: a.edgeFrom.length };
});
