import { isSmallPiece } from '../workshop/cautions.js';
import type { CutPlan, Pass, Block as StockBlock } from '../workshop/cut-plan.js';
import { timeRange } from '../workshop/saw-time.js';
import type { Block } from './plan-content.js';
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
    words.together(pass),
    ...phaseSentences(plan, pass),
    ...looseSentences(words, pass),
    ...blockSentences(plan, pass, first, words.pictures),
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
    const stop = plan.relief.frame === 'cut' ? 'on the registration pins' : 'in the corner stop';
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

/** The letter of each block of a setting, where there are several. */
export function blockLetter(place: number): string {
  const letter = String.fromCharCode(65 + (place % 26));
  return place < 26 ? letter : `${letter}${Math.floor(place / 26) + 1}`;
}

function blockSentences({ relief }: CutPlan, pass: Pass, first: number, pictures: boolean): string[] {
  const { blocks, steps } = pass;
  if (blocks.length < 2) return [];
  const blockOf = new Map(blocks.flatMap(({ regions }, b) => regions.map((r) => [r, b] as const)));
  const own: number[][] = blocks.map(() => []);
  steps.forEach(({ edges }, i) => {
    const { left, right } = relief.map.edges[edges[edges.length - 1]];
    const b = blockOf.get(left) ?? blockOf.get(right);
    if (b !== undefined) own[b].push(first + i);
  });
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
    `${plural(blocks.length, 'block')} on the table${pictures ? ', lettered in the picture' : ''}: each holds together by itself and is sawn by itself. Saw ${joinWords(list)}.${rest}`,
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
