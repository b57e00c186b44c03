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

/**
 * Runs `job` at least so many times and for so many seconds of processor time, and prints what every peer
 * prints: one line of JSON.
 */
export function report(version, runs, seconds, job) {
  const ms = [];
  const cpuMs = [];
  let extra = {};
  for (let i = 0, spent = 0; i < runs || spent < 1000 * seconds; i++) {
    const used = process.cpuUsage();
    const from = performance.now();
    extra = job();
    ms.push(performance.now() - from);
    const { user, system } = process.cpuUsage(used);
    cpuMs.push((user + system) / 1000);
    spent += cpuMs[i];
  }
  const peakKiB = process.resourceUsage().maxRSS;
  console.log(JSON.stringify({ version, peakKiB, ms, cpuMs, ...extra }));
}
