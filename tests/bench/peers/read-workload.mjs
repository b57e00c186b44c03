import { readFileSync } from 'node:fs';

/** Reads the file of encodeWorkload as views on its bytes: `{ coords, starts }`. */
export function readWorkload(path) {
  const bytes = readFileSync(path);
  // A buffer of its own, so that the offset is 0 and the float64 view is aligned.
  const buffer = bytes.byteOffset % 8 === 0 ? bytes.buffer : new Uint8Array(bytes).buffer;
  const base = buffer === bytes.buffer ? bytes.byteOffset : 0;
  const [lines, vertices] = new Uint32Array(buffer, base, 2);
  return {
    coords: new Float64Array(buffer, base + 8, 2 * vertices),
    starts: new Uint32Array(buffer, base + 8 + 16 * vertices, lines + 1),
  };
}

/** Runs `job` so many times and prints what every peer prints: one line of JSON. */
export function report(version, runs, job) {
  const ms = [];
  let extra = {};
  for (let i = 0; i < runs; i++) {
    const from = performance.now();
    extra = job();
    ms.push(performance.now() - from);
  }
  const peakKiB = process.resourceUsage().maxRSS;
  console.log(JSON.stringify({ version, peakKiB, ms, ...extra }));
}
