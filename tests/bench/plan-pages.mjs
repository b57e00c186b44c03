// Size of the printable plan: node tests/bench/plan-pages.mjs [REGIONS …], by default 250, 500, 1000 and 2000.
import { importTypeScript } from '../support/import-typescript.mjs';

const { measurePages } = await importTypeScript(new URL('plan-pages.ts', import.meta.url));
const sizes = process.argv.slice(2).map(Number);
const rows = (sizes.length > 0 ? sizes : [250, 500, 1000, 2000]).map((regions) => measurePages(regions));
console.table(rows.map(({ html: _, ...row }) => row));
