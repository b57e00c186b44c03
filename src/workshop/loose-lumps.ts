import { OUTSIDE } from '../plane/region-map.js';
import { DisjointSets } from './disjoint-sets.js';
import type { SheetSet } from './sheet-sets.js';
import { isParted, type StandingStock } from './standing-stock.js';

/** Follows a setting step by step, to tell in the end what came loose from the rest, and when. */
export interface LumpWatch {
  /** A step has sawn these lines and freed these regions. */
  stepDone(lines: readonly number[], freed: readonly number[]): void;
  /** By step: the lumps of standing stock that came apart from the rest with it, as region indices. */
  lumps(): (readonly (readonly number[])[])[];
}

/** A piece that a step frees is no lump: what counts is stock that is sawn on. */
export function watchLumps(stock: StandingStock, held: SheetSet): LumpWatch {
  const { map, counted } = stock;
  const BEFORE = -1;
  const NEVER = -2;
  const parted = Int32Array.from(map.edges, ({ kind }, e) =>
    counted[e] === 0 || kind !== 'border' || isParted(stock, e, held) ? BEFORE : NEVER,
  );
  const freedAt = new Int32Array(map.regions.length + 1).fill(NEVER);
  const byStep: number[][] = [];
  return {
    stepDone(lines, freed) {
      const step = byStep.length;
      const now: number[] = [];
      const look = (e: number): void => {
        if (parted[e] !== NEVER || !isParted(stock, e, held)) return;
        parted[e] = step;
        now.push(e);
      };
      lines.forEach(look);
      for (const r of freed) {
        freedAt[r] = step;
        for (const loop of map.regions[r].loops) for (const { edge } of loop) look(edge);
      }
      byStep.push(now);
    },
    lumps() {
      const heap = new Lumps(stock);
      parted.forEach((step, e) => {
        if (step === NEVER) heap.join(e);
      });
      const found: (readonly (readonly number[])[])[] = byStep.map(() => []);
      // Backwards: what a step parted was one before it.
      for (let step = byStep.length - 1; step >= 0; step--) {
        found[step] = heap.rejoin(byStep[step], (r) => freedAt[r] === step);
      }
      return found;
    },
  };
}

/** Stock that hangs together, put together again line by line. */
class Lumps {
  readonly #stock: StandingStock;
  readonly #sets: DisjointSets;
  /** The members of each set, by the set's name; the board is the last index. */
  readonly #members: number[][];

  constructor(stock: StandingStock) {
    const n = stock.map.regions.length;
    this.#stock = stock;
    this.#sets = new DisjointSets(n + 1);
    this.#members = Array.from({ length: n + 1 }, (_, i) => [i]);
  }

  join(edge: number): void {
    const [a, b] = this.#sides(edge);
    if (a === b) return;
    this.#sets.join(a, b);
    const [kept, other] = this.#sets.find(a) === a ? [a, b] : [b, a];
    const [long, short] =
      this.#members[kept].length < this.#members[other].length
        ? [this.#members[other], this.#members[kept]]
        : [this.#members[kept], this.#members[other]];
    for (const member of short) long.push(member);
    this.#members[kept] = long;
    this.#members[other] = [];
  }

  /** Joins across lines, and tells which lumps were apart: of those that become one, all but the largest. */
  rejoin(edges: readonly number[], isFreed: (region: number) => boolean): number[][] {
    const sides = new Set(edges.flatMap((e) => this.#sides(e)));
    const apart = [...sides].filter((set) => !isFreed(this.#members[set][0]));
    const lists = new Map(apart.map((set) => [set, [...this.#members[set]]]));
    for (const e of edges) this.join(e);
    const groups = new Map<number, number[][]>();
    for (const [set, list] of lists) {
      const whole = this.#sets.find(set);
      groups.set(whole, [...(groups.get(whole) ?? []), list]);
    }
    return [...groups.values()].flatMap((group) => {
      const largest = group.reduce((a, b) => (this.#size(b) > this.#size(a) ? b : a));
      return group.filter((list) => list !== largest).map((list) => list.sort((a, b) => a - b));
    });
  }

  #sides(edge: number): [number, number] {
    const { regions, edges } = this.#stock.map;
    const { left, right } = edges[edge];
    const place = (r: number): number => this.#sets.find(r === OUTSIDE ? regions.length : r);
    return [place(left), place(right)];
  }

  #size(list: readonly number[]): number {
    const { regions } = this.#stock.map;
    return list.reduce(
      (sum, r) => (r === regions.length ? Number.POSITIVE_INFINITY : sum + regions[r].area),
      0,
    );
  }
}
