import type { Curve } from '../../geometry/curve.js';
import { distance, type Point } from '../../geometry/point.js';
import type { Subpath } from '../drawing.js';

/** Ends nearer to each other than this (mm) are one point: two steps of the grid that the map rounds to. */
const SAME_POINT = 2 / 1024;

/**
 * Joins directed curves that meet end to end into closed loops. Where nothing goes on, a loop is closed by a
 * straight line; curves that are no longer than a point are left out.
 */
export function joinLoops(curves: readonly Curve[]): Subpath[] {
  const nodes = new NodeTable();
  const ends = curves.map((curve) => [nodes.at(curve.from), nodes.at(curve.to)] as const);
  const leaving: number[][] = nodes.points.map(() => []);
  const balance = new Int32Array(nodes.points.length);
  for (const [i, [from, to]] of ends.entries()) {
    if (from === to && isPoint(curves[i])) continue;
    leaving[from].push(i);
    balance[from]++;
    balance[to]--;
  }
  const loops: Subpath[] = [];
  const trace = (start: number): void => {
    const run: Curve[] = [];
    let at = start;
    for (let next = leaving[at].pop(); next !== undefined; next = leaving[at].pop()) {
      const to = ends[next][1];
      run.push({ ...curves[next], from: nodes.points[at], to: nodes.points[to] });
      at = to;
      if (at === start) break;
    }
    if (run.length === 0) return;
    if (at !== start) run.push({ kind: 'line', from: nodes.points[at], to: nodes.points[start] });
    loops.push({ curves: run, closed: true });
  };
  // What has no beginning elsewhere first, so that a broken loop is walked from its start.
  for (let node = 0; node < leaving.length; node++) {
    for (let loose = balance[node]; loose > 0; loose--) trace(node);
  }
  for (let node = 0; node < leaving.length; node++) {
    while (leaving[node].length > 0) trace(node);
  }
  return loops;
}

/** A curve that stays within a point: a sliver of a line. Closed curves of any size do not. */
function isPoint(curve: Curve): boolean {
  switch (curve.kind) {
    case 'line':
      return true;
    case 'quadratic':
      return distance(curve.from, curve.control) <= SAME_POINT;
    case 'cubic':
      return (
        distance(curve.from, curve.control1) <= SAME_POINT &&
        distance(curve.from, curve.control2) <= SAME_POINT
      );
    case 'arc':
      return Math.abs(curve.sweep) * Math.max(curve.rx, curve.ry) <= SAME_POINT;
  }
}

/** Points by place; near ones are one. */
class NodeTable {
  readonly points: Point[] = [];
  readonly #cells = new Map<string, number[]>();

  at(p: Point): number {
    const cx = Math.floor(p[0] / SAME_POINT);
    const cy = Math.floor(p[1] / SAME_POINT);
    for (let x = cx - 1; x <= cx + 1; x++) {
      for (let y = cy - 1; y <= cy + 1; y++) {
        const near = this.#cells.get(`${x} ${y}`)?.find((i) => distance(this.points[i], p) <= SAME_POINT);
        if (near !== undefined) return near;
      }
    }
    const cell = this.#cells.get(`${cx} ${cy}`);
    if (cell) cell.push(this.points.length);
    else this.#cells.set(`${cx} ${cy}`, [this.points.length]);
    this.points.push(p);
    return this.points.length - 1;
  }
}
