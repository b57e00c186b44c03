import type { Curve } from '../../geometry/curve.js';
import { distance, type Point } from '../../geometry/point.js';
import type { Subpath } from '../drawing.js';

/** Ends nearer to each other than this (mm) are one point: two steps of the grid that the map rounds to. */
const SAME_POINT = 2 / 1024;

/** Joins curves that meet end to end into closed loops. Ends that nothing meets are closed by a straight line. */
export function joinLoops(curves: readonly Curve[]): Subpath[] {
  const nodes = new NodeTable();
  const ends = curves.map((curve) => [nodes.at(curve.from), nodes.at(curve.to)] as const);
  const around: number[][] = nodes.points.map(() => []);
  for (const [i, [from, to]] of ends.entries()) {
    if (from === to && curves[i].kind === 'line') continue;
    around[from].push(i);
    around[to].push(i);
  }
  const used = new Uint8Array(curves.length);
  const loops: Subpath[] = [];
  const trace = (first: number): void => {
    const start = ends[first][0];
    let at = start;
    const run: Curve[] = [];
    for (let next: number | undefined = first; next !== undefined; ) {
      used[next] = 1;
      const [from, to] = ends[next];
      const forward = from === at;
      run.push(between(curves[next], forward, nodes.points[at], nodes.points[forward ? to : from]));
      at = forward ? to : from;
      if (at === start) break;
      while (around[at].length > 0 && used[around[at][around[at].length - 1]] === 1) around[at].pop();
      next = around[at].pop();
    }
    if (at !== start) run.push({ kind: 'line', from: nodes.points[at], to: nodes.points[start] });
    loops.push({ curves: run, closed: true });
  };
  // Loose ends first, so that what hangs together there is one run.
  const order = curves.map((_, i) => i).sort((p, q) => Number(isLoose(q)) - Number(isLoose(p)) || p - q);
  function isLoose(i: number): boolean {
    return around[ends[i][0]].length % 2 === 1;
  }
  for (const i of order) {
    if (used[i] === 0 && around[ends[i][0]].length > 0) trace(i);
  }
  return loops;
}

/** The curve from node point to node point, turned round where it is walked backwards. */
function between(curve: Curve, forward: boolean, from: Point, to: Point): Curve {
  if (forward) return { ...curve, from, to };
  switch (curve.kind) {
    case 'line':
    case 'quadratic':
      return { ...curve, from, to };
    case 'cubic':
      return { ...curve, from, control1: curve.control2, control2: curve.control1, to };
    case 'arc':
      return { ...curve, from, to, start: curve.start + curve.sweep, sweep: -curve.sweep };
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
