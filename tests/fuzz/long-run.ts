import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { CAMPAIGNS, type Found } from './campaigns.js';

/** What the long run is told. */
export interface LongRun {
  readonly seed: number;
  readonly seconds: number;
  /** Only campaigns whose name holds this text. */
  readonly only: string;
  /** Only this weld, mm. */
  readonly weld: number | null;
  /** Folder for failing cases. */
  readonly keep: string;
}

const BATCH = 200;

/** Runs all campaigns in turn, batch by batch, until the time is up. Resolves to the number of failures found. */
export async function longRun(run: LongRun): Promise<number> {
  const jobs = Object.entries(CAMPAIGNS)
    .filter(([name]) => name.includes(run.only))
    .flatMap(([name, campaign]) => campaign.welds.map((weld) => ({ name, campaign, weld })))
    .filter(({ weld }) => run.weld === null || run.weld === weld);
  const end = Date.now() + 1000 * run.seconds;
  const failed = new Set<string>();
  const cases = new Map<string, number>();
  for (let seed = run.seed; Date.now() < end && failed.size < jobs.length; seed++) {
    for (const { name, campaign, weld } of jobs) {
      const label = `${name}, weld ${weld}`;
      if (failed.has(label) || Date.now() >= end) continue;
      cases.set(label, (cases.get(label) ?? 0) + BATCH);
      const found = await campaign.search(weld, seed, BATCH);
      if (found === null) continue;
      failed.add(label);
      report(run, name, weld, seed, found);
    }
  }
  for (const [label, count] of cases)
    console.log(`${label}: ${count} cases${failed.has(label) ? ', failed' : ''}`);
  const total = [...cases.values()].reduce((sum, count) => sum + count, 0);
  console.log(`${total} cases, ${failed.size} failures, seeds from ${run.seed}`);
  return failed.size;
}

/** A case as it is kept in a file. */
export interface Kept {
  readonly campaign: string;
  readonly weld: number;
  readonly redraw: number;
  readonly work: unknown;
}

/** Runs one kept case again and prints what is wrong with it. Resolves to the number of failures, 0 or 1. */
export async function replay(file: string): Promise<number> {
  const kept: Kept = JSON.parse(readFileSync(file, 'utf8'));
  const problem = await CAMPAIGNS[kept.campaign].replay(kept.work, kept.weld, kept.redraw);
  console.log(`${kept.campaign}, weld ${kept.weld}: ${problem ?? 'passes'}`);
  return problem === null ? 0 : 1;
}

function report(run: LongRun, name: string, weld: number, seed: number, found: Found): void {
  const kept: Kept = { campaign: name, weld, redraw: found.redraw, work: found.work };
  const text = `${JSON.stringify(kept)}\n`;
  console.log(`${name}, weld ${weld}, seed ${seed}: ${found.problem}\n  ${text}`);
  mkdirSync(run.keep, { recursive: true });
  const digest = createHash('sha256').update(text).digest('hex').slice(0, 8);
  const file = join(run.keep, `${name.replace(/[^a-z]+/g, '-')}-${digest}.json`);
  writeFileSync(file, text);
  console.log(`  kept as ${file}`);
}
