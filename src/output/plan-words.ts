import { isSmallArea } from '../workshop/cautions.js';
import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { NO_BIT } from '../workshop/drill-start.js';
import { timeRange } from '../workshop/saw-time.js';
import { joinWords } from './join-words.js';
import { blockLetter, blockOfStep, lumpFates } from './plan-blocks.js';
import { type PlanNames, planNames } from './plan-names.js';
import { apartSentences, wasteSentences } from './plan-waste.js';
import { beginSentence, holeWords } from './plan-words-start.js';

export { joinWords };

/** Words for the parts of a plan: the same in text, Markdown and HTML. */
export interface PlanWords {
  readonly names: PlanNames;
  /** The document shows pictures, which the words may speak of. */
  readonly pictures: boolean;
  /** What a setting is called: `s1 to s3 together`, `recesses, s1 alone`, `add-ons, s1`. */
  setting(pass: Pass): string;
  /** Which sheets are together, front first. */
  together(pass: Pass): string;
  /** Sheets by their ids, runs of the stack in short: `s1 to s3`. */
  sheets(ids: readonly string[]): string;
  /** What a step does, in one line. */
  action(pass: Pass, step: CutStep): string;
  /** How it begins. */
  start(pass: Pass, step: CutStep): string;
  /** What to do with what comes free. */
  keep(pass: Pass, step: CutStep): string;
  /** Length, corners and time. */
  effort(step: CutStep): string;
}

/** @param pictures the document shows them; else starts are told by x and y */
export function planWords(plan: CutPlan, pictures: boolean): PlanWords {
  const { relief } = plan;
  const names = planNames(plan);
  const order = relief.stack.sheets.map((sheet) => sheet.id);
  const sheetName = (id: string): string => {
    const sheet = relief.stack.sheets.find((s) => s.id === id)!;
    return `${id} (${sheet.material}, ${millimetres(sheet.thickness)})`;
  };
  const scrapName = (id: string): string => {
    const sheet = relief.stack.sheets.find((s) => s.id === id)!;
    return `${sheet.material}, ${millimetres(sheet.thickness)}`;
  };
  const sheets = (ids: readonly string[]): string => {
    const from = order.indexOf(ids[0]);
    const inRow = ids.length > 2 && ids.every((id, i) => order[from + i] === id);
    return inRow ? `${ids[0]} to ${ids[ids.length - 1]}` : joinWords(ids);
  };
  return {
    names,
    pictures,
    sheets,
    setting(pass) {
      if (pass.phase === 'add-ons') return 'add-ons, out of scrap';
      if (relief.joint === 'continuous') return `sheet ${pass.sheets[0]}, level ${pass.number}`;
      const what = pass.phase === 'recesses' ? 'recesses, ' : '';
      return `${what}${sheets(pass.sheets)}${pass.sheets.length > 1 ? ' together' : ' alone'}`;
    },
    together(pass) {
      if (pass.phase === 'add-ons') return `In the saw: scrap of ${joinWords(pass.sheets.map(scrapName))}.`;
      const list = pass.sheets.map(sheetName);
      const height = `${millimetres(pass.height)} high`;
      if (list.length === 1) return `In the saw: sheet ${list[0]}, alone, ${height}.`;
      return `In the saw, front first: ${joinWords(list)}; together ${height}.`;
    },
    action(pass, step) {
      const what = joinWords(names.regions(pass, step));
      const block = blockOfStep(plan, pass, step);
      const where = block === undefined ? '' : `Block ${blockLetter(block)}: `;
      const through = pass.phase === 'add-ons' ? 'scrap' : sheets(step.sheets);
      return `${where}${actionWords(step)}${what === '' ? '' : ` ${what}`} (${through})`;
    },
    start: (pass, step) => beginSentence(step, names, !pictures, pass.phase === 'add-ons'),
    keep: (pass, step) =>
      [
        ...keepSentences(plan, names, pass, step, pictures),
        ...wasteSentences(plan, pass, step, sheets),
        ...apartSentences(step, names, false),
        ...captiveSentences(step),
      ].join(' '),
    effort(step) {
      const corners = step.corners === 0 ? '' : `, ${plural(step.corners, 'corner')}`;
      const way = (step.waysIn ?? []).reduce((sum, { length }) => sum + length, 0);
      const ways = way < 0.5 ? '' : `, ${millimetres(way, 0)} of it through the waste of the board`;
      return `${millimetres(step.length, 0)}${ways}${corners}; ${rangeText(timeRange(plan.workshop, step.minutes))}.`;
    },
  };
}

