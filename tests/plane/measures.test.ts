import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { randomSegments } from '../bench/generate/line-sets.js';
import { picture } from '../bench/generate/picture.js';
import { scene } from '../bench/generate/scene.js';
import { encodeWorkload } from '../bench/generate/workload.js';

/** What docs/plane.md promises. */
const LONGEST_TURN_MS = 50;
const BYTES_PER_EDGE = 320;

const script = fileURLToPath(new URL('../support/measure-map.mjs', import.meta.url));

/** Time of the loop's thread between turns, and memory, of a process that maps a file of this content and does nothing else. */
async function measure(name: string, content: string | Uint8Array) {
  const folder = mkdtempSync(join(tmpdir(), 'plystep-measure-'));
  try {
    const file = join(folder, name);
    writeFileSync(file, content);
    const { stdout } = await promisify(execFile)(process.execPath, [script, file]);
    return JSON.parse(stdout) as { edges: number; longestMs: number[]; bytes: number };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

describe('mapping', () => {
  it.each([
    ['a scene of 300,000 segments', () => scene(300_000).lines],
    ['100,000 random segments', () => randomSegments(100_000).lines],
  ])(
    'of %s pauses in time, and holds its memory',
    async (_, make) => {
      const { longestMs, bytes, edges } = await measure('workload.bin', encodeWorkload(make()));
      // The best of six runs: another load on the machine only adds to it.
      expect(Math.min(...longestMs)).toBeLessThan(LONGEST_TURN_MS);
      expect(bytes / edges).toBeLessThan(BYTES_PER_EDGE);
    },
    60_000,
  );

  it('of a drawing with a thousand regions pauses in time', async () => {
    const { longestMs } = await measure('picture.svg', picture(1000));
    expect(Math.min(...longestMs)).toBeLessThan(LONGEST_TURN_MS);
  }, 60_000);
});
