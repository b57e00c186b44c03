import { frontSheetsOf } from '../workshop/bridge-where.js';
import type { Bridge, CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { afterSawing } from './plan-content-after.js';
import { beforeSawing } from './plan-content-before.js';
import { copiesSection } from './plan-content-copies.js';
import { narrowSection } from './plan-content-narrow.js';
import { closingBlocks, openingBlocks } from './plan-content-setting.js';
import { narrowBySteps } from './plan-narrow.js';
import type { PlanDocumentOptions } from './plan-text.js';
import { joinWords, millimetres, type PlanWords, planWords } from './plan-words.js';

/** A part of a document, before it becomes text, Markdown or HTML. */
export type Block =
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[]; readonly ordered?: boolean }
  | {
      readonly kind: 'table';
      readonly head: readonly string[];
      /** Columns of numbers stand right. */
      readonly numbers: readonly number[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'setting'; readonly pass: Pass }
  /**
   * A picture of the whole, where pictures can be shown: all pieces with their ids, in the order of the glue-up,
   * the narrow places, what is left of each sheet, or the drawing at true size.
   */
  | { readonly kind: 'pieces' | 'glue' | 'narrow' | 'offcuts' | 'drawing' }
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

/**
 * The whole plan for a person, in the order in which it is needed.
 *
 * @param pictures the document shows them, so places are not told by x and y
 */
export function planContent(given: CutPlan, options: PlanDocumentOptions, pictures = false): Section[] {
  const { findings = given.findings, copies = 1 } = options;
  const words = planWords(given, pictures);
  const many = copies > 1 ? [copiesSection(given, copies)] : [];
  return [
    ...beforeSawing(given, findings, pictures),
    ...narrowSection(given, words),
    ...many,
    ...settings(given, words),
    ...afterSawing(given, words, pictures),
  ];
}

function settings(plan: CutPlan, words: PlanWords): Section[] {
  const narrow = narrowBySteps(plan);
  const sawn = new Set<Bridge>();
  let number = 0;
  return plan.passes.map((pass, p): Section => {
    const first = number + 1;
    const opening = openingBlocks(plan, words, p, first, sawn);
    const steps = pass.steps.map((step): Block => {
      number++;
      const warned = narrow.get(number) ?? [];
      for (const bridge of warned) sawn.add(bridge);
      const lines = [
        words.start(pass, step),
        ...partsLines(plan, step, words.pictures),
        words.keep(pass, step),
      ];
      if (warned.length > 0) {
        lines.push(goSlowly(warned));
      }
      const title = words.action(pass, step);
      return { kind: 'step', number, pass, step, title, lines: [...lines, words.effort(step)] };
    });
    return {
      id: `setting-${p + 1}`,
      title: `Setting ${p + 1} of ${plan.passes.length}: ${words.setting(pass)}`,
      blocks: [...opening, { kind: 'setting', pass }, ...steps, ...closingBlocks(plan, words, p)],
    };
  });
}

/** A warning of the narrowest place that a step leaves. */
function goSlowly(bridges: readonly Bridge[]): string {
  const { width, where } = bridges.reduce((a, b) => (b.width < a.width ? b : a));
  const front = frontSheetsOf(where);
  const inSheets = front === null ? '' : ` in ${joinWords([...front.sheets])}`;
  return `Go slowly: ${millimetres(width)} of wood stays${inSheets} beside this cut (see Narrow places).`;
}

/** What to say where a step is sawn in several parts. */
function partsLines({ relief: { map } }: CutPlan, { edges, forward }: CutStep, pictures: boolean): string[] {
  let parts = 0;
  let end = -1;
  edges.forEach((e, i) => {
    const { from, to } = map.edges[e];
    if ((forward[i] ? from : to) !== end) parts++;
    end = forward[i] ? to : from;
  });
  return parts < 2
    ? []
    : [
        `In ${parts} parts${pictures ? ', as numbered' : ''}; between them go along the kerf or through the gap.`,
      ];
}