function actionWords({ kind, frees }: CutStep): string {
  if (kind === 'vein') return 'Saw the detail line in';
  if (kind === 'cutout') return frees === 'nothing' ? 'Saw along' : 'Cut out';
  if (frees === 'nothing') return 'Saw along';
  return frees === 'block' ? 'Saw around the lump of' : 'Saw out';
}

function keepSentences(
  plan: CutPlan,
  names: PlanNames,
  pass: Pass,
  step: CutStep,
  pictures: boolean,
): string[] {
  const blue = pictures ? ' (blue)' : '';
  const { frees, kind, comesLoose = [], fallsOut = [] } = step;
  const said: string[] = [];
  if (frees === 'nothing' && comesLoose.length === 0) {
    const back = step.captive === true && step.start.kind === 'drill' ? ' to the hole' : '';
    said.push(
      kind === 'vein' ? `Nothing comes free: go back along the kerf${back}.` : 'Nothing comes free yet.',
    );
  }
  if (frees === 'waste') said.push('What comes free is waste.');
  if (frees === 'piece') {
    const waste = kind === 'cutout' || step.regions.some((r) => plan.relief.regions[r].role === 'opening');
    said.push(`Keep ${joinWords(names.pieces(pass, step))}.${waste ? ' The rest is waste.' : ''}`);
    said.push(...spareSentences(plan, pass, step));
  }
  if (comesLoose.length > 1) said.push(`${comesLoose.length} lumps come loose${blue}.`);
  const fates = lumpFates(plan, pass, step);
  const number = fates.some(({ sawnBy }) => sawnBy.length > 0) ? numberOf(plan, pass, step) : 0;
  for (const { regions, sawnBy, letter } of fates) {
    const owners = joinWords(names.owners(regions));
    said.push(fates.length > 1 ? `${owners}:` : `A lump comes loose${blue}: ${owners}.`);
    if (sawnBy.length > 0) {
      const area = regions.reduce((sum, r) => sum + plan.relief.map.regions[r].area, 0);
      const small = isSmallArea(area) ? '; it is small, so stick it to scrap first' : '';
      const steps = `${sawnBy.length === 1 ? 'step' : 'steps'} ${joinNumbers(sawnBy.map((n) => number + n))}`;
      said.push(
        `${letter === undefined ? '' : `Write ${letter} on it. `}Hold it in its place with tape${small}. It is sawn on in ${steps}.`,
      );
    } else {
      said.push(`Lift it out, write ${letter ?? 'what it is'} on it and lay it aside.`);
    }
  }
  for (const { regions, sheets } of fallsOut) {
    const which = joinWords(regions.map(names.region));
    said.push(`Out of ${joinWords(sheets)} alone falls the waste of ${which}.`);
  }
  return said;
}

function captiveSentences({ captive }: CutStep): string[] {
  return captive === true ? ['Then unplug the saw, unclamp the blade and take it out of the work.'] : [];
}

/** The number of a step, counted through the whole job. */
function numberOf({ passes }: CutPlan, pass: Pass, step: CutStep): number {
  const before = passes.slice(0, passes.indexOf(pass)).reduce((sum, { steps }) => sum + steps.length, 0);
  return before + pass.steps.indexOf(step) + 1;
}

/** Where more sheets come free than the piece has. */
function spareSentences({ pieces, relief }: CutPlan, pass: Pass, step: CutStep): string[] {
  if (pass.phase === 'add-ons' || relief.joint === 'continuous') return [];
  return pieces.flatMap(({ region, sheets, id }) => {
    if (!step.regions.includes(region)) return [];
    const spare = step.sheets.filter((sheet) => !sheets.includes(sheet));
    if (spare.length === 0) return [];
    return [
      `${id} is ${joinWords([...sheets])} of it; ${joinWords(spare)} ${spare.length === 1 ? 'is' : 'are'} spare.`,
    ];
  });
}

/** A bit as one asks for it: `1.2 mm`, `bit #56 (1.18 mm)`. */
export function bitWords(bit: string | undefined, diameter: number): string {
  return bit === NO_BIT
    ? `${millimetres(diameter, 2)} (no bit at hand fits)`
    : holeWords(bit, millimetres(diameter, 2));
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

/** `30 s to 2 min`, `1 to 4 min`; one time where both ends read alike. */
export function rangeText([least, most]: readonly [least: number, most: number]): string {
  const [from, to] = [minutesText(least), minutesText(most)];
  if (from === to) return `about ${from}`;
  const [a, b] = [from.split(' '), to.split(' ')];
  return a.length === 2 && b.length === 2 && a[1] === b[1] ? `${a[0]} to ${to}` : `${from} to ${to}`;
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
