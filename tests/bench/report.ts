import type { BenchRow } from './bench.js';
import { PEERS } from './peers.js';

const peersIn = (rows: readonly BenchRow[]): string[] =>
  PEERS.map(({ name }) => name).filter((name) => rows.some((row) => name in row.results));

/** The table of times: wall milliseconds, and the faces where they are not those meant. */
export function timesTable(rows: readonly BenchRow[]): string {
  const peers = peersIn(rows);
  const head = `| workload | faces meant | ${peers.join(' | ')} |\n|---|---|${peers.map(() => '---').join('|')}|`;
  const body = rows.map((row) => {
    const meant = row.faces ?? row.results.plystep?.faces ?? null;
    const cells = peers.map((name) => {
      const result = row.results[name];
      if (result === undefined) return '';
      const time = result.ms < 100 ? result.ms.toFixed(1) : thousands(Math.round(result.ms));
      return result.faces === meant ? time : `${time} (${thousands(result.faces)} faces)`;
    });
    const faces = row.faces === null ? `${thousands(meant ?? 0)} (ours)` : thousands(row.faces);
    return `| ${row.workload} | ${faces} | ${cells.join(' | ')} |`;
  });
  return [head, ...body].join('\n');
}

/** How many times longer each peer takes than this library. */
export function ratiosTable(rows: readonly BenchRow[]): string {
  const peers = peersIn(rows).filter((name) => name !== 'plystep');
  const head = `| workload | ${peers.join(' | ')} |\n|---|${peers.map(() => '---').join('|')}|`;
  const body = rows.map(({ workload, results }) => {
    const ours = results.plystep?.ms;
    const cells = peers.map((name) => {
      const theirs = results[name]?.ms;
      return ours === undefined || theirs === undefined ? '' : (theirs / ours).toFixed(1);
    });
    return `| ${workload} | ${cells.join(' | ')} |`;
  });
  return [head, ...body].join('\n');
}

/** First run in a fresh process, and the largest resident set of a process that did it once. */
export function coldTable(rows: readonly BenchRow[]): string {
  const peers = peersIn(rows);
  const cold = rows.filter((row) => typeof row.results.plystep?.coldMs === 'number');
  const big = rows.filter((row) => row.segments >= 1_000_000);
  const line = (label: string, value: (name: string) => number | null | undefined): string =>
    `| ${label} | ${peers.map((name) => value(name)?.toFixed(0) ?? '').join(' | ')} |`;
  return [
    `| | ${peers.join(' | ')} |\n|---|${peers.map(() => '---').join('|')}|`,
    ...cold.map((row) => line(`first run, ${row.workload}, ms`, (name) => row.results[name]?.coldMs)),
    ...big.map((row) => line(`peak memory, ${row.workload}, MiB`, (name) => row.results[name]?.peakMiB)),
  ].join('\n');
}

/**
 * Growth of the time with the scene, from 10 k to 1 M segments: the exponent in the number of edges that come
 * out (segments plus what crossings add), per peer.
 */
export function growth(rows: readonly BenchRow[]): Record<string, number> {
  const scene = (size: string): BenchRow | undefined =>
    rows.find((row) => row.workload === `scene, ${size} segments`);
  const [small, large] = [scene('10 k'), scene('1 M')];
  if (small === undefined || large === undefined) return {};
  const edges = (row: BenchRow): number => row.results.plystep?.edges ?? row.segments;
  const exponents = peersIn([small, large]).map((name): [string, number] => [
    name,
    Math.log(large.results[name].ms / small.results[name].ms) / Math.log(edges(large) / edges(small)),
  ]);
  return Object.fromEntries(exponents.filter(([, exponent]) => Number.isFinite(exponent)));
}

function thousands(n: number): string {
  return String(n).replace(/\B(?=(\d{3})+$)/g, ',');
}
