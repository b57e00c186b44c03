import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** What a peer prints: one line of JSON. */
export interface PeerResult {
  readonly version: string;
  readonly faces: number;
  /** Edges of the result, where the peer tells. */
  readonly edges?: number;
  /** Largest resident set of its process, KiB. */
  readonly peakKiB: number;
  /** Every run, in order; the first one is cold. */
  readonly ms: readonly number[];
  /** The same in processor time, all threads: steadier where other programs run. */
  readonly cpuMs: readonly number[];
}

/** Something that turns line work into faces, in a process of its own. */
export interface Peer {
  readonly name: string;
  /** Exact or snapped: counts for "no slower than the fastest native"; a floating union is shown beside. */
  readonly kind: 'ours' | 'script' | 'native' | 'floating';
  /** The program and its arguments before RUNS and SECONDS; null where it is not built. */
  readonly command: (file: string) => readonly string[] | null;
}

const path = (name: string): string => fileURLToPath(new URL(name, new URL('tests/bench/', ROOT)));

/** The checkout, told by run.mjs. */
const ROOT = new URL(`file://${process.env.PLYSTEP_BENCH_ROOT ?? process.cwd()}/`);

const built = (name: string): boolean => existsSync(path(`native/build/${name}`));

export const PEERS: readonly Peer[] = [
  {
    name: 'plystep',
    kind: 'ours',
    command: (file) => [process.execPath, path('peers/plystep.mjs'), file],
  },
  {
    name: 'CGAL exact',
    kind: 'native',
    command: (file) => (built('cgal') ? [path('native/build/cgal'), file] : null),
  },
  {
    name: 'GEOS grid',
    kind: 'native',
    command: (file) => (built('geos') ? [path('native/build/geos'), file, 'snap'] : null),
  },
  {
    name: 'GEOS floating',
    kind: 'floating',
    command: (file) => (built('geos') ? [path('native/build/geos'), file, 'floating'] : null),
  },
  {
    name: 'jsts snap rounding',
    kind: 'script',
    command: (file) => [process.execPath, path('peers/jsts.mjs'), file, 'snap'],
  },
  {
    name: 'jsts one pass',
    kind: 'script',
    command: (file) => [process.execPath, path('peers/jsts.mjs'), file, 'one-pass'],
  },
];

/** Longest that a peer may take on one workload, all runs together. */
const TIME_LIMIT_MS = 400_000;

/** Runs a peer at least so often and for so many seconds of processor time; null where it is not built, fails or takes too long (said on the console). */
export async function runPeer(
  peer: Peer,
  file: string,
  runs: number,
  seconds: number,
): Promise<PeerResult | null> {
  const command = peer.command(file);
  if (command === null) return null;
  const [program, ...args] = command;
  return new Promise((resolve) => {
    execFile(
      program,
      [...args, String(runs), String(seconds)],
      { timeout: TIME_LIMIT_MS, maxBuffer: 1 << 24 },
      (error, stdout) => {
        if (error !== null) {
          console.error(`  ${peer.name}: ${error.message.split('\n')[0]}`);
          resolve(null);
          return;
        }
        resolve(JSON.parse(stdout));
      },
    );
  });
}
