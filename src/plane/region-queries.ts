import { demandIndex, demandStage } from '../arguments.js';
import { type Curve, derivativeAt, reverseCurve } from '../geometry/curve.js';
import { loopCurves } from './edge-curves.js';
import { type LoopStep, OUTSIDE, type RegionMap } from './region-map.js';

/** One step of the walk around a region: an edge, what lies across it, and its true line in walking direction. */
export interface WalkStep extends LoopStep {
  /** Region index across the edge, or OUTSIDE. */
  readonly across: number;
  readonly curves: readonly Curve[];
}

function demandRegion(map: RegionMap, region: number, call: string): void {
  demandStage(map, ['region map'], call);
  demandIndex(region, map.regions.length, call, 'region');
}

/** The walks around a region: its outline first (the region on the left), then around each hole. */
export function walkAround(map: RegionMap, region: number): WalkStep[][] {
  demandRegion(map, region, 'walkAround');
  return map.regions[region].loops.map((loop) =>
    loop.map(({ edge, forward }) => {
      const { left, right } = map.edges[edge];
      return { edge, forward, across: forward ? right : left, curves: loopCurves(map, [{ edge, forward }]) };
    }),
  );
}

/**
 * The common border of two regions (or of a region and OUTSIDE) as runs of curves, each as long as it lasts, with
 * the first region on the left. Empty where they share none.
 */
export function borderBetween(map: RegionMap, a: number, b: number): Curve[][] {
  for (const side of [a, b]) if (side !== OUTSIDE) demandRegion(map, side, 'borderBetween');
  if (a === OUTSIDE) return b === OUTSIDE ? [] : borderBetween(map, b, a).map(reversedRun);
  const runs: Curve[][] = [];
  for (const walk of walkAround(map, a)) {
    // Start where the border with b is not under way, so that no run is cut in two.
    const start = walk.findIndex((step, i) => step.across === b && walk.at(i - 1)!.across !== b);
    if (start < 0) {
      if (walk.every((step) => step.across === b)) runs.push(walk.flatMap(({ curves }) => curves));
      continue;
    }
    let run: Curve[] | null = null;
    for (let i = 0; i < walk.length; i++) {
      const step = walk[(start + i) % walk.length];
      if (step.across !== b) run = null;
      else if (run === null) {
        run = [...step.curves];
        runs.push(run);
      } else run.push(...step.curves);
    }
  }
  return runs;
}

const reversedRun = (run: readonly Curve[]): Curve[] => [...run].reverse().map(reverseCurve);

/** Region indices (OUTSIDE included) around a node, by rising angle from +x towards +y; each once per visit. */
export function regionsAround(map: RegionMap, node: number): number[] {
  demandStage(map, ['region map'], 'regionsAround');
  demandIndex(node, map.nodes.length, 'regionsAround', 'node');
  const spokes: { angle: number; after: number }[] = [];
  map.edges.forEach((edge) => {
    for (const forward of [true, false]) {
      if ((forward ? edge.from : edge.to) !== node) continue;
      const curve = loopCurves({ ...map, edges: [edge] }, [{ edge: 0, forward }])[0];
      const [x, y] = leaving(curve);
      const angle = Math.atan2(y, x);
      // On the page the next sector by rising angle lies to the right of the way out.
      spokes.push({
        angle: angle < 0 ? angle + 2 * Math.PI : angle,
        after: forward ? edge.right : edge.left,
      });
    }
  });
  return spokes.sort((a, b) => a.angle - b.angle).map(({ after }) => after);
}

/** Direction in which a curve leaves its start; by a point further on where it starts with no speed. */
function leaving(curve: Curve): readonly [number, number] {
  for (const t of [0, 1e-3, 1e-1]) {
    const [x, y] = derivativeAt(curve, t);
    if (x !== 0 || y !== 0) return [x, y];
  }
  return [curve.to[0] - curve.from[0], curve.to[1] - curve.from[1]];
}

/** How many regions enclose a region's line work: 0 where nothing does. */
export function nestingLevel(map: RegionMap, region: number): number {
  demandRegion(map, region, 'nestingLevel');
  let level = 0;
  for (let at = map.regions[region].inside; at !== OUTSIDE; at = map.regions[at].inside) level++;
  return level;
}

/**
 * A shortest way out: regions from the given one to one that borders on the outside, each sharing border with
 * the next; of equally short ways the one by the smaller indices.
 */
export function pathOut(map: RegionMap, region: number): number[] {
  demandRegion(map, region, 'pathOut');
  const before = new Map<number, number>([[region, region]]);
  const queue = [region];
  for (const at of queue) {
    if (map.regions[at].outsideLength > 0) {
      const path = [at];
      while (path[0] !== region) path.unshift(before.get(path[0])!);
      return path;
    }
    for (const { region: next } of map.regions[at].neighbours) {
      if (before.has(next)) continue;
      before.set(next, at);
      queue.push(next);
    }
  }
  return [];
}
