import type { CutPlan } from '../workshop/cut-plan.js';
import { type Block, planContent } from './plan-content.js';
import { DEFAULT_PLAN_TITLE, demandPlanDocument, type PlanDocumentOptions } from './plan-text.js';
import { visibleText } from './visible-text.js';

/** The plan as Markdown (CommonMark, with tables as in GitHub's flavour). */
export function writePlanMarkdown(plan: CutPlan, options: PlanDocumentOptions = {}): string {
  demandPlanDocument('writePlanMarkdown', plan, options);
  const parts = [`# ${escapeMarkdown(options.title ?? DEFAULT_PLAN_TITLE)}`];
  for (const section of planContent(plan, options)) {
    parts.push(`## ${escapeMarkdown(section.title)}`);
    parts.push(...section.blocks.map(blockText).filter((text) => text !== ''));
  }
  return `${parts.join('\n\n')}\n`;
}

function blockText(block: Block): string {
  switch (block.kind) {
    case 'paragraph':
      return escapeMarkdown(block.text);
    case 'list':
      return block.items
        .map((item, i) => `${block.ordered ? `${i + 1}.` : '-'} ${escapeMarkdown(item)}`)
        .join('\n');
    case 'table': {
      const row = (cells: readonly string[]): string => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
      const rule = block.head.map((_, c) => (block.numbers.includes(c) ? '---:' : '---'));
      return [row(block.head), `| ${rule.join(' | ')} |`, ...block.rows.map(row)].join('\n');
    }
    case 'step':
      return `**${block.number}.** **${escapeMarkdown(block.title)}.** ${escapeMarkdown(block.lines.join(' '))}`;
    default:
      return '';
  }
}

/** Text in which no character is read as markup, nor an address as a link; line ends become spaces. */
export function escapeMarkdown(text: string): string {
  const plain = visibleText(text)
    .replace(/\s+/g, ' ')
    .replace(/[\\`*_{}[\]<>#|&~@]/g, (c) => `\\${c}`);
  return plain.replace(/:(?=\/\/)/g, '\\:').replace(/\bwww\./gi, (www) => `${www.slice(0, 3)}\\.`);
}
