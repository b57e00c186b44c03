// Measures the planar map beside its peers. `npm run bench` builds first.
// node tests/bench/run.mjs [--only TEXT] [--peers NAME,NAME] [--clock wall|cpu] [--write]
// --write puts the tables into docs/performance.md and a line into docs/performance-history.md.
// Native peers are optional: tests/bench/native/build.sh builds those whose libraries are installed.
import { cpSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { importTypeScript } from '../support/import-typescript.mjs';

const root = new URL('../../', import.meta.url);
process.env.PLYSTEP_BENCH_ROOT = fileURLToPath(root);
// A copy, so that a build meanwhile does not disturb; inside the checkout, where packages are found.
const dist = new URL('node_modules/.cache/plystep-bench/', root);
rmSync(dist, { recursive: true, force: true });
cpSync(new URL('dist/', root), dist, { recursive: true });
process.env.PLYSTEP_BENCH_DIST = dist.href;
const { values } = parseArgs({
  options: {
    only: { type: 'string', default: '' },
    peers: { type: 'string', default: '' },
    clock: { type: 'string', default: 'wall' },
    write: { type: 'boolean', default: false },
  },
});
const { runBench } = await importTypeScript(new URL('main.ts', import.meta.url));
await runBench(root, {
  only: values.only,
  peers: values.peers === '' ? [] : values.peers.split(','),
  clock: values.clock === 'cpu' ? 'cpu' : 'wall',
  write: values.write,
});
