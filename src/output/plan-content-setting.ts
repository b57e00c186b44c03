import { frontSheetsOf } from '../workshop/bridge-where.js';
import { isSmallArea, isSmallPiece } from '../workshop/cautions.js';
import type { Bridge, CutPlan, Pass } from '../workshop/cut-plan.js';
import { paceOf, timeRange } from '../workshop/saw-time.js';
import { blockLetter, type LetteredBlock } from './plan-blocks.js';
import type { Block } from './plan-content.js';
import { narrowRows, partingWords } from './plan-narrow.js';
import {
  bitWords,
  joinNumbers,
  joinWords,
  millimetres,
  type PlanWords,
  plural,
  rangeText,
} from './plan-words.js';

/** What is said before the steps of a setting: sheets, blocks, holes, in the order in which it is done. */
/**
 * What to do before the first step of a setting.
 *
 * @param first number of that step
 * @param sawn narrow places that the steps before it leave
 */
export function openingBlocks(
  plan: CutPlan,
  words: PlanWords,
  place: number,
  first: number,
  sawn: ReadonlySet<Bridge>,
): Block[] {
  const pass = plan.passes[place];
  const said = [
    ...moveSentences(plan, words, place),
    ...partingSentences(plan, place, sawn),
    ...tapeSentences(plan, place),
    words.together(pass),
    ...phaseSentences(plan, pass),
    ...looseSentences(words, pass),
    ...blockSentences(words, pass, first),
    ...holeSentences(pass, first, words.pictures),
    ...smallSentences(plan, words, pass, first),
  ];
  return said.map((text) => ({ kind: 'paragraph', text }));
}

function moveSentences(plan: CutPlan, words: PlanWords, place: number): string[] {
  const { moves } = plan.passes[place];
  const of = (action: string): string[] =>
    moves.filter((move) => move.action === action).map((move) => move.sheet);
  const [off, on] = [of('lift'), of('put-back')];
  const later = plan.passes.slice(place);
  const again = off.filter((id) =>
    later.some((pass) => pass.phase !== 'add-ons' && pass.sheets.includes(id)),
  );
  const done = off.filter((id) => !again.includes(id));
  const letters = words.blocks.setting(plan.passes[place]).map(({ letter }) => letter);
  const apart = letters.length > 1 ? `, of ${joinWords(letters)}` : '';
  const said: string[] = [];
  if (again.length > 0)
    said.push(
      `Lift off ${named(again)}${apart} and set ${it(again)} aside: ${again.length > 1 ? 'they go' : 'it goes'} back on later.`,
    );
  if (done.length > 0)
    said.push(
      `Lift off ${named(done)}${apart}: what is left of ${it(done)} is offcut. Keep it until the end.`,
    );
  if (on.length > 0) {
    const stop =
      plan.relief.frame === 'cut'
        ? 'on the registration pins'
        : 'in the corner stop, the marked top left corner first';
    said.push(
      `Put ${named(on)} on behind, line all up ${stop}, and hold the sheets together with fresh tape.`,
    );
  }
  if (place === 0 && plan.relief.joint === 'pieces') {
    const away = plan.relief.stack.sheets
      .map(({ id }) => id)
      .filter((id) => !plan.passes[0].sheets.includes(id));
    const back = away.filter((id) =>
      plan.passes.some((pass) => pass.moves.some((move) => move.sheet === id && move.action === 'put-back')),
    );
    if (back.length > 0)
      said.push(`Leave ${named(back)} off for now: ${back.length > 1 ? 'they are' : 'it is'} put on later.`);
    if (plan.passes[0].sheets.length > 1)
      said.push(`Hold ${joinWords([...plan.passes[0].sheets])} together with tape.`);
  }
  return said;
}

