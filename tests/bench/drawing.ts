import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { median } from './bench.js';
import { picture } from './generate/picture.js';

/** From the text of a drawing with curves to its regions. */
export interface DrawingResult {
  readonly name: string;
  readonly regions: number;
  /** Warm medians, ms: reading, mapping, and svg-pathdata parsing the same paths. */
  readonly readMs: number;
  readonly mapMs: number;
  readonly parseMs: number;
  /** First run in a fresh process, median of three. */
  readonly coldMs: number;
}

/** A drawing of the fixtures, or a generated one (generate/picture.ts), and how often it is run. */
interface BenchDrawing {
  readonly name: string;
  readonly make?: () => string;
  readonly runs: number;
}

const DRAWINGS: readonly BenchDrawing[] = [
  { name: 'fixtures/harbour/harbour.svg', runs: 120 },
  { name: 'fixtures/owl/owl.svg', runs: 120 },
  { name: 'fixtures/fretwork/fretwork.svg', runs: 120 },
  { name: 'picture, 150 regions', make: () => picture(150), runs: 120 },
  { name: 'picture, 1,000 regions', make: () => picture(1_000), runs: 30 },
  { name: 'picture, 10,000 regions', make: () => picture(10_000), runs: 6 },
];

/** Measures all drawings, each in fresh processes. */
export function benchDrawings(root: URL, clock: 'wall' | 'cpu'): DrawingResult[] {
  const folder = mkdtempSync(join(tmpdir(), 'plystep-bench-'));
  try {
    return DRAWINGS.map(({ name, make, runs }) => {
      let path = fileURLToPath(new URL(name, root));
      if (make !== undefined) {
        path = join(folder, 'picture.svg');
        writeFileSync(path, make());
      }
      const result = benchDrawing(root, name, path, runs, clock);
      const together = result.readMs + result.mapMs;
      console.log(`${name.padEnd(30)} ${result.regions} regions ${together.toFixed(1)} ms`);
      return result;
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Exponent of the time from text to regions in the number of regions, over the generated drawings from 1,000 up. */
export function drawingGrowth(results: readonly DrawingResult[]): number | null {
  const [small, large] = results.filter(({ name, regions }) => name.startsWith('picture') && regions > 500);
  if (small === undefined || large === undefined) return null;
  const time = ({ readMs, mapMs }: DrawingResult): number => readMs + mapMs;
  return Math.log(time(large) / time(small)) / Math.log(large.regions / small.regions);
}

function benchDrawing(
  root: URL,
  name: string,
  path: string,
  runs: number,
  clock: 'wall' | 'cpu',
): DrawingResult {
  const script = fileURLToPath(new URL('tests/bench/peers/plystep-drawing.mjs', root));
  const run = (count: number): { regions: number; read: number[]; map: number[]; parse: number[] } =>
    JSON.parse(execFileSync(process.execPath, [script, path, String(count), clock], { encoding: 'utf8' }));
  const warmRun = run(runs);
  const cold = [warmRun, run(1), run(1)].map(({ read, map }) => read[0] + map[0]);
  const warm = (values: readonly number[]): number => median(values.slice(runs >> 1));
  return {
    name,
    regions: warmRun.regions,
    readMs: warm(warmRun.read),
    mapMs: warm(warmRun.map),
    parseMs: warm(warmRun.parse),
    coldMs: median(cold),
  };
}
