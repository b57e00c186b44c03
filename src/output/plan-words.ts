import type { CutPlan, CutStep, Pass, SheetMove } from '../workshop/cut-plan.js';
import { NO_BIT } from '../workshop/drill-start.js';
import { timeRange } from '../workshop/saw-time.js';
import { type PlanNames, planNames } from './plan-names.js';

/** Words for the parts of a plan: the same in text, Markdown and HTML. */
export interface PlanWords {
  /** What a setting is called: `Pass 3`, `Recesses, 1 sheet`, `Add-ons`. */
  setting(pass: Pass): string;
  /** Which sheets are together, front first. */
  together(pass: Pass): string;
  /** What to take off and put back before it. */
  moves(pass: Pass): string | null;
  /** What a step does, in one line. */
  action(pass: Pass, step: CutStep): string;
  /** How it begins. */
  start(pass: Pass, step: CutStep): string;
  /** What to do with what comes free. */
  keep(pass: Pass, step: CutStep): string;
  /** Length, corners and time. */
  effort(step: CutStep): string;
}

export function planWords(plan: CutPlan): PlanWords {
  const { relief } = plan;
  const names = planNames(plan);
  const sheetName = (id: string): string => {
    const sheet = relief.stack.sheets.find((s) => s.id === id)!;
    return `${id} (${sheet.material}, ${millimetres(sheet.thickness)})`;
  };
  return {
    setting(pass) {
      if (pass.phase === 'add-ons') return 'Add-ons';
      if (relief.joint === 'continuous') return `Sheet ${pass.sheets[0]}, level ${pass.number}`;
      const count = sheetCount(pass.sheets.length);
      return pass.phase === 'recesses' ? `Recesses, ${count}` : `Pass ${pass.number}, ${count}`;
    },
    together(pass) {
      const list = pass.sheets.map(sheetName);
      const height = `${millimetres(pass.height)} high`;
      if (list.length === 1) return `In the saw: sheet ${list[0]}, alone, ${height}.`;
      return `In the saw, front first: ${joinWords(list)}; together ${height}.`;
    },
    moves: (pass) => movesSentence(pass.moves),
    action: (pass, step) => actionSentence(names, pass, step),
    start: (pass, step) => startSentence(names, pass, step),
    keep: (pass, step) => keepSentence(plan, names, pass, step) + fallenSentence(names, step),
    effort(step) {
      const corners = step.corners === 0 ? '' : `, ${plural(step.corners, 'corner')}`;
      return `${millimetres(step.length, 0)} of line${corners}; ${rangeText(timeRange(plan.workshop, step.minutes))}.`;
    },
  };
}

function movesSentence(moves: readonly SheetMove[]): string | null {
  const of = (action: SheetMove['action']): string[] =>
    moves.filter((move) => move.action === action).map((move) => move.sheet);
  const [off, back] = [of('lift'), of('put-back')];
  const parts: string[] = [];
  if (off.length > 0) parts.push(`Lift off ${sheetWord(off.length)} ${joinWords(off)}.`);
  if (back.length > 0) {
    parts.push(
      `Put ${sheetWord(back.length)} ${joinWords(back)} on, line all up on the registration pins, and hold them together again.`,
    );
  }
  return parts.length === 0 ? null : parts.join(' ');
}

function actionSentence(names: PlanNames, pass: Pass, step: CutStep): string {
  const through = throughSheets(step.sheets.length);
  const what = joinWords(names.regions(pass, step));
  switch (step.kind) {
    case 'vein':
      return `Saw the detail lines, ${through}`;
    case 'cutout':
      return step.frees === 'nothing' ? `Saw along ${what}, ${through}` : `Cut out ${what}, ${through}`;
    case 'outline':
      if (step.frees === 'block') return `Saw around the block of ${what}, ${through}`;
      return step.frees === 'nothing' ? `Saw along ${what}, ${through}` : `Saw out ${what}, ${through}`;
  }
}

function startSentence(names: PlanNames, pass: Pass, step: CutStep): string {
  const { kind, diameter, bit, where, clearance, threaded, region, at } = step.start;
  const mark = `(x ${at[0].toFixed(1)}, y ${at[1].toFixed(1)})`;
  switch (kind) {
    case 'drill': {
      const waste = region === undefined ? 'the waste' : `the waste of ${names.region(region)}`;
      const place =
        where === 'waste'
          ? `in ${waste}, ${millimetres(clearance ?? 0)} clear of the line`
          : 'on the line itself, where it shows least';
      return `Drill ${bitWords(bit, diameter ?? 0)} ${place} ${mark}, ${throughSheets(pass.sheets.length)}. Unplug the saw, thread the blade.`;
    }
    case 'edge':
      return `Come in from the edge at the mark ${mark}.`;
    case 'line':
      return `Go in from the mark ${mark} along a line that is sawn anyway, to where this cut begins.`;
    case 'open':
      if (!threaded) return `Go on through what is open, from the mark ${mark}.`;
      return `Unplug the saw, thread the blade through the open place, and begin at the mark ${mark}.`;
  }
}

