import { OUTSIDE } from '../plane/region-map.js';
import type { CutPlan, CutStep, Pass, WastePlace } from '../workshop/cut-plan.js';
import { walkPlan } from './plan-progress.js';

/** What hangs together, with the letter that it keeps through the whole job. */
export interface LetteredBlock {
  readonly letter: string;
  /** Region indices. */
  readonly regions: readonly number[];
  /** mm², within the drawing. */
  readonly area: number;
  /** Part of the board that tape across the ways in alone holds to the rest: where it lies; null: it is no such part. */
  readonly taped: WastePlace | null;
  /** Where it lies on the board, for a part of that; null: it is the board, or no part of it. */
  readonly place: WastePlace | null;
  /** The board, or a part of it, on which others may hang by tape. */
  readonly board: boolean;
  /** It has got its letter with this setting. */
  readonly isNew: boolean;
}

/** A block that comes loose with a step. */
export interface LetteredLump {
  readonly letter: string;
  readonly regions: readonly number[];
  /** Letters of the blocks that still stand beside it, ascending. */
  readonly beside: readonly string[];
  /** Those of them that stand there, on the table with it, until all of it is sawn: it can be taped to them. */
  readonly lasting: readonly string[];
}

/** Another block goes on the table before a step. */
export interface TableChange {
  /** What was sawn last, and what is sawn now. */
  readonly off: string;
  readonly on: string;
  /** It is taped to something beside it, which lies on the table with it. */
  readonly offTaped: boolean;
  readonly onTaped: boolean;
  /** What was sawn last lies in its place in the board. */
  readonly offBoard: boolean;
}

export interface StepBlocks {
  /** The block that it saws; undefined where there is only one. */
  readonly own: string | undefined;
  /** It lies on the table by itself, and not in its place in the board. */
  readonly alone: boolean;
  /** Absent: what is on the table stays there. */
  readonly change?: TableChange;
  /** The block that others come loose or apart from: it keeps its letter. */
  readonly rest: string;
  /** As `comesLoose`. */
  readonly lumps: readonly LetteredLump[];
  /** Letters of `boardApart`. */
  readonly apart: readonly string[];
}

/** The letters of all blocks of a plan. */
export interface PlanBlocks {
  setting(pass: Pass): readonly LetteredBlock[];
  step(step: CutStep): StepBlocks;
}

/** A, B … Z, A2, B2 … */
export function blockLetter(place: number): string {
  const letter = String.fromCharCode(65 + (place % 26));
  return place < 26 ? letter : `${letter}${Math.floor(place / 26) + 1}`;
}

/**
 * Letters what hangs together: A is the board, and what comes apart from a block takes the next letter, while the
 * largest part keeps its own. So a letter means one thing over steps and settings. Continuous sheets are boards of
 * their own: each begins with A.
 */
export function planBlocks(plan: CutPlan): PlanBlocks {
  const letters = new Letters(plan);
  const settings = new Map<Pass, LetteredBlock[]>();
  const steps = new Map<CutStep, StepBlocks>();
  walkPlan(plan, (progress, pass, step) => {
    if (pass.phase === 'add-ons') return;
    if (step === null) settings.set(pass, letters.begin(pass));
    else
      steps.set(
        step,
        letters.saw(pass, step, (r) => progress.standing(r, pass.sheets) === 'open'),
      );
  });
  const none: StepBlocks = { own: undefined, alone: false, rest: blockLetter(0), lumps: [], apart: [] };
  return { setting: (pass) => settings.get(pass) ?? [], step: (step) => steps.get(step) ?? none };
}

/** What lies on the table in the place of the board. */
const BOARD = -1;

class Letters {
  readonly #plan: CutPlan;
  /** The letter of each region, by its place in the alphabet. */
  readonly #of: Int32Array;
  #next = 1;
  /** What is on the table in this setting. */
  #inPlay = new Set<number>();
  /** Where parts of the board lie, by their letters. */
  readonly #places = new Map<number, WastePlace>();
  /** By letter, what lies on the table together: the letter of that, for blocks that lie by themselves. */
  #tables = new Map<number, number>();
  /** Letters of what tape holds to its neighbours. */
  #taped = new Set<number>();
  /** The letter of what was sawn last in this setting. */
  #last: number | null = null;