/** A warning where sheets are taken off others that have narrow places in them, of stock that is still there. */
function partingSentences(plan: CutPlan, place: number, sawn: ReadonlySet<Bridge>): string[] {
  const { moves, blocks } = plan.passes[place];
  if (!moves.some(({ action }) => action === 'lift')) return [];
  const before = plan.passes[place - 1];
  const sheets = new Set(before?.sheets ?? []);
  const off = new Set(moves.filter(({ action }) => action === 'lift').map(({ sheet }) => sheet));
  const there = new Set(blocks.flatMap(({ regions }) => regions));
  const rows = narrowRows(plan);
  const numbers = rows.flatMap(({ bridge: { where }, places }, i) => {
    const front = frontSheetsOf(where);
    const own = front?.sheets ?? where.split('+');
    const parted = own.some((id) => off.has(id)) && own.every((id) => sheets.has(id));
    const isThere = (bridge: Bridge): boolean =>
      bridge.regions.some((r) => there.has(r)) && (front === null || sawn.has(bridge));
    return parted && places.some(isThere) ? [i + 1] : [];
  });
  return numbers.length === 0
    ? []
    : [partingWords('Mind the narrow places when you part the sheets:', rows, numbers)];
}

/** Tape across the ways of the board goes with the sheet that it is on. */
function tapeSentences({ passes }: CutPlan, place: number): string[] {
  const { moves, blocks } = passes[place];
  const sawn = passes
    .slice(0, place)
    .some(({ steps }) => steps.some(({ waysIn = [] }) => waysIn.some(({ length }) => length > 0)));
  if (!sawn || !blocks.some(({ board }) => board)) return [];
  if (!moves.some(({ action }) => action === 'lift')) return [];
  return [
    'Before that, cut the tape on the back along the ways in; tape them over again on the new back before you saw.',
  ];
}

const named = (ids: readonly string[]): string =>
  `${ids.length === 1 ? 'sheet' : 'sheets'} ${joinWords(ids)}`;
const it = (ids: readonly string[]): string => (ids.length === 1 ? 'it' : 'them');

function phaseSentences({ relief }: CutPlan, pass: Pass): string[] {
  if (pass.phase === 'add-ons') {
    return [
      'Saw these out of scrap of the same kind, not out of the stack: cut their shapes out of a second copy of the drawing and stick them on with room between and around to hold it by. They are glued on at the very end.',
      'No way in is drawn from the edge of the scrap, since it depends on where you stick them: saw straight in from the nearest edge to the mark, clear of the others.',
    ];
  }
  if (pass.phase !== 'recesses') return [];
  const said = [
    'Only these sheets are sawn here. What comes out is waste; the sheets behind close the recess.',
  ];
  if (pass.sheets[0] !== relief.stack.sheets[0].id) {
    said.push(
      `The drawing is on another sheet: stick a copy on ${pass.sheets[0]}, in register, since these recesses show on pieces that turn it to the front.`,
    );
  }
  return said;
}

/** What is loose before the first cut of a setting. */
function looseSentences({ names }: PlanWords, pass: Pass): string[] {
  const ids = names.loose(pass);
  if (ids.length === 0) return [];
  return [`Loose already, without a cut: ${joinWords(ids)}. Keep ${it(ids)}.`];
}

