/**
 * Every campaign of the long run, shortly, with a fixed seed; then every case that a long run ever kept in
 * fixtures/hard/. `node tests/fuzz/run.mjs` searches on with other seeds.
 */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LineWork } from '../support/line-work.js';
import { CAMPAIGNS } from './campaigns.js';

const SEED = 20240607;

describe('nearly degenerate line work', () => {
  for (const [name, { property, lines, welds, runs }] of Object.entries(CAMPAIGNS)) {
    for (const weld of welds) {
      it(`${name}, weld ${weld} mm`, () => {
        fc.assert(
          fc.property(lines, fc.nat(), (work, redraw) => {
            expect(property(work, weld, redraw)).toBeNull();
          }),
          { seed: SEED, numRuns: runs },
        );
      });
    }
  }
});

/** A case as the long run keeps it. */
interface Kept {
  readonly campaign: string;
  readonly weld: number;
  readonly redraw: number;
  readonly lines: LineWork;
}

describe('cases that failed once', () => {
  const folder = new URL('../../fixtures/hard/', import.meta.url);
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'));
  it('are there', () => {
    expect(files).not.toEqual([]);
  });
  for (const file of files) {
    it(file, () => {
      const kept: Kept = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
      const campaign = CAMPAIGNS[kept.campaign];
      expect(campaign).toBeDefined();
      expect(campaign.property(kept.lines, kept.weld, kept.redraw)).toBeNull();
    });
  }
});
