import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import type { LineWork } from '../support/line-work.js';
import { CAMPAIGNS, type Campaign } from './campaigns.js';

/** What the long run is told. */
export interface LongRun {
  readonly seed: number;
  readonly seconds: number;
  /** Only campaigns whose name holds this text. */
  readonly only: string;
  /** Only this weld, mm. */
  readonly weld: number | null;
  /** Folder for failing cases, or null to print only. */
  readonly keep: string | null;
}

const BATCH = 500;

/** Runs all campaigns in turn, batch by batch, until the time is up. Returns the number of failures found. */
export function longRun(run: LongRun): number {
  const jobs = Object.entries(CAMPAIGNS)
    .filter(([name]) => name.includes(run.only))
    .flatMap(([name, campaign]) => campaign.welds.map((weld) => ({ name, campaign, weld })))
    .filter(({ weld }) => run.weld === null || run.weld === weld);
  const end = Date.now() + 1000 * run.seconds;
  const failed = new Set<string>();
  let cases = 0;
  for (let seed = run.seed; Date.now() < end && failed.size < jobs.length; seed++) {
    for (const { name, campaign, weld } of jobs) {
      const label = `${name}, weld ${weld}`;
      if (failed.has(label) || Date.now() >= end) continue;
      cases += BATCH;
      const found = runBatch(campaign, weld, seed);
      if (found === null) continue;
      failed.add(label);
      report(run, name, weld, seed, found);
    }
  }
  console.log(`${cases} cases, ${failed.size} failures, seeds from ${run.seed}`);
  return failed.size;
}

interface Found {
  readonly lines: LineWork;
  readonly redraw: number;
  readonly problem: string;
}

function runBatch({ property, lines }: Campaign, weld: number, seed: number): Found | null {
  const attempt = (work: LineWork, redraw: number): string | null => {
    try {
      return property(work, weld, redraw);
    } catch (error) {
      return `threw ${error instanceof Error ? error.stack : String(error)}`;
    }
  };
  const details = fc.check(
    fc.property(lines, fc.nat(), (work, redraw) => attempt(work, redraw) === null),
    { seed, numRuns: BATCH },
  );
  if (!details.failed || details.counterexample === null) return null;
  const [work, redraw] = details.counterexample;
  return { lines: work, redraw, problem: attempt(work, redraw) ?? 'passes when run again' };
}

function report(run: LongRun, name: string, weld: number, seed: number, found: Found): void {
  const entry = { campaign: name, weld, redraw: found.redraw, seed, lines: found.lines };
  const text = `${JSON.stringify(entry)}\n`;
  console.log(`${name}, weld ${weld}, seed ${seed}: ${found.problem}\n  ${text}`);
  if (run.keep === null) return;
  mkdirSync(run.keep, { recursive: true });
  const digest = createHash('sha256').update(text).digest('hex').slice(0, 8);
  const file = join(run.keep, `${name.replace(/[^a-z]+/g, '-')}-${digest}.json`);
  writeFileSync(file, text);
  console.log(`  kept as ${file}`);
}
