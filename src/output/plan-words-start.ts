import type { CutStart, CutStep, WayIn } from '../workshop/cut-plan.js';
import type { TableChange } from './plan-blocks.js';
import { comesFromOutside } from './plan-marks.js';
import type { PlanNames } from './plan-names.js';

/** `1.2 mm`, or `bit #56 (1.18 mm)`. */
export function holeWords(bit: string | undefined, diameter: string): string {
  return bit === undefined || bit.endsWith('mm') ? diameter : `bit ${bit} (${diameter})`;
}

const WAYS: Readonly<Record<NonNullable<CutStart['by']>, string>> = {
  board: 'from the edge of the board through the waste around the drawing',
  gap: 'through the gap beside it',
  waste: 'through the waste',
  kerf: 'along the kerf',
};

const FROM: Readonly<Record<WayIn['from'], string>> = {
  edge: 'from the edge of the board through the waste around the drawing',
  way: 'by a way in that is open, with the tape across it cut, and out of that through the waste of the board',
  kerf: 'out of the kerf, through the waste of the board',
  open: 'by a way in that is open, with the tape across it cut, through the waste of the board',
};

/** Which way the blade takes through the waste of the board. */
function boardWords({ from, points }: WayIn, places: boolean): string {
  const bends = points.slice(0, -1).map(([x, y]) => `x ${x.toFixed(1)}, y ${y.toFixed(1)}`);
  return FROM[from] + (places ? ` (from ${bends.join(', then ')})` : ', as drawn');
}

/** Parts of a cut that begin elsewhere on the outline. */
function laterRuns(ways: readonly WayIn[], places: boolean): string[] {
  return ways
    .filter(({ run }) => run > 0)
    .map((way) => `To part ${way.run + 1} the blade comes ${boardWords(way, places)}.`);
}

/** What the words of a start depend on beside its step. */
export interface BeginOptions {
  /** Say where it is by x and y. */
  readonly places: boolean;
  /** It is sawn out of scrap, not out of the stack. */
  readonly scrap: boolean;
  /** The blade stands at the mark already. */
  readonly there: boolean;
  /** The blade is in the work since the step before. */
  readonly isIn: boolean;
  /** It is in another block than the step before. */
  readonly other: boolean;
  /** It is in the board, where tape lies across ways that are open. */
  readonly taped: boolean;
  /** Ways in through the waste of the board, taped over, were sawn before. */
  readonly hasWays: boolean;
  /** Another block goes on the table first. */
  readonly change: TableChange | undefined;
}

/** What the blade comes out of, and what goes on the table. */
function changeWords(
  { off, on, offTaped, onTaped, offBoard }: TableChange,
  { isIn, hasWays }: BeginOptions,
): string {
  const tape = offBoard && hasWays ? ', with the tape across them cut' : '';
  const out = isIn
    ? `Bring the blade out of ${off}, through gaps and kerfs that lead to its edge${tape}, take ${off}`
    : `Take ${off}`;
  const taped = (is: boolean): string => (is ? ', with what it is taped to,' : '');
  return `${out}${taped(offTaped)} off the table and put ${on}${taped(onTaped)} on.`;
}

/**
 * How the blade comes to the cut, in one to three sentences.
 */
export function beginSentence(step: CutStep, names: PlanNames, options: BeginOptions): string {
  const { change } = options;
  const way = wayToCut(step, names, options);
  return change === undefined ? way : `${changeWords(change, options)} ${way}`;
}

function wayToCut(
  step: CutStep,
  names: PlanNames,
  { places, scrap, there, isIn, other, taped, change }: BeginOptions,
): string {
  const { start, leadIn, waysIn = [] } = step;
  const { kind, where, region, at, begin, threaded, by } = start;
  const mark = `the mark${places ? ` (x ${at[0].toFixed(1)}, y ${at[1].toFixed(1)})` : ''}`;
  const line = places
    ? 'a line of a later step, which is sawn now,'
    : 'the red line with white dashes, which is sawn now,';
  const along = leadIn > 0 ? `, then along ${line} to where this cut begins` : '';
  if (kind === 'drill') {
    const waste = region === undefined ? '' : ` in the waste of ${names.region(region)}`;
    const hole = `the ${holeWords(start.bit, `${Number((start.diameter ?? 0).toFixed(2))} mm`)} hole`;
    const place = where === 'waste' ? waste : ' on the line itself';
    return `Unplug the saw and thread the blade through ${hole}${place}${places ? `, at ${mark}` : ''}${along}.`;
  }
  if (threaded) {
    const on =
      begin !== undefined && (begin[0] !== at[0] || begin[1] !== at[1]) && along === ''
        ? by === 'gap'
          ? ' From there go through the gap to the line; nothing is sawn on that way.'
          : ' Saw from there to the line.'
        : '';
    return `Unplug the saw and thread the blade through the open place at ${mark}: no hole is needed${along}.${on}`;
  }
  if (there)
    return `The blade stands at ${mark} already${along === '' ? '' : `: saw on${along.replace(', then', '')}`}.`;
  const still = comesFromOutside(step) || other ? '' : ', which is still in,';
  const bring =
    start.released === true ? 'Clamp the blade again, unplugged, and bring it' : 'Bring the blade';
  if ((start.outside === true || change !== undefined) && by !== 'board') {
    const gap = taped
      ? 'by a way in and gaps that are open, with the tape across them cut'
      : 'through a gap that is open';
    const way = { gap, waste: 'through the waste', kerf: 'along the kerf' }[by ?? 'kerf'];
    return [`${bring} in from outside, ${way}, to ${mark}${along}.`, ...laterRuns(waysIn, places)].join(' ');
  }
  const own = waysIn.find(({ run }) => run === 0);
  const way =
    scrap && by === 'board'
      ? 'from the edge of the scrap'
      : own === undefined
        ? WAYS[by ?? 'kerf'] + (by === 'gap' && other && taped ? ', cutting the tape that lies across' : '')
        : boardWords(own, places);
  if (own?.from === 'edge' && isIn && taped && change === undefined) {
    const out = 'Bring the blade out to the edge by a way that is open, with the tape across it cut';
    return [`${out}. Then bring it to ${mark} ${way}${along}.`, ...laterRuns(waysIn, places)].join(' ');
  }
  return [`${bring}${still} to ${mark} ${way}${along}.`, ...laterRuns(waysIn, places)].join(' ');
}
