import type { Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import type { CutStep, Pass } from '../workshop/cut-plan.js';
import { NodeQueue } from '../workshop/node-queue.js';
import type { PlanCanvas } from './plan-canvas.js';
import type { Progress } from './plan-progress.js';

/** A search that has met so many nodes is given up: the way back is not told then. */
const MOST_NODES = 5000;

/** Where the blade can go without sawing anything, as a plan is walked through. */
export interface KerfRoutes {
  /**
   * The ways back of a step, one for each part but the last: from where the part ends to where the next begins, along
   * kerfs and the edges of gaps, mm. Null: none was found, or the next part is come to through the waste of the board.
   */
  between(pass: Pass, step: CutStep, progress: Progress): (readonly Point[] | null)[];
  /** Takes the step as done. */
  saw(step: CutStep): void;
}

/** A part of a step: its edges by their places in the step, its first and its last node. */
interface Part {
  readonly edges: readonly number[];
  readonly from: number;
  readonly to: number;
}

export function kerfRoutes({ plan, shapes }: PlanCanvas): KerfRoutes {
  const { map, stack, frame } = plan.relief;
  const bit = new Map(stack.sheets.map(({ id }, i) => [id, 1 << i]));
  const maskOf = (ids: readonly string[]): number => ids.reduce((mask, id) => mask | (bit.get(id) ?? 0), 0);
  const sawn = new Int32Array(map.edges.length);
  const at: number[][] = [];
  map.edges.forEach(({ from, to }, e) => {
    for (const node of from === to ? [from] : [from, to]) {
      at[node] ??= [];
      at[node].push(e);
    }
  });

  const route = (from: number, to: number, isOpen: (edge: number) => boolean): Point[] | null => {
    const cost = new Map<number, number>([[from, 0]]);
    const by = new Map<number, number>();
    const done = new Set<number>();
    const queue = new NodeQueue();
    queue.push(0, from);
    for (let node = queue.pop(); node !== null && done.size < MOST_NODES; node = queue.pop()) {
      if (node === to) return walked(from, to, by);
      if (done.has(node)) continue;
      done.add(node);
      for (const e of at[node]) {
        if (!isOpen(e)) continue;
        const edge = map.edges[e];
        const next = edge.from === node ? edge.to : edge.from;
        const far = cost.get(node)! + edge.length;
        if (far >= (cost.get(next) ?? Number.POSITIVE_INFINITY)) continue;
        cost.set(next, far);
        by.set(next, e);
        queue.push(far, next);
      }
    }
    return null;
  };

  const walked = (from: number, to: number, by: ReadonlyMap<number, number>): Point[] => {
    const legs: Point[][] = [];
    for (let node = to; node !== from; ) {
      const e = by.get(node)!;
      const xy = shapes.chords(e);
      const points = Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]);
      const isForward = map.edges[e].to === node;
      legs.push(isForward ? points : points.reverse());
      node = isForward ? map.edges[e].from : map.edges[e].to;
    }
    return legs.reverse().flatMap((leg, i) => (i === 0 ? leg : leg.slice(1)));
  };

  return {
    between(pass, step, progress) {
      const parts = partsOf(step, map.edges);
      const need = maskOf(step.sheets);
      const open = (r: number, sheets: readonly string[]): boolean =>
        r === OUTSIDE ? frame === 'board-edge' : progress.standing(r, sheets) === 'open';
      // In each sheet the blade has a kerf to go in, or a gap beside it: not the same in all of them.
      const passes = (e: number): boolean => {
        const { left, right } = map.edges[e];
        if ((sawn[e] & need) === need || open(left, pass.sheets) || open(right, pass.sheets)) return true;
        return step.sheets.every(
          (id) => (sawn[e] & (bit.get(id) ?? 0)) !== 0 || open(left, [id]) || open(right, [id]),
        );
      };
      return parts.slice(1).map(({ from }, i) => {
        if (step.waysIn?.some(({ run }) => run === i + 1) === true) return null;
        const own = new Set(parts.slice(0, i + 1).flatMap(({ edges }) => edges));
        const { to } = parts[i];
        return route(to, from, (e) => own.has(e) || passes(e));
      });
    },
    saw({ edges, sheets }) {
      const mask = maskOf(sheets);
      for (const e of edges) sawn[e] |= mask;
    },
  };
}

/** The parts that a step is sawn in, in order. */
export function partsOf(
  { edges, forward }: CutStep,
  all: readonly { readonly from: number; readonly to: number }[],
): Part[] {
  const parts: { edges: number[]; from: number; to: number }[] = [];
  edges.forEach((e, i) => {
    const [from, to] = forward[i] ? [all[e].from, all[e].to] : [all[e].to, all[e].from];
    const last = parts[parts.length - 1];
    if (last?.to === from) {
      last.edges.push(e);
      last.to = to;
    } else parts.push({ edges: [e], from, to });
  });
  return parts;
}
