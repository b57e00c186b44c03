import { GRID_STEP, STEPS_PER_MM } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import type { Arrangement } from '../../src/plane/arrangement.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { adjacentPairs, identity, shape } from '../support/arrangement-facts.js';
import { exactFacts } from '../support/exact-arrangement.js';
import { exploded, type LineWork, lineSet, MOTIONS, moved, redrawn } from '../support/line-work.js';
import { randomSource } from '../support/random.js';

/** What must hold of any line work: each returns null, or what is wrong. `weld` in mm. */
export type Property = (lines: LineWork, weld: number, seed: number) => string | null;

const arranged = (lines: LineWork, weld: number): Arrangement => arrangeLines(lineSet(lines), { weld });

function differs(what: string, a: unknown, b: unknown): string | null {
  const [x, y] = [JSON.stringify(a), JSON.stringify(b)];
  return x === y ? null : `${what}: ${x.slice(0, 300)} became ${y.slice(0, 300)}`;
}

/** The invariants that the library's own checker states. */
export const isValid: Property = (lines, weld) => verifyArrangement(arranged(lines, weld)).join('; ') || null;

/** Another order, other directions, lines drawn twice: the identical map. */
export const isStableWhenRedrawn: Property = (lines, weld, seed) => {
  const again = redrawn(lines, randomSource(seed));
  return differs('redrawn', identity(arranged(lines, weld)), identity(arranged(again, weld)));
};

/** Without a weld a polyline is no more than its segments. */
export const isStableWhenExploded: Property = (lines) =>
  differs('exploded', identity(arranged(lines, 0)), identity(arranged(exploded(lines), 0)));

/** Rounding moves an edge by half a step, perhaps into a pixel that it did not meet before: so a few rounds. */
const SETTLING_ROUNDS = 12;

/** The edges of a map, arranged again and again, stay a valid map and come to rest. */
export const isSettling: Property = (lines, weld) => {
  let a = arranged(lines, weld);
  for (let round = 0; round < SETTLING_ROUNDS; round++) {
    const again = arranged(edgesOf(a), 0);
    const problems = verifyArrangement(again).join('; ');
    if (problems !== '') return `round ${round}: ${problems}`;
    if (differs('', identity(a), identity(again)) === null) return null;
    a = again;
  }
  return `no rest after ${SETTLING_ROUNDS} rounds`;
};

function edgesOf(a: Arrangement): LineWork {
  const at = (v: number): Point => [a.nodeX[v] * GRID_STEP, a.nodeY[v] * GRID_STEP];
  return Array.from(a.edgeFrom, (u, e): Point[] => [at(u), at(a.edgeTo[e])]);
}

/**
 * Lines on the grid, shifted by whole steps. Without a weld: the same map, shifted. With one, places on lines
 * are found in doubles, which differ in the last bit: the same faces, adjacency and containment.
 */
export const isStableWhenShifted: Property = (lines, weld) => {
  const onGrid = lines.map((line) =>
    line.map(
      ([x, y]): Point => [Math.round(x * STEPS_PER_MM) * GRID_STEP, Math.round(y * STEPS_PER_MM) * GRID_STEP],
    ),
  );
  const a = arranged(onGrid, weld);
  const b = arranged(moved(onGrid, MOTIONS.shift), weld);
  if (weld > 0) return differs('shifted', shape(a), shape(b));
  const [dx, dy] = MOTIONS.shift([0, 0]);
  const back = {
    ...b,
    nodeX: b.nodeX.map((x) => x - dx * STEPS_PER_MM),
    nodeY: b.nodeY.map((y) => y - dy * STEPS_PER_MM),
  };
  return differs('shifted', identity(a), identity(back));
};

/** Features that rounding by half a step cannot change, in grid steps. */
const CLEAR = 3;

/**
 * Integer line work, one unit a grid step: where every node keeps clear of every edge, the counts are those of
 * rational arithmetic, and each area is off by no more than rounding can move its border.
 */
export const isExactWhenClear: Property = (lines) => {
  const exact = exactFacts(lines);
  if (exact.clearance < CLEAR) return null;
  const a = arranged(
    lines.map((line) => line.map(([x, y]): Point => [x * GRID_STEP, y * GRID_STEP])),
    0,
  );
  const counts = {
    nodes: a.nodeX.length,
    edges: a.edgeFrom.length,
    parts: a.componentCount,
    faces: a.faceCount,
    pairs: adjacentPairs(a),
  };
  const { areas, clearance, ...meant } = exact;
  const problem = differs(`exact, clearance ${clearance}`, meant, counts);
  if (problem !== null) return problem;
  const found = Array.from(a.faceArea, (area) => area * STEPS_PER_MM ** 2).sort((p, q) => p - q);
  const perimeter = 4 * 2 ** 21;
  const off = found.findIndex((area, i) => Math.abs(area - areas[i]) > perimeter);
  return off < 0 ? null : `area ${areas[off]} became ${found[off]}`;
};

/**
 * Integer line work, one unit a grid step, mirrored and turned by quarters: the same faces, adjacency and
 * containment. A pixel is half open, so what is thinner than a step may fall on either side of a tie: only
 * where every node keeps clear of every edge.
 */
export const isStableWhenTurned: Property = (lines) => {
  if (exactFacts(lines).clearance < CLEAR) return null;
  const inSteps = lines.map((line) => line.map(([x, y]): Point => [x * GRID_STEP, y * GRID_STEP]));
  const before = shape(arranged(inSteps, 0));
  for (const name of ['mirror', 'flip', 'quarter', 'half']) {
    const problem = differs(name, before, shape(arranged(moved(inSteps, MOTIONS[name]), 0)));
    if (problem !== null) return problem;
  }
  return null;
};