function blockSentences(words: PlanWords, pass: Pass, first: number): string[] {
  const blocks = words.blocks.setting(pass);
  if (blocks.length < 2) return [];
  const sawnIn = (letter: string): number[] =>
    pass.steps.flatMap((step, i) => (words.blocks.step(step).own === letter ? [first + i] : []));
  const all = blocks.map((block) => ({ block, steps: sawnIn(block.letter) }));
  const taped = blocks.filter(({ taped: place }) => place !== null).map(({ letter }) => letter);
  const main = blocks.find(({ board, taped: place }) => board && place === null)?.letter;
  const picture = words.pictures ? ', tinted and lettered in the picture' : '';
  const sawn = all.filter(({ steps }) => steps.length > 0);
  const order = sawn.map(
    ({ block, steps }) => `${block.letter} in ${steps.length === 1 ? 'step' : 'steps'} ${joinNumbers(steps)}`,
  );
  const idle = all.filter(({ steps }) => steps.length === 0).map(({ block }) => block.letter);
  const fresh = blocks.filter(({ isNew }) => isNew).map(({ letter }) => letter);
  const wasteOf = (letter: string): number =>
    pass.steps
      .filter((step) => words.blocks.step(step).own === letter)
      .flatMap(({ wasteOff = [] }) => wasteOff)
      .reduce((sum, { area }) => sum + area, 0);
  const small = sawn
    .map(({ block }) => block)
    .filter(({ area, letter }) => isSmallArea(area + wasteOf(letter)));
  const [loose, held] = [
    small.filter(({ taped: t }) => t === null),
    small.filter(({ taped: t }) => t !== null),
  ];
  return [
    [
      `${plural(blocks.length, 'block')} on the table${picture}: ${blocks.map((block) => blockWords(words, block)).join('; ')}.`,
      ...(taped.length === 0 || main === undefined
        ? []
        : [
            `Only tape across the ways in holds ${joinWords([...taped, main].sort())} together, each to what lies beside it. Hold the work by ${main}, the largest of them${main === blockLetter(0) ? '' : ' now'}; what the tape lets go is sawn by itself.`,
          ]),
      ...(taped.length === 0 ? ['Each is sawn by itself.'] : []),
      ...(fresh.length === 0 ? [] : [`Write ${joinWords(fresh)} on a bit of tape on ${it(fresh)}.`]),
      ...(order.length === 0 ? [] : [`Saw ${joinWords(order)}.`]),
      ...(idle.length === 0 ? [] : [`Nothing is sawn in ${joinWords(idle)} now.`]),
      ...(loose.length === 0
        ? []
        : [
            `Too small to hold by hand: ${joinWords(loose.map(({ letter }) => letter))}. Stick ${it(loose.map(({ letter }) => letter))} to a larger piece of scrap with double-faced tape first, and saw through both.`,
          ]),
      ...(held.length === 0
        ? []
        : [
            `Small${loose.length > 0 ? ' too' : ''}: ${joinWords(held.map(({ letter }) => letter))}. As long as the tape holds, hold the board; taken out, it is stuck to scrap to be sawn.`,
          ]),
    ].join(' '),
  ];
}

/** `B (top right, with p1 moon and p9 moon)`. */
function blockWords({ names }: PlanWords, { letter, regions, place }: LetteredBlock): string {
  const what = joinWords(names.owners(regions));
  if (place !== null) return `${letter} (${place}, with ${what})`;
  return letter === 'A' ? 'A (the rest of the board)' : `${letter} (${what})`;
}

/** All holes of a setting, by bit: they are drilled in one go while the stock is whole. */
function holeSentences(pass: Pass, first: number, pictures: boolean): string[] {
  const byBit = new Map<string, number[]>();
  pass.steps.forEach(({ start }, i) => {
    if (start.kind !== 'drill') return;
    const bit = bitWords(start.bit, start.diameter ?? 0);
    byBit.set(bit, [...(byBit.get(bit) ?? []), first + i]);
  });
  if (byBit.size === 0) return [];
  const list = [...byBit].map(
    ([bit, steps]) => `${bit} for ${steps.length === 1 ? 'step' : 'steps'} ${joinNumbers(steps)}`,
  );
  const { length } = pass.sheets;
  const through =
    length === 1 ? 'through this sheet' : `through ${length === 2 ? 'both' : `all ${length}`} sheets`;
  return [
    `Drill all holes of this setting now, ${through}, before you saw: ${list.join('; ')}.${pictures ? ' They are the blue crosses, on the drawing by their step.' : ''}`,
  ];
}

/** So many large pieces are named among small ones; more are told by their steps. */
const MOST_LARGE = 6;

