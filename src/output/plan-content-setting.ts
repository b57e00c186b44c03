import { isSmallArea, isSmallPiece } from '../workshop/cautions.js';
import type { CutPlan, Pass, Block as StockBlock } from '../workshop/cut-plan.js';
import { timeRange } from '../workshop/saw-time.js';
import { blockLetter, blockOfStep } from './plan-blocks.js';
import type { Block } from './plan-content.js';
import { narrowRows } from './plan-narrow.js';
import { apartSentences } from './plan-waste.js';
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
export function openingBlocks(plan: CutPlan, words: PlanWords, place: number, first: number): Block[] {
  const pass = plan.passes[place];
  const said = [
    ...moveSentences(plan, place),
    ...partingSentences(plan, place),
    words.together(pass),
    ...phaseSentences(plan, pass),
    ...looseSentences(words, pass),
    ...blockSentences(plan, pass, first, words.pictures),
    ...apartSentences(pass, words.names, true),
    ...holeSentences(pass, first, words.pictures),
    ...smallSentences(plan, pass, first),
  ];
  return said.map((text) => ({ kind: 'paragraph', text }));
}

function moveSentences(plan: CutPlan, place: number): string[] {
  const { moves, blocks } = plan.passes[place];
  const of = (action: string): string[] =>
    moves.filter((move) => move.action === action).map((move) => move.sheet);
  const [off, on] = [of('lift'), of('put-back')];
  const later = plan.passes.slice(place);
  const again = off.filter((id) =>
    later.some((pass) => pass.phase !== 'add-ons' && pass.sheets.includes(id)),
  );
  const done = off.filter((id) => !again.includes(id));
  const apart = blocks.length > 1 ? ', of the board and of every block' : '';
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

/** A warning where sheets are taken off others that have narrow places in them. */
function partingSentences(plan: CutPlan, place: number): string[] {
  const { moves } = plan.passes[place];
  if (!moves.some(({ action }) => action === 'lift')) return [];
  const before = plan.passes[place - 1];
  const sheets = new Set(before?.sheets ?? []);
  const off = new Set(moves.filter(({ action }) => action === 'lift').map(({ sheet }) => sheet));
  const rows = narrowRows(plan);
  const numbers = rows.flatMap(({ bridge: { where } }, i) => {
    const own = where.split('+');
    const parted = own.some((id) => off.has(id)) && own.every((id) => sheets.has(id));
    return parted ? [i + 1] : [];
  });
  if (numbers.length === 0) return [];
  const width = Math.min(...numbers.map((n) => rows[n - 1].bridge.width));
  return [
    `Mind the narrow places when you part the sheets: ${numbers.length === 1 ? 'No.' : 'Nos.'} ${joinNumbers(numbers)} in the list of narrow places, down to ${millimetres(width)} wide. Begin at the outer edge, slide the blade in flat under the whole bar, cut the tape there rather than pull it, and do not twist.`,
  ];
}

const named = (ids: readonly string[]): string =>
  `${ids.length === 1 ? 'sheet' : 'sheets'} ${joinWords(ids)}`;
const it = (ids: readonly string[]): string => (ids.length === 1 ? 'it' : 'them');

function phaseSentences({ relief }: CutPlan, pass: Pass): string[] {
  if (pass.phase === 'add-ons') {
    return [
      'Saw these out of scrap of the same kind, not out of the stack: cut their shapes out of a second copy of the drawing and stick them on with room between and around to hold it by. They are glued on at the very end.',
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

function blockSentences(plan: CutPlan, pass: Pass, first: number, pictures: boolean): string[] {
  const { blocks, steps } = pass;
  if (blocks.length < 2) return [];
  const own: number[][] = blocks.map(() => []);
  steps.forEach((step, i) => {
    const b = blockOfStep(plan, pass, step);
    if (b !== undefined) own[b].push(first + i);
  });
  const small = blocks.flatMap((block, b) =>
    !block.board && own[b].length > 0 && isSmallArea(block.area) ? [blockLetter(b)] : [],
  );
  const held =
    small.length === 0
      ? ''
      : ` Too small to hold by hand: ${joinWords(small)}. Stick ${it(small)} to a larger piece of scrap with double-faced tape first, and saw through both.`;
  const list = blocks.flatMap((block, b) =>
    own[b].length === 0
      ? []
      : [
          `${blockLetter(b)}${boardNote(block)} in ${own[b].length === 1 ? 'step' : 'steps'} ${joinNumbers(own[b])}`,
        ],
  );
  const idle = blocks.flatMap((_, b) => (own[b].length === 0 ? [blockLetter(b)] : []));
  const rest = idle.length === 0 ? '' : ` Nothing is sawn in ${joinWords(idle)} now.`;
  return [
    `${plural(blocks.length, 'block')} on the table${pictures ? ', tinted and lettered in the picture' : ''}: each holds together by itself and is sawn by itself. Write the letter on a bit of tape on each. Saw ${joinWords(list)}.${rest}${held}`,
  ];
}

const boardNote = ({ board }: StockBlock): string => (board ? ' (the board)' : '');

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

function smallSentences({ relief }: CutPlan, pass: Pass, first: number): string[] {
  const small = pass.steps.flatMap(({ frees, regions }, i) =>
    frees === 'piece' && regions.some((r) => relief.regions[r].role === 'piece' && isSmallPiece(relief, r))
      ? [first + i]
      : [],
  );
  if (small.length === 0) return [];
  const many = 2 * small.length > pass.steps.filter(({ frees }) => frees === 'piece').length;
  const which = many
    ? 'Most pieces here are small'
    : `Small pieces come free in ${small.length === 1 ? 'step' : 'steps'} ${joinNumbers(small)}`;
  return [`${which}. Hold them down with a stick, not with a finger.`];
}

/** What is said after the last step of a setting. */
export function closingBlocks(plan: CutPlan, place: number): Block[] {
  const pass = plan.passes[place];
  if (pass.steps.length === 0) return [];
  const time = rangeText(timeRange(plan.workshop, pass.minutes));
  const done = `This setting is done after ${plural(pass.steps.length, 'step')}, ${time}.`;
  const next = plan.passes[place + 1];
  const lower = plan.relief.joint === 'pieces' && next?.phase === 'pass' && pass.phase === 'pass';
  const hint = lower ? ` Lines that are left are sawn later, at ${millimetres(next.height)}.` : '';
  return [{ kind: 'paragraph', text: done + hint }];
}
