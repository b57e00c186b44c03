import { execFileSync } from 'node:child_process';
import { appendFileSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { type BenchOptions, type BenchRow, bench } from './bench.js';
import { benchDrawings, type DrawingResult, drawingGrowth } from './drawing.js';
import { PEERS } from './peers.js';
import { coldTable, growth, ratiosTable, timesTable } from './report.js';

/** Measures, prints, and with `write` records in the docs. */
export async function runBench(
  root: URL,
  options: BenchOptions & { readonly write: boolean },
): Promise<void> {
  for (const peer of PEERS) {
    if (peer.command('') === null)
      console.log(`${peer.name}: not built, left out (tests/bench/native/build.sh builds it)`);
  }
  const rows = await bench(options);
  const drawings = 'drawings'.startsWith(options.only) ? benchDrawings(root, options.clock) : [];
  const parts = {
    machine: `${machine(rows)} ${options.clock === 'cpu' ? 'Processor time of all threads, on a busy machine.' : 'Wall time.'}`,
    times: timesTable(rows),
    ratios: ratiosTable(rows),
    cold: coldTable(rows),
    growth: growthText(rows),
    drawings: drawingsTable(drawings),
  };
  console.log(Object.values(parts).join('\n\n'));
  if (options.write) record(root, parts, rows, drawings);
}

function machine(rows: readonly BenchRow[]): string {
  const versions = new Set(rows.flatMap((row) => Object.values(row.results).map(({ version }) => version)));
  const cpu = cpus()[0]?.model ?? 'unknown processor';
  const memory = Math.round(totalmem() / 2 ** 30);
  return `${cpu}, ${cpus().length} cores, ${memory} GiB, Node ${process.versions.node}; ${[...versions].join(', ')}.`;
}

function growthText(rows: readonly BenchRow[]): string {
  const list = Object.entries(growth(rows)).map(([name, exponent]) => `${name} ${exponent.toFixed(2)}`);
  return list.length === 0 ? 'not measured' : `${list.join(', ')}.`;
}

function drawingsTable(drawings: readonly DrawingResult[]): string {
  const body = drawings.map(
    ({ name, regions, readMs, mapMs, parseMs, coldMs }) =>
      `| ${name} | ${regions} | ${readMs.toFixed(1)} | ${mapMs.toFixed(1)} | ${(readMs + mapMs).toFixed(1)} | ${((readMs + mapMs) / parseMs).toFixed(1)} | ${coldMs.toFixed(0)} |`,
  );
  return [
    '| drawing | regions | reading, ms | mapping, ms | together, ms | × svg-pathdata on its paths | first run, ms |',
    '|---|---|---|---|---|---|---|',
    ...body,
    ...growthLine(drawings),
  ].join('\n');
}

function growthLine(drawings: readonly DrawingResult[]): string[] {
  const exponent = drawingGrowth(drawings);
  return exponent === null
    ? []
    : ['', `Growth in the regions, from 1,000 to 10,000 of them: exponent ${exponent.toFixed(2)}.`];
}

/** Replaces what stands between `<!-- name -->` and `<!-- /name -->` in the page, and adds to the history. */
function record(
  root: URL,
  parts: Readonly<Record<string, string>>,
  rows: readonly BenchRow[],
  drawings: readonly DrawingResult[],
): void {
  const page = new URL('docs/performance.md', root);
  let text = readFileSync(page, 'utf8');
  for (const [name, content] of Object.entries(parts)) {
    const [open, close] = [`<!-- ${name} -->`, `<!-- /${name} -->`];
    const [from, to] = [text.indexOf(open), text.indexOf(close)];
    if (from < 0 || to < from) throw new Error(`docs/performance.md has no ${open} … ${close}`);
    text = `${text.slice(0, from + open.length)}\n${content}\n${text.slice(to)}`;
  }
  writeFileSync(page, text);
  const commit = execFileSync('git', ['rev-parse', '--short', 'HEAD'], {
    cwd: root,
    encoding: 'utf8',
  }).trim();
  const day = new Date().toISOString().slice(0, 10);
  const drawn = drawings.map((d) => `${d.name} ${(d.readMs + d.mapMs).toFixed(1)} ms`).join(', ');
  const entry = `\n## ${day}, ${commit}\n\n${parts.machine}\n\n${ratiosTable(rows)}\n\nGrowth: ${parts.growth}\nDrawings: ${drawn}.\n`;
  appendFileSync(new URL('docs/performance-history.md', root), entry);
}
