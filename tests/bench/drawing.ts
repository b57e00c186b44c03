import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { median } from './bench.js';

/** From the text of a drawing with curves to its regions. */
export interface DrawingResult {
  readonly file: string;
  readonly regions: number;
  /** Warm medians, ms: reading, mapping, and svg-pathdata parsing the same paths. */
  readonly readMs: number;
  readonly mapMs: number;
  readonly parseMs: number;
  readonly coldMs: number;
}

const RUNS = 120;
const WARM_UP = 60;

/** Measures a drawing of the fixtures in a fresh process. */
export function benchDrawing(root: URL, file: string): DrawingResult {
  const script = fileURLToPath(new URL('tests/bench/peers/plystep-drawing.mjs', root));
  const path = fileURLToPath(new URL(file, root));
  const out = execFileSync(process.execPath, [script, path, String(RUNS)], { encoding: 'utf8' });
  const result: { regions: number; read: number[]; map: number[]; parse: number[] } = JSON.parse(out);
  const warm = (values: readonly number[]): number => median(values.slice(WARM_UP));
  return {
    file,
    regions: result.regions,
    readMs: warm(result.read),
    mapMs: warm(result.map),
    parseMs: warm(result.parse),
    coldMs: result.read[0] + result.map[0],
  };
}