function keepSentence(plan: CutPlan, names: PlanNames, pass: Pass, step: CutStep): string {
  if (step.frees === 'nothing') return 'Nothing comes free.';
  if (step.frees === 'block') {
    return 'The block comes off whole: keep it, it is sawn on later. Hold its sheets together.';
  }
  if (step.frees === 'waste') return 'What comes free is waste.';
  const pieces = names.pieces(pass, step);
  const waste = step.kind === 'cutout' || step.regions.some((r) => plan.relief.regions[r].role === 'opening');
  const alone = pieces.length === 1;
  const order = step.sheets.length === 1 ? '' : ', with the order of its sheets';
  return (
    `Keep ${joinWords(pieces)}; write ${alone ? 'its id' : 'their ids'} on${order} before the drawing comes off.` +
    (waste ? ' The rest is waste.' : '')
  );
}

/** Waste of recesses that comes out beside what the step is about. */
function fallenSentence(names: PlanNames, { fallsOut = [] }: CutStep): string {
  return fallsOut
    .map(
      ({ regions, sheets }) =>
        ` Out of ${sheetWord(sheets.length)} ${joinWords(sheets)} alone falls the waste of ${joinWords(regions.map(names.region))}.`,
    )
    .join('');
}

/** `through 1 sheet`, `through both sheets`, `through all 3 sheets`. */
export function throughSheets(count: number): string {
  if (count === 1) return 'through 1 sheet';
  return count === 2 ? 'through both sheets' : `through all ${count} sheets`;
}

/** A bit as one asks for it: `1.2 mm`, `with bit #56 (1.18 mm)`. */
export function bitWords(bit: string | undefined, diameter: number): string {
  if (bit === undefined || bit === NO_BIT) return `${millimetres(diameter, 2)} (no bit at hand fits)`;
  return bit.endsWith('mm') ? bit : `with bit ${bit} (${millimetres(diameter, 2)})`;
}

/** `3 mm`, `12.7 mm`: as many decimals as say something. */
export function millimetres(value: number, decimals = 1): string {
  return `${Number(value.toFixed(decimals))} mm`;
}

/** `40 s`, `3 min`, `1 h 20 min`: no finer than the estimate. */
export function minutesText(minutes: number): string {
  if (minutes < 1) return `${Math.max(5, Math.round((minutes * 60) / 5) * 5)} s`;
  if (minutes < 60) return `${minutes < 10 ? Number(minutes.toFixed(1)) : Math.round(minutes)} min`;
  const rounded = Math.round(minutes / 5) * 5;
  const rest = rounded % 60;
  return rest === 0 ? `${Math.floor(rounded / 60)} h` : `${Math.floor(rounded / 60)} h ${rest} min`;
}

/** `30 s to 2 min`; one time where both ends read alike. */
export function rangeText([least, most]: readonly [least: number, most: number]): string {
  const [from, to] = [minutesText(least), minutesText(most)];
  if (from === to) return `about ${from}`;
  const unit = / \w+$/.exec(to)?.[0] ?? '';
  const short = from.split(' ').length === 2 && to.split(' ').length === 2 && from.endsWith(unit);
  return `${short ? from.slice(0, -unit.length) : from} to ${to}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function joinWords(list: readonly string[]): string {
  if (list.length < 2) return list.join('');
  return `${list.slice(0, -1).join(', ')} and ${list[list.length - 1]}`;
}

/** Ascending numbers in words, runs of three and more as ranges: `1, 3 to 5 and 8`. */
export function joinNumbers(numbers: readonly number[]): string {
  const parts: string[] = [];
  for (let i = 0; i < numbers.length; ) {
    let last = i;
    while (last + 1 < numbers.length && numbers[last + 1] === numbers[last] + 1) last++;
    if (last - i >= 2) parts.push(`${numbers[i]} to ${numbers[last]}`);
    else for (let k = i; k <= last; k++) parts.push(String(numbers[k]));
    i = last + 1;
  }
  return joinWords(parts);
}

/** `1 corner`, `2 corners`; `many` where adding an s won't do. */
export function plural(count: number, word: string, many = `${word}s`): string {
  return `${count} ${count === 1 ? word : many}`;
}

function sheetCount(count: number): string {
  return count === 1 ? '1 sheet' : `${count} sheets together`;
}

const sheetWord = (count: number): string => (count === 1 ? 'sheet' : 'sheets');