  constructor(plan: CutPlan) {
    this.#plan = plan;
    this.#of = new Int32Array(plan.relief.map.regions.length);
  }

  begin(pass: Pass): LetteredBlock[] {
    if (this.#plan.relief.joint === 'continuous') {
      this.#of.fill(0);
      this.#next = 1;
    }
    const found = blocksOf(pass).map((block) => ({ ...block, area: this.#area(block.regions) }));
    const used = new Set<number>();
    const taken = new Map<(typeof found)[number], { letter: number; isNew: boolean }>();
    for (const block of [...found].sort((a, b) => b.area - a.area)) {
      const old = this.#votes(block.regions).find((letter) => !used.has(letter));
      const letter = old ?? this.#next++;
      used.add(letter);
      taken.set(block, { letter, isNew: old === undefined });
    }
    this.#inPlay = used;
    this.#last = null;
    this.#tables = new Map();
    this.#taped = new Set();
    for (const [{ board, taped: place }, { letter }] of taken) {
      if (!board) this.#tables.set(letter, letter);
      if (place !== null) this.#taped.add(letter);
    }
    return found
      .map((block) => ({ block, ...taken.get(block)! }))
      .sort((a, b) => a.letter - b.letter)
      .map(({ block, letter, isNew }) => {
        for (const r of block.regions) this.#of[r] = letter;
        if (block.taped !== null) this.#places.set(letter, block.taped);
        const place = block.board ? (this.#places.get(letter) ?? null) : null;
        return { ...block, place, letter: blockLetter(letter), isNew };
      });
  }

  saw(pass: Pass, step: CutStep, isGone: (region: number) => boolean): StepBlocks {
    const { map } = this.#plan.relief;
    const { left, right } = map.edges[step.edges[step.edges.length - 1]];
    const sides = [left, right].filter((r) => r !== OUTSIDE && !isGone(r));
    const side = sides.find((r) => step.regions.includes(r)) ?? sides[0];
    const rest = side === undefined ? 0 : this.#of[side];
    const own = this.#inPlay.size < 2 || side === undefined ? undefined : blockLetter(rest);
    const change = own === undefined ? undefined : this.#changeTo(rest);
    this.#last = rest;
    const give = (regions: readonly number[]): number => {
      const letter = this.#next++;
      for (const r of regions) this.#of[r] = letter;
      this.#inPlay.add(letter);
      return letter;
    };
    const apart = (step.boardApart ?? []).map(({ regions, place }) => {
      const letter = give(regions);
      this.#places.set(letter, place);
      this.#tables.set(letter, this.#tableOf(rest));
      this.#taped.add(letter);
      return blockLetter(letter);
    });
    const loose = (step.comesLoose ?? []).map((regions) => ({ regions, letter: give(regions) }));
    const freed = step.frees === 'piece' || step.frees === 'waste' ? step.regions : [];
    const stands = (r: number): boolean =>
      r !== OUTSIDE && !map.regions[r].addOn && !isGone(r) && !freed.includes(r);
    const table = this.#tableOf(rest);
    const found = loose.map(({ regions, letter }) => {
      const beside = new Set<number>();
      const lasting = new Set<number>();
      const ends = endedBefore(this.#plan, pass, step, regions);
      for (const r of regions) {
        for (const { edge } of map.regions[r].loops.flat()) {
          const { left: a, right: b } = map.edges[edge];
          const other = a === r ? b : a;
          if (!stands(other) || this.#of[other] === letter) continue;
          beside.add(this.#of[other]);
          if (ends !== null && !ends.has(other)) lasting.add(this.#of[other]);
        }
      }
      this.#tables.set(letter, table);
      return { letter, regions, beside, lasting };
    });
    this.#settle(found, table);
    const inOrder = (letters: ReadonlySet<number>): string[] =>
      [...letters].sort((a, b) => a - b).map(blockLetter);
    const lumps = found.map(
      ({ letter, regions, beside, lasting }): LetteredLump => ({
        letter: blockLetter(letter),
        regions,
        beside: inOrder(beside),
        lasting: inOrder(lasting),
      }),
    );
    const alone = table !== BOARD;
    return { own, alone, rest: blockLetter(rest), lumps, apart, ...(change === undefined ? {} : { change }) };
  }

  /** Blocks with nothing to be taped to are taken out, until those that are left have something. */
  #settle(lumps: readonly { readonly letter: number; readonly lasting: Set<number> }[], table: number): void {
    for (let isDone = false; !isDone; ) {
      isDone = true;
      for (const { letter, lasting } of lumps) {
        if (this.#tables.get(letter) === letter) continue;
        for (const other of lasting) if (this.#tableOf(other) !== table) lasting.delete(other);
        if (lasting.size > 0) continue;
        this.#tables.set(letter, letter);
        isDone = false;
      }
    }
    for (const { letter, lasting } of lumps) if (lasting.size > 0) this.#taped.add(letter);
  }

  #tableOf(letter: number): number {
    return this.#tables.get(letter) ?? BOARD;
  }

  #changeTo(letter: number): TableChange | undefined {
    const last = this.#last;
    if (last === null || this.#tableOf(last) === this.#tableOf(letter)) return undefined;
    const isTaped = (block: number): boolean => this.#taped.has(block) && this.#tableOf(block) !== block;
    return {
      off: blockLetter(last),
      on: blockLetter(letter),
      offTaped: isTaped(last),
      onTaped: isTaped(letter),
      offBoard: this.#tableOf(last) === BOARD,
    };
  }

  #area(regions: readonly number[]): number {
    return regions.reduce((sum, r) => sum + this.#plan.relief.map.regions[r].area, 0);
  }

  /** The letters of regions, the one with most area first. */
  #votes(regions: readonly number[]): number[] {
    const areas = new Map<number, number>();
    for (const r of regions)
      areas.set(this.#of[r], (areas.get(this.#of[r]) ?? 0) + this.#plan.relief.map.regions[r].area);
    return [...areas].sort((a, b) => b[1] - a[1] || a[0] - b[0]).map(([letter]) => letter);
  }
}

/** The blocks of a setting; the board in the parts that tape holds together. */
function blocksOf({ blocks, boardApart = [] }: Pass): Pick<LetteredBlock, 'regions' | 'taped' | 'board'>[] {
  return blocks.flatMap(({ regions, board }): Pick<LetteredBlock, 'regions' | 'taped' | 'board'>[] => {
    // What is left of a board may be bare waste: that is no block.
    if (regions.length === 0) return [];
    if (!board || boardApart.length === 0) return [{ regions, taped: null, board }];
    const parted = new Set(boardApart.flatMap((part) => part.regions));
    const rest = regions.filter((r) => !parted.has(r));
    return [
      { regions: rest, taped: null, board },
      ...boardApart.map((part) => ({ regions: part.regions, taped: part.place, board: true })),
    ].filter((block) => block.regions.length > 0);
  });
}

/** What comes free or loose after a step, before the last one that saws a block; null: none saws it in this setting. */
function endedBefore(
  plan: CutPlan,
  pass: Pass,
  step: CutStep,
  regions: readonly number[],
): ReadonlySet<number> | null {
  const last = sawnLater(plan, pass, step, regions).pop();
  if (last === undefined) return null;
  const at = pass.steps.indexOf(step);
  const between = pass.steps.slice(at + 1, at + last);
  return new Set(
    between.flatMap(({ frees, regions: freed, comesLoose = [] }) => [
      ...(frees === 'piece' || frees === 'waste' ? freed : []),
      ...comesLoose.flat(),
    ]),
  );
}

/** How many steps on a block is sawn, in the same setting; empty: not in this setting. */
export function sawnLater(plan: CutPlan, pass: Pass, step: CutStep, regions: readonly number[]): number[] {
  const { edges } = plan.relief.map;
  const at = pass.steps.indexOf(step);
  const own = new Set(regions);
  return pass.steps.flatMap((later, i) => {
    if (i <= at) return [];
    const last = edges[later.edges[later.edges.length - 1]];
    return own.has(last.left) || own.has(last.right) ? [i - at] : [];
  });
}