/** Which pieces are too small for fingers as they come free. */
function smallSentences(plan: CutPlan, { names }: PlanWords, pass: Pass, first: number): string[] {
  const all = piecesFreed(plan, pass, first);
  const small = all.filter(({ isSmall }) => isSmall);
  if (small.length === 0) return [];
  const large = all.filter(({ isSmall }) => !isSmall);
  const what = pass.phase === 'add-ons' ? 'add-ons' : 'pieces that come free here';
  const but =
    large.length > MOST_LARGE
      ? `, but in ${stepWord([...new Set(large.map(({ number }) => number))])} a large one comes free too`
      : large.length > 0
        ? `, but for ${joinWords(large.map(({ id, number }) => `${names.piece(id)} (step ${number})`))}`
        : '';
  const which =
    large.length < small.length
      ? `All ${what} are small${but}`
      : `Small ${pass.phase === 'add-ons' ? 'add-ons' : 'pieces'} come free in ${stepWord([...new Set(small.map(({ number }) => number))])}`;
  return [`${which}. Hold them down with a stick, not with a finger.`];
}

/** The pieces, or add-ons, that come free in a setting. @param first the number of its first step */
function piecesFreed(
  { relief, pieces }: CutPlan,
  { steps, phase }: Pass,
  first: number,
): { id: string; number: number; isSmall: boolean }[] {
  const addOns = new Map(relief.addOns.map(({ region, id }) => [region, id]));
  return steps.flatMap(({ frees, regions, sheets }, i) =>
    regions.flatMap((r) => {
      const addOn = phase === 'add-ons' ? addOns.get(r) : undefined;
      if (addOn !== undefined) return [{ id: addOn, number: first + i, isSmall: isSmallPiece(relief, r) }];
      if (frees !== 'piece' || relief.regions[r].role !== 'piece') return [];
      const piece = pieces.find((p) => p.region === r && sheets.includes(p.sheets[0]));
      if (piece === undefined) return [];
      return [{ id: piece.id, number: first + i, isSmall: isSmallArea(piece.area) }];
    }),
  );
}

const stepWord = (numbers: readonly number[]): string =>
  `${numbers.length === 1 ? 'step' : 'steps'} ${joinNumbers(numbers)}`;

/** What is said after the last step of a setting. */
export function closingBlocks(plan: CutPlan, { inTaped }: PlanWords, place: number): Block[] {
  const pass = plan.passes[place];
  const last = pass.steps[pass.steps.length - 1];
  if (last === undefined) return [];
  const time = rangeText(timeRange(plan.workshop, pass.minutes));
  const done = `This setting is done after ${plural(pass.steps.length, 'step')}, ${time}${timeParts(plan, pass)}.`;
  const next = plan.passes[place + 1];
  const lower = plan.relief.joint === 'pieces' && next?.phase === 'pass' && pass.phase === 'pass';
  const hint = lower ? ` Lines that are left are sawn later, at ${millimetres(next.height)}.` : '';
  const goesOn = plan.passes.slice(place + 1).some(({ phase }) => phase !== 'add-ons');
  const out =
    pass.phase === 'add-ons' || last.captive === true || !goesOn
      ? ''
      : ` If the blade is still in the work, bring it out to the edge, through gaps and kerfs${inTaped(last) ? ', with the tape across them cut' : ''}; then take the work off.`;
  return [{ kind: 'paragraph', text: done + out + hint }];
}

/** What the time of a setting is made of, where it is more than its steps. */
function timeParts({ workshop }: CutPlan, { steps, moves }: Pass): string {
  if (moves.length === 0) return ', the sum of its steps';
  const sawing = steps.reduce((sum, { minutes }) => sum + minutes, 0);
  const moving = moves.length * workshop.moveMinutes * paceOf(workshop);
  const range = (minutes: number): string => rangeText(timeRange(workshop, minutes));
  return `: its steps ${range(sawing)}, ${plural(moves.length, 'sheet move')} ${range(moving)}`;
}
