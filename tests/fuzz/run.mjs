// Searches for line work that breaks the planar map, for as long as it is told.
// node tests/fuzz/run.mjs [--seconds 60] [--seed N] [--only TEXT] [--weld MM] [--keep FOLDER]
// node tests/fuzz/run.mjs --replay FILE
// A failing case is shrunk, printed and kept, by default in fixtures/hard/, where the tests run it from then on.
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { importTypeScript } from '../support/import-typescript.mjs';

const { values } = parseArgs({
  options: {
    seconds: { type: 'string', default: '60' },
    seed: { type: 'string', default: String(Date.now() % 2 ** 31) },
    only: { type: 'string', default: '' },
    weld: { type: 'string' },
    keep: { type: 'string', default: fileURLToPath(new URL('../../fixtures/hard', import.meta.url)) },
    replay: { type: 'string' },
  },
});
const { longRun, replay } = await importTypeScript(new URL('long-run.ts', import.meta.url));
const failures =
  values.replay !== undefined
    ? await replay(values.replay)
    : await longRun({
        seed: Number(values.seed),
        seconds: Number(values.seconds),
        only: values.only,
        weld: values.weld === undefined ? null : Number(values.weld),
        keep: values.keep,
      });
process.exitCode = failures > 0 ? 1 : 0;
