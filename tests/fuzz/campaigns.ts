import fc from 'fast-check';
import { nearDegenerateCurves } from './curve-kinds.js';
import { gridLines, integerLines, nearDegenerateLines } from './line-kinds.js';
import { isCovered, isSameMapRedrawn, isValidMap } from './map-properties.js';
import {
  isExactWhenClear,
  isSettling,
  isStableWhenExploded,
  isStableWhenRedrawn,
  isStableWhenShifted,
  isStableWhenTurned,
  isValid,
} from './plane-properties.js';
import { isSameAsynchronously, isSameReadBack } from './read-back.js';

/** A case that breaks a property, shrunk. */
export interface Found {
  readonly work: unknown;
  readonly redraw: number;
  readonly problem: string;
}

/** One property on one kind of work. */
export interface Campaign {
  /** Weld tolerances to try, mm; curves have the default one only. */
  readonly welds: readonly number[];
  /** Cases in the test suite; the long run goes on by time. */
  readonly runs: number;
  /** Tries so many cases; null: none failed. */
  readonly search: (weld: number, seed: number, runs: number) => Promise<Found | null>;
  /** What is wrong with one case as kept in a file; null: nothing. */
  readonly replay: (work: unknown, weld: number, redraw: number) => Promise<string | null>;
}

function campaign<T>(
  property: (work: T, weld: number, redraw: number) => string | null | Promise<string | null>,
  kinds: fc.Arbitrary<T>,
  welds: readonly number[],
  runs: number,
): Campaign {
  const attempt = async (work: T, weld: number, redraw: number): Promise<string | null> => {
    try {
      return await property(work, weld, redraw);
    } catch (error) {
      return `threw ${error instanceof Error ? error.stack : String(error)}`;
    }
  };
  return {
    welds,
    runs,
    search: async (weld, seed, numRuns) => {
      const holds = fc.asyncProperty(
        kinds,
        fc.nat(),
        async (work, redraw) => (await attempt(work, weld, redraw)) === null,
      );
      const { failed, counterexample } = await fc.check(holds, { seed, numRuns });
      if (!failed || counterexample === null) return null;
      const [work, redraw] = counterexample;
      return { work, redraw, problem: (await attempt(work, weld, redraw)) ?? 'passes when run again' };
    },
    replay: (work, weld, redraw) => attempt(work as T, weld, redraw),
  };
}

const BOTH = [0, 0.02];
const DEFAULT = [0.02];

/** All campaigns; the name of a failing fixture starts with the name of its campaign. */
export const CAMPAIGNS: Readonly<Record<string, Campaign>> = {
  'valid, nearly degenerate': campaign(isValid, nearDegenerateLines, BOTH, 300),
  'valid, few grid steps': campaign(isValid, gridLines, BOTH, 300),
  'redrawn, nearly degenerate': campaign(isStableWhenRedrawn, nearDegenerateLines, BOTH, 150),
  'redrawn, few grid steps': campaign(isStableWhenRedrawn, gridLines, BOTH, 150),
  'exploded, nearly degenerate': campaign(isStableWhenExploded, nearDegenerateLines, [0], 150),
  'settling, nearly degenerate': campaign(isSettling, nearDegenerateLines, BOTH, 150),
  'settling, few grid steps': campaign(isSettling, gridLines, BOTH, 150),
  'shifted, nearly degenerate': campaign(isStableWhenShifted, nearDegenerateLines, BOTH, 150),
  // With a weld of twenty steps, what is a few steps wide is decided by ties.
  'shifted, few grid steps': campaign(isStableWhenShifted, gridLines, [0], 150),
  'exact, room around nodes': campaign(isExactWhenClear, integerLines(2 ** 20), [0], 300),
  'exact, crowded': campaign(isExactWhenClear, integerLines(60), [0], 300),
  'turned, room around nodes': campaign(isStableWhenTurned, integerLines(2 ** 20), [0], 150),
  'turned, crowded': campaign(isStableWhenTurned, integerLines(60), [0], 150),
  'valid map, curves': campaign(
    (work, _, seed) => isValidMap(work, seed),
    nearDegenerateCurves,
    DEFAULT,
    150,
  ),
  'no line lost, curves': campaign(
    (work, _, seed) => isCovered(work, seed),
    nearDegenerateCurves,
    DEFAULT,
    150,
  ),
  'redrawn map, curves': campaign(
    (work, _, seed) => isSameMapRedrawn(work, seed),
    nearDegenerateCurves,
    DEFAULT,
    150,
  ),
  'read back, curves': campaign((work) => isSameReadBack(work), nearDegenerateCurves, DEFAULT, 100),
  'asynchronous, curves': campaign((work) => isSameAsynchronously(work), nearDegenerateCurves, DEFAULT, 60),
};
