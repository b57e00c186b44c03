import { PlystepError } from '../error.js';

/** How a long computation may be followed and stopped. */
export interface AsyncOptions {
  /** Stops the work; the promise is rejected with PlystepError 'aborted'. */
  readonly signal?: AbortSignal;
  /** Called with the share of the work done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** Work goes on for this long before a turn of the event loop, ms: less than is promised (50 ms) by the longest block. */
const TURN_MS = 15;

/** Elements of an array that are worked on between two chances to pause: some milliseconds at most. */
export const BLOCK = 1 << 13;

/** Whether a loop over elements has come to the end of a block. */
export const isBlockEnd = (i: number): boolean => (i & (BLOCK - 1)) === BLOCK - 1;

/**
 * Work on elements 0 to `count - 1` in blocks, with pauses between them; yields shares between `low` and `high`.
 * Loops that hold no pause themselves run faster.
 */
export function* inBlocks(
  count: number,
  work: (from: number, to: number) => void,
  low = 0,
  high = 1,
): Generator<number, void> {
  for (let from = 0; from < count; from += BLOCK) {
    if (from > 0) yield low + ((high - low) * from) / count;
    work(from, Math.min(count, from + BLOCK));
  }
}

/** The same from the last block to the first. */
export function* inBlocksBackwards(
  count: number,
  work: (from: number, to: number) => void,
  low = 0,
  high = 1,
): Generator<number, void> {
  for (let to = count; to > 0; to = (to - 1) & -BLOCK) {
    if (to < count) yield high - ((high - low) * to) / count;
    work((to - 1) & -BLOCK, to);
  }
}

/** Things that take some microseconds each (curves, faces, nodes of the map), worked on between two chances to pause. */
const TURN = 1 << 6;

/** Whether a loop over such things has come to the end of a turn. */
export const isTurnEnd = (i: number): boolean => (i & (TURN - 1)) === TURN - 1;

/** `items.map(make)` with pauses; yields the share of the work done. */
export function* mapInTurns<T, U>(
  items: readonly T[],
  make: (item: T, index: number) => U,
): Generator<number, U[]> {
  const made: U[] = [];
  for (let i = 0; i < items.length; i++) {
    made.push(make(items[i], i));
    if (isTurnEnd(i)) yield i / items.length;
  }
  return made;
}

/** Stepwise work as a part of some larger work: its shares lie between `low` and `high` of the whole. */
export function* within<T>(steps: Generator<number, T>, low: number, high: number): Generator<number, T> {
  let step = steps.next();
  for (; !step.done; step = steps.next()) yield low + (high - low) * step.value;
  return step.value;
}

/** Runs stepwise work to its end at once. */
export function finish<T>(steps: Generator<number, T>): T {
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** Runs stepwise work in turns of the event loop. */
export async function finishInTurns<T>(steps: Generator<number, T>, options: AsyncOptions = {}): Promise<T> {
  const { signal, onProgress } = options;
  const stopped = (): PlystepError => new PlystepError('aborted', 'stopped by the caller’s AbortSignal');
  if (signal?.aborted) throw stopped();
  let turn = performance.now();
  for (let step = steps.next(); ; step = steps.next()) {
    if (step.done) return step.value;
    if (performance.now() - turn < TURN_MS) continue;
    onProgress?.(step.value);
    await new Promise<void>((resolve) => setTimeout(resolve, 0));
    if (signal?.aborted) throw stopped();
    turn = performance.now();
  }
}
