import type fc from 'fast-check';
import type { LineWork } from '../support/line-work.js';
import { gridLines, integerLines, nearDegenerateLines } from './line-kinds.js';
import {
  isExactWhenClear,
  isSettling,
  isStableWhenExploded,
  isStableWhenRedrawn,
  isStableWhenShifted,
  isStableWhenTurned,
  isValid,
  type Property,
} from './plane-properties.js';

/** One property on one kind of line work. */
export interface Campaign {
  readonly property: Property;
  readonly lines: fc.Arbitrary<LineWork>;
  /** Weld tolerances to try, mm. */
  readonly welds: readonly number[];
  /** Cases in the test suite; the long run goes on by time. */
  readonly runs: number;
}

const WELDS = [0, 0.02];

/** All campaigns; the name of a failing fixture starts with the name of its property. */
export const CAMPAIGNS: Readonly<Record<string, Campaign>> = {
  'valid, nearly degenerate': { property: isValid, lines: nearDegenerateLines, welds: WELDS, runs: 300 },
  'valid, few grid steps': { property: isValid, lines: gridLines, welds: WELDS, runs: 300 },
  'redrawn, nearly degenerate': {
    property: isStableWhenRedrawn,
    lines: nearDegenerateLines,
    welds: WELDS,
    runs: 150,
  },
  'redrawn, few grid steps': { property: isStableWhenRedrawn, lines: gridLines, welds: WELDS, runs: 150 },
  'exploded, nearly degenerate': {
    property: isStableWhenExploded,
    lines: nearDegenerateLines,
    welds: [0],
    runs: 150,
  },
  'settling, nearly degenerate': {
    property: isSettling,
    lines: nearDegenerateLines,
    welds: WELDS,
    runs: 150,
  },
  'settling, few grid steps': { property: isSettling, lines: gridLines, welds: WELDS, runs: 150 },
  'shifted, nearly degenerate': {
    property: isStableWhenShifted,
    lines: nearDegenerateLines,
    welds: WELDS,
    runs: 150,
  },
  'shifted, few grid steps': { property: isStableWhenShifted, lines: gridLines, welds: WELDS, runs: 150 },
  'exact, room around nodes': {
    property: isExactWhenClear,
    lines: integerLines(2 ** 20),
    welds: [0],
    runs: 300,
  },
  'exact, crowded': { property: isExactWhenClear, lines: integerLines(60), welds: [0], runs: 300 },
  'turned, crowded': { property: isStableWhenTurned, lines: integerLines(60), welds: [0], runs: 200 },
};
