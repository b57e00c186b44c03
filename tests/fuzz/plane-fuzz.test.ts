/**
 * Every campaign of the long run, shortly, with a fixed seed; then every case that a long run ever kept in
 * fixtures/hard/. `node tests/fuzz/run.mjs` searches on with other seeds.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CAMPAIGNS } from './campaigns.js';
import type { Kept } from './long-run.js';

const SEED = 20240607;

describe('nearly degenerate line work', () => {
  for (const [name, { search, welds, runs }] of Object.entries(CAMPAIGNS)) {
    for (const weld of welds) {
      it(`${name}, weld ${weld} mm`, async () => {
        expect(await search(weld, SEED, runs)).toBeNull();
      });
    }
  }
});

describe('cases that failed once', () => {
  const folder = new URL('../../fixtures/hard/', import.meta.url);
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'));
  it('are there', () => {
    expect(files).not.toEqual([]);
  });
  for (const file of files) {
    it(file, async () => {
      const kept: Kept = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
      expect(Object.keys(CAMPAIGNS)).toContain(kept.campaign);
      expect(await CAMPAIGNS[kept.campaign].replay(kept.work, kept.weld, kept.redraw)).toBeNull();
    });
  }
});
