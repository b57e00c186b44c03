import { OUTSIDE } from '../plane/region-map.js';
import { isSmallArea } from '../workshop/cautions.js';
import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { NO_BIT } from '../workshop/drill-start.js';
import { timeRange } from '../workshop/saw-time.js';
import { joinWords } from './join-words.js';
import { type LetteredLump, type PlanBlocks, planBlocks, sawnLater } from './plan-blocks.js';
import { type PlanNames, planNames } from './plan-names.js';
import { apartSentences, wasteNumbers, wasteSentences } from './plan-waste.js';
import { beginSentence, holeWords } from './plan-words-start.js';

export { joinWords };

/** Words for the parts of a plan: the same in text, Markdown and HTML. */
export interface PlanWords {
  readonly names: PlanNames;
  /** What hangs together, by letters. */
  readonly blocks: PlanBlocks;
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
  /** The step saws the board, where tape lies across ways in that are open. */
  inTaped(step: CutStep): boolean;
}

/** @param pictures the document shows them; else starts are told by x and y */
export function planWords(plan: CutPlan, pictures: boolean): PlanWords {
  const { relief } = plan;
  const names = planNames(plan);
  const blocks = planBlocks(plan);
  const numbers = wasteNumbers(plan);
  const afterWays = stepsAfterWays(plan);
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
    blocks,
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
      const what = `${cutoutWord(plan, step)}${joinWords(names.regions(pass, step))}`;
      const { own } = blocks.step(step);
      const where = own === undefined ? '' : `Block ${own}: `;
      const through = pass.phase === 'add-ons' ? 'scrap' : sheets(step.sheets);
      return `${where}${actionWords(step)}${what === '' ? '' : ` ${what}`} (${through})`;
    },
    start(pass, step) {
      const before = pass.steps[pass.steps.indexOf(step) - 1];
      const { own, alone, change } = blocks.step(step);
      return beginSentence(step, names, {
        places: !pictures,
        scrap: pass.phase === 'add-ons',
        there: change === undefined && bladeStandsAt(plan, pass, step),
        isIn: before !== undefined && before.captive !== true,
        other:
          before !== undefined &&
          own !== undefined &&
          (blocks.step(before).own ?? blocks.step(before).rest) !== own,
        taped: !alone && afterWays.has(step),
        hasWays: afterWays.has(step),
        change,
      });
    },
    inTaped: (step) => !blocks.step(step).alone && afterWays.has(step),
    keep: (pass, step) =>
      [
        ...keepSentences(plan, names, blocks, pass, step, pictures),
        ...wasteSentences(plan, pass, step, sheets, numbers),
        ...apartSentences(step, blocks.step(step), names),
        ...captiveSentences(step),
      ].join(' '),
    effort(step) {
      const corners = step.corners === 0 ? '' : `, ${plural(step.corners, 'corner')}`;
      const way = (step.waysIn ?? []).reduce((sum, { length }) => sum + length, 0);
      const ways = way < 0.5 ? '' : `, ${millimetres(way, 0)} of it through the waste of the board`;
      const { kind, threaded, released } = step.start;
      const also = [
        ...(kind === 'drill' ? ['drilling'] : []),
        ...(threaded ? ['threading'] : released === true ? ['clamping the blade'] : []),
      ];
      const within = also.length === 0 ? '' : ` with ${joinWords(also)}`;
      return `${millimetres(step.length, 0)}${ways}${corners}; ${rangeText(timeRange(plan.workshop, step.minutes))}${within}.`;
    },
  };
}

/** `the recess `, `the opening `, where all that a step cuts out is one kind. */
function cutoutWord({ relief: { regions } }: CutPlan, step: CutStep): string {
  if (step.kind !== 'cutout' || step.frees === 'piece') return '';
  const roles = new Set(step.regions.map((r) => regions[r].role));
  const [role] = roles;
  if (roles.size !== 1 || (role !== 'recess' && role !== 'opening')) return '';
  return step.regions.length === 1 ? `the ${role} ` : `the ${role}s `;
}

function actionWords({ kind, frees }: CutStep): string {
  if (kind === 'vein') return 'Saw the detail line in';
  if (kind === 'cutout') return frees === 'nothing' ? 'Saw along' : 'Cut out';
  if (frees === 'nothing') return 'Saw along';
  return frees === 'block' ? 'Saw around the block of' : 'Saw out';
}

