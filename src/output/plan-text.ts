import { demandFindings, demandOptions, demandStage, demandTypes } from '../arguments.js';
import type { Finding } from '../finding.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { type Block, planContent } from './plan-content.js';
import { visibleText } from './visible-text.js';

/** Choices for a written plan. */
export interface PlanDocumentOptions {
  /** The heading. Default `Cut plan`. */
  readonly title?: string;
  /** What to look at before sawing. Default: the findings of the plan itself; give those of `checkRelief`. */
  readonly findings?: readonly Finding[];
  /** Adds advice on sawing so many copies. Default 1: none. */
  readonly copies?: number;
}

export const DEFAULT_PLAN_TITLE = 'Cut plan';

/** Columns of a line of text. */
const WIDTH = 96;

/** The plan as plain text, for a terminal or a printer: lines of 96 columns at most, but for wide tables. */
export function writePlanText(plan: CutPlan, options: PlanDocumentOptions = {}): string {
  demandPlanDocument('writePlanText', plan, options);
  const title = visibleText(options.title ?? DEFAULT_PLAN_TITLE);
  const lines = [title, '='.repeat(title.length), ''];
  for (const section of planContent(plan, options)) {
    lines.push(section.title, '-'.repeat(section.title.length), '');
    for (const block of section.blocks) lines.push(...blockLines(block));
  }
  while (lines[lines.length - 1] === '') lines.pop();
  return `${lines.join('\n')}\n`;
}

/** Demands the arguments of a function that writes a plan document. */
export function demandPlanDocument(call: string, plan: unknown, options: PlanDocumentOptions): void {
  demandStage(plan, ['plan'], call);
  demandOptions(options, call, ['title', 'findings', 'copies']);
  demandTypes(options, { title: '', copies: 1 }, call);
  if (options.findings !== undefined) demandFindings(options.findings, call);
}

function blockLines(block: Block): string[] {
  switch (block.kind) {
    case 'paragraph':
      return [...wrap(block.text, '', ''), ''];
    case 'list':
      return [...block.items.flatMap((item, i) => listLines(item, block.ordered ? i + 1 : null)), ''];
    case 'table':
      return [...tableLines(block), ''];
    case 'step': {
      const mark = `${String(block.number).padStart(4)}. `;
      const indent = ' '.repeat(mark.length);
      return [...wrap(`${block.title}.`, mark, indent), ...wrap(block.lines.join(' '), indent, indent), ''];
    }
    default:
      return [];
  }
}

function listLines(item: string, number: number | null): string[] {
  const mark = number === null ? '- ' : `${number}) `;
  return wrap(item, mark, ' '.repeat(mark.length));
}

/** Breaks a text into lines; a word longer than a line stands by itself. */
export function wrap(text: string, first: string, rest: string): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of visibleText(text)
    .split(/\s+/)
    .filter((w) => w !== '')) {
    if (!empty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}

function tableLines({ head, rows, numbers }: Extract<Block, { kind: 'table' }>): string[] {
  const all = [head, ...rows].map((row) => row.map(visibleText));
  const widths = head.map((_, c) => Math.max(...all.map((row) => [...row[c]].length)));
  const lineOf = (row: readonly string[]): string =>
    row
      .map((cell, c) => {
        const space = ' '.repeat(widths[c] - [...cell].length);
        return numbers.includes(c) ? space + cell : cell + space;
      })
      .join('  ')
      .trimEnd();
  const [first, ...rest] = all.map(lineOf);
  return [first, widths.map((w) => '-'.repeat(w)).join('  '), ...rest];
}
