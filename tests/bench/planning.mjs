// Planning against mapping: node tests/bench/planning.mjs [REGIONS …], by default 1000 and 10000 regions.
// Prints medians of CPU time in ms, the ratio of planning to mapping, and how both grow.
import { fileURLToPath } from 'node:url';
import { importTypeScript } from '../support/import-typescript.mjs';

process.env.PLYSTEP_BENCH_ROOT = fileURLToPath(new URL('../../', import.meta.url));
const { measurePlanning } = await importTypeScript(new URL('planning.ts', import.meta.url));
const sizes = process.argv.slice(2).map(Number);
const rows = (sizes.length > 0 ? sizes : [1000, 10000]).map((regions) => measurePlanning(regions));
console.table(rows);
const [first, last] = [rows[0], rows[rows.length - 1]];
if (last.regions > first.regions) {
  const exponent = (name) => Math.log(last[name] / first[name]) / Math.log(last.regions / first.regions);
  console.log(
    `growth, exponent in the regions: map ${exponent('map').toFixed(2)}, plan ${exponent('plan').toFixed(2)}`,
  );
}
