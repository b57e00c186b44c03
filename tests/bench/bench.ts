import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encodeWorkload, segmentCount } from './generate/workload.js';
import { PEERS, type PeerResult, runPeer } from './peers.js';
import { WORKLOADS } from './workloads.js';

/** What the bench is told. */
export interface BenchOptions {
  /** Only workloads whose name holds this text. */
  readonly only: string;
  /** Only these peers (by the start of their name); empty: all. */
  readonly peers: readonly string[];
  /** Wall time, or processor time of all threads: steadier on a busy machine, and dearer for Node. */
  readonly clock: 'wall' | 'cpu';
}

/** One workload's results, by peer. */
export interface BenchRow {
  readonly workload: string;
  readonly segments: number;
  /** Faces meant, where the making of the lines tells. */
  readonly faces: number | null;
  readonly results: Readonly<Record<string, BenchResult>>;
}

export interface BenchResult {
  readonly version: string;
  readonly faces: number;
  readonly edges: number | null;
  /** Median of the second half of the runs, the lower of two rounds; the only run of a peer that takes half a minute. */
  readonly ms: number;
  /** First run in a fresh process (median of five), where it was asked for. */
  readonly coldMs: number | null;
  /** Largest resident set of a fresh process that did it once, MiB. */
  readonly peakMiB: number;
}

/** Runs all workloads on all peers, one process at a time. */
export async function bench(options: BenchOptions): Promise<BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), 'plystep-bench-'));
  const rows: BenchRow[] = [];
  try {
    for (const { name, make, cold } of WORKLOADS) {
      if (!name.includes(options.only)) continue;
      const work = make();
      const file = join(folder, 'workload.bin');
      writeFileSync(file, encodeWorkload(work.lines));
      const row = { workload: name, segments: segmentCount(work.lines), faces: work.faces };
      console.log(
        `${name} (${row.segments} segments${work.faces === null ? '' : `, ${work.faces} faces meant`})`,
      );
      const peers = PEERS.filter(
        ({ name: peer }) =>
          options.peers.length === 0 || options.peers.some((start) => peer.startsWith(start)),
      );
      const results: Record<string, BenchResult> = {};
      // Two rounds through all peers, and the faster one counts: what else the machine does is not in all of them.
      for (let round = 0; round < 2; round++) {
        for (const peer of peers) {
          const known = results[peer.name];
          if (round > 0 && (known === undefined || known.ms > TWICE_MS)) continue;
          const result = await measure(peer, file, options.clock, cold && round === 0);
          if (result === null) continue;
          if (known === undefined) results[peer.name] = result;
          else if (result.ms < known.ms) results[peer.name] = { ...known, ms: result.ms };
        }
      }
      for (const [peer, result] of Object.entries(results)) {
        console.log(
          `  ${peer.padEnd(20)} ${result.ms.toFixed(1).padStart(9)} ms  ${String(result.faces).padStart(7)} faces  ${result.peakMiB.toFixed(0).padStart(5)} MiB${result.coldMs === null ? '' : `  first run ${result.coldMs.toFixed(1)} ms`}`,
        );
      }
      rows.push({ ...row, results });
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

/** A peer whose first run takes longer than the first is not run again, than the second only twice. */
const ONCE_MS = 30_000;
const TWICE_MS = 4_000;

/** Fewest runs, and seconds of processor time, after which a peer counts as warm: the second half is taken. */
const WARM_RUNS = 8;
const WARM_SECONDS = 3;

async function measure(
  peer: (typeof PEERS)[number],
  file: string,
  clock: BenchOptions['clock'],
  cold: boolean,
): Promise<BenchResult | null> {
  const times = (result: PeerResult): readonly number[] => (clock === 'cpu' ? result.cpuMs : result.ms);
  const first = await runPeer(peer, file, 1, 0);
  if (first === null) return null;
  const coldRuns = [times(first)[0]];
  for (let i = 0; cold && i < 4; i++) {
    const next = await runPeer(peer, file, 1, 0);
    if (next !== null) coldRuns.push(times(next)[0]);
  }
  const [took] = first.ms;
  const isSlow = took > TWICE_MS;
  const warm =
    took > ONCE_MS ? first : await runPeer(peer, file, isSlow ? 2 : WARM_RUNS, isSlow ? 0 : WARM_SECONDS);
  if (warm === null) return null;
  const runs = times(warm);
  return {
    version: warm.version,
    faces: warm.faces,
    edges: warm.edges ?? null,
    ms: median(runs.slice(runs.length >> 1)),
    coldMs: cold ? median(coldRuns) : null,
    peakMiB: first.peakKiB / 1024,
  };
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}