function keepSentences(
  plan: CutPlan,
  names: PlanNames,
  blocks: PlanBlocks,
  pass: Pass,
  step: CutStep,
  pictures: boolean,
): string[] {
  const blue = pictures ? ' (blue)' : '';
  const { frees, kind, comesLoose = [], fallsOut = [] } = step;
  const said: string[] = [];
  if (frees === 'nothing' && comesLoose.length === 0) {
    const back = step.captive === true && step.start.kind === 'drill' ? ' to the hole' : '';
    const next = pass.steps[pass.steps.indexOf(step) + 1];
    const goesOn = next !== undefined && bladeStandsAt(plan, pass, next);
    said.push(
      kind !== 'vein'
        ? 'Nothing comes free yet.'
        : goesOn
          ? 'Nothing comes free: stop at the end; the next step goes on from there.'
          : `Nothing comes free: go back along the kerf${back}.`,
    );
  }
  if (frees === 'waste') said.push('What comes free is waste.');
  if (frees === 'piece') {
    const waste = kind === 'cutout' || step.regions.some((r) => plan.relief.regions[r].role === 'opening');
    said.push(`Keep ${joinWords(names.pieces(pass, step))}.${waste ? ' The rest is waste.' : ''}`);
    said.push(...spareSentences(plan, pass, step));
  }
  if (comesLoose.length > 1) said.push(`${comesLoose.length} blocks come loose${blue}.`);
  const { lumps, rest } = blocks.step(step);
  const number = lumps.length > 0 ? numberOf(plan, pass, step) : 0;
  for (const lump of lumps) said.push(lumpSentence(plan, names, pass, step, lump, number, blue));
  if (lumps.length > 0) said.push(...restSentences(plan, pass, step, rest, lumps[0].regions[0]));
  for (const { regions, sheets } of fallsOut) {
    const which = joinWords(regions.map(names.region));
    said.push(`Out of ${joinWords(sheets)} alone falls the waste of ${which}.`);
  }
  return said;
}

/** A block that comes loose: what it is called, what holds it, and where it is sawn on. */
function lumpSentence(
  plan: CutPlan,
  names: PlanNames,
  pass: Pass,
  step: CutStep,
  { letter, regions, beside, lasting }: LetteredLump,
  number: number,
  blue: string,
): string {
  const owners = joinWords(names.owners(regions));
  const alone = (step.comesLoose ?? []).length === 1;
  const what = alone
    ? `A block comes loose${blue}, ${letter} from now on: ${owners}.`
    : `${letter}: ${owners}.`;
  const later = sawnLater(plan, pass, step, regions);
  if (later.length === 0)
    return `${what} Lift it out, write ${letter} on a bit of tape on it and lay it aside.`;
  const steps = `${later.length === 1 ? 'step' : 'steps'} ${joinNumbers(later.map((n) => number + n))}`;
  const area = regions.reduce((sum, r) => sum + plan.relief.map.regions[r].area, 0);
  const small = isSmallArea(area) ? '; it is small: a stick, not a finger' : '';
  const why =
    beside.length === 0
      ? 'Nothing stands beside it any more'
      : `What stands beside it (${joinWords(beside)}) does not stay there until its turn`;
  const held =
    lasting.length > 0
      ? `Leave it where it lies and tape it to ${joinWords(lasting)} beside it${small}.`
      : `${why}: take it out${isSmallArea(area) ? ' and stick it to scrap, since it is small' : ''}, and saw it by itself.`;
  return `${what} Write ${letter} on a bit of tape on it. ${held} It is sawn on in ${steps}.`;
}

/** What is left of the block that others come loose from, and whether the piece around it still holds it. */
function restSentences(
  { relief: { map, bodies } }: CutPlan,
  { blocks }: Pass,
  step: CutStep,
  rest: string,
  inLump: number,
): string[] {
  const around = new Set<number>();
  for (let r = inLump; r !== OUTSIDE; r = map.regions[r].inside) around.add(r);
  const frame =
    step.frees !== 'piece' || blocks.some(({ board }) => board)
      ? undefined
      : bodies.find(({ region }) => step.regions.includes(region) && around.has(region));
  if (frame === undefined && rest !== 'A') return [];
  const loose =
    frame === undefined
      ? ''
      : `; ${frame.id} no longer holds it: keep it flat on the table and hold it by itself`;
  return [`${rest} is the rest${rest === 'A' ? ' of the board' : ''}${loose}.`];
}

/** The steps before which ways in through the waste of the board, which are taped over, were sawn. */
function stepsAfterWays({ passes }: CutPlan): ReadonlySet<CutStep> {
  const steps = passes.filter(({ phase }) => phase !== 'add-ons').flatMap((pass) => pass.steps);
  const first = steps.findIndex(({ waysIn = [] }) => waysIn.some(({ length }) => length > 0));
  return new Set(first < 0 ? [] : steps.slice(first + 1));
}

/** The blade is at the mark of a step already, at the end of the one before it. */
function bladeStandsAt({ relief: { map } }: CutPlan, { steps }: Pass, step: CutStep): boolean {
  const { at, threaded, outside } = step.start;
  const before = steps[steps.indexOf(step) - 1];
  if (before === undefined || threaded || outside === true || before.captive === true) return false;
  if ((step.waysIn ?? []).some(({ run }) => run === 0)) return false;
  const last = before.edges.length - 1;
  const { from, to } = map.edges[before.edges[last]];
  const end = map.nodes[before.forward[last] ? to : from].at;
  return before.kind === 'vein' && Math.hypot(end[0] - at[0], end[1] - at[1]) < SAME_PLACE;
}

/** Points of the plan nearer than this are one, mm: starts are told in thousandths, nodes lie on the grid. */
const SAME_PLACE = 0.01;

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

/** `4 s`, `40 s`, `3 min`, `1 h 20 min`: no finer than the estimate, yet so that the times of steps add up. */
export function minutesText(minutes: number): string {
  if (minutes < 1 / 3) return `${Math.max(1, Math.round(minutes * 60))} s`;
  if (minutes < 1) return `${Math.round((minutes * 60) / 5) * 5} s`;
  if (minutes < 59.5) return `${minutes < 10 ? Number(minutes.toFixed(1)) : Math.round(minutes)} min`;
  const rounded = Math.round(minutes);
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
