import type { CutStart, CutStep, WayIn } from '../workshop/cut-plan.js';
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
  /** It is in another block than the step before. */
  readonly other: boolean;
}

/**
 * How the blade comes to the cut, in one or two sentences.
 */
export function beginSentence(
  step: CutStep,
  names: PlanNames,
  { places, scrap, there, other }: BeginOptions,
): string {
  const { start, leadIn, waysIn = [] } = step;
  const { kind, where, region, at, begin, threaded, by } = start;
  const mark = `the mark${places ? ` (x ${at[0].toFixed(1)}, y ${at[1].toFixed(1)})` : ''}`;
  const line = places ? 'a line that is sawn anyway' : 'the red dashed line, which is sawn anyway,';
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
  if (start.outside === true && by !== 'board') {
    const way = { gap: 'through a gap that is open', waste: 'through the waste', kerf: 'along the kerf' }[
      by ?? 'kerf'
    ];
    return `${bring} in from outside, ${way}, to ${mark}${along}.`;
  }
  const own = waysIn.find(({ run }) => run === 0);
  const way =
    scrap && by === 'board'
      ? 'from the edge of the scrap'
      : own === undefined
        ? WAYS[by ?? 'kerf']
        : boardWords(own, places);
  return [`${bring}${still} to ${mark} ${way}${along}.`, ...laterRuns(waysIn, places)].join(' ');
}
