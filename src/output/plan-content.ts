import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { afterSawing } from './plan-content-after.js';
import { beforeSawing } from './plan-content-before.js';
import { copiesSection } from './plan-content-copies.js';
import { planNames } from './plan-names.js';
import type { PlanDocumentOptions } from './plan-text.js';
import {
  bitWords,
  joinNumbers,
  joinWords,
  millimetres,
  minutesText,
  type PlanWords,
  planWords,
  plural,
} from './plan-words.js';

/** A part of a document, before it becomes text, Markdown or HTML. */
export type Block =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      /** Columns of numbers stand right. */
      readonly numbers: readonly number[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'setting'; readonly pass: Pass }
  /** A picture of all pieces with their ids, where pictures can be shown. */
  | { readonly kind: 'pieces' }
  | {
      readonly kind: 'step';
      /** Counted through the whole job, from 1. */
      readonly number: number;
      readonly pass: Pass;
      readonly step: CutStep;
      readonly title: string;
      readonly lines: readonly string[];
    };

/** A section with its heading. */
export interface Section {
  readonly id: string;
  readonly title: string;
  readonly blocks: readonly Block[];
}

/** The whole plan for a person, in the order in which it is needed. */
export function planContent(given: CutPlan, options: PlanDocumentOptions): Section[] {
  const { findings = given.findings, copies = 1 } = options;
  const plan = { ...given, findings };
  const words = planWords(plan);
  const many = copies > 1 ? [copiesSection(plan, copies)] : [];
  return [...beforeSawing(plan), ...many, ...settings(plan, words), ...afterSawing(plan)];
}

function settings(plan: CutPlan, words: PlanWords): Section[] {
  let number = 0;
  return plan.passes.map((pass, p): Section => {
    const steps = pass.steps.map((step): Block => {
      number++;
      return {
        kind: 'step',
        number,
        pass,
        step,
        title: words.action(pass, step),
        lines: [words.start(pass, step), words.keep(pass, step), words.effort(step)],
      };
    });
    return {
      id: `setting-${p + 1}`,
      title: words.setting(pass),
      blocks: [
        ...opening(plan, words, pass, p),
        ...holes(pass, number - pass.steps.length),
        { kind: 'setting', pass },
        ...steps,
        ...closing(plan, pass, p),
      ],
    };
  });
}

function opening(plan: CutPlan, words: PlanWords, pass: Pass, place: number): Block[] {
  const blocks: Block[] = [];
  const moves = words.moves(pass);
  if (moves !== null) {
    const lifted = pass.moves.some((move) => move.action === 'lift');
    const keep =
      lifted && pass.phase === 'pass' ? ' What is lifted off now is an offcut: keep it until the end.' : '';
    blocks.push(paragraph(moves + keep));
  }
  if (pass.phase === 'add-ons') {
    blocks.push(
      paragraph(
        'Cut these small parts from scrap of the sheets named, or from offcuts. They are glued on top at the very end.',
      ),
    );
  }
  blocks.push(paragraph(words.together(pass)));
  blocks.push(...looseBlocks(plan, pass));
  if (pass.phase === 'recesses' && pass.sheets[0] !== plan.relief.stack.sheets[0].id) {
    blocks.push(
      paragraph(
        `The drawing is on another sheet: stick a copy on ${pass.sheets[0]}, in register, since these recesses show on pieces that turn it to the front.`,
      ),
    );
  }
  if (pass.phase === 'recesses') {
    blocks.push(
      paragraph(
        'Only these sheets are cut through here. What comes out is waste; the sheets behind close the recess.',
      ),
    );
  }
  const others = pass.blocks.filter((block) => !block.board);
  if (others.length > 0 && (others.length > 1 || pass.blocks.length > others.length)) {
    blocks.push(paragraph(blocksSentence(plan, pass)));
  }
  if (place === 0 && pass.steps.length > 0 && pass.phase !== 'add-ons') {
    blocks.push(
      paragraph('Saw the steps in this order. Every line is sawn once, in the step that shows it.'),
    );
  }
  return blocks;
}

/** All holes of a setting, by bit: they are drilled in one go while the stock is whole. */
function holes(pass: Pass, before: number): Block[] {
  const byBit = new Map<string, number[]>();
  pass.steps.forEach(({ start }, i) => {
    if (start.kind !== 'drill') return;
    const bit = bitWords(start.bit, start.diameter ?? 0);
    byBit.set(bit, [...(byBit.get(bit) ?? []), before + i + 1]);
  });
  if (byBit.size === 0) return [];
  const list = [...byBit].map(
    ([bit, steps]) => `${bit} for ${steps.length === 1 ? 'step' : 'steps'} ${joinNumbers(steps)}`,
  );
  return [paragraph(`Drill all holes of this setting first, while the stock is whole: ${list.join('; ')}.`)];
}

function blocksSentence({ relief }: CutPlan, { blocks }: Pass): string {
  const loose = blocks.filter((block) => !block.board);
  const list = loose.slice(0, 6).map(({ regions }) => {
    const largest = regions.reduce((a, b) =>
      relief.map.regions[b].area > relief.map.regions[a].area ? b : a,
    );
    return `${plural(regions.length, 'region')} about ${relief.map.regions[largest].id}`;
  });
  const more = loose.length > list.length ? `; and ${loose.length - list.length} more` : '';
  const board = blocks.length > loose.length ? 'the board, and ' : '';
  return `On the table: ${board}${plural(loose.length, 'block')} that ${loose.length === 1 ? 'is' : 'are'} loose by now: ${list.join('; ')}${more}. Each must hold together by itself.`;
}

/** What is loose before the first cut of a setting. */
function looseBlocks(plan: CutPlan, pass: Pass): Block[] {
  const ids = planNames(plan).loose(pass);
  if (ids.length === 0) return [];
  const one = ids.length === 1;
  return [
    paragraph(
      `Loose already, without a cut of this setting: ${joinWords(ids)}. Take ${one ? 'it' : 'them'} off and write ${one ? 'its id' : 'their ids'} on.`,
    ),
  ];
}

function closing(plan: CutPlan, pass: Pass, place: number): Block[] {
  const next = plan.passes[place + 1];
  const done = `This setting is done after ${plural(pass.steps.length, 'step')}, about ${minutesText(pass.minutes)}.`;
  if (pass.steps.length === 0) return [];
  if (next === undefined || next.phase === 'add-ons') return [paragraph(done)];
  const lower = plan.relief.joint === 'pieces' && next.phase === 'pass' && pass.phase === 'pass';
  const hint = lower ? ` Lines that are left are sawn later, at ${millimetres(next.height)}.` : '';
  return [paragraph(done + hint)];
}

const paragraph = (text: string): Block => ({ kind: 'paragraph', text });
