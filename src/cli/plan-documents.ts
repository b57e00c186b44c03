import { join } from 'node:path';
import {
  type CutPlan,
  type Finding,
  planReport,
  writePlanHtml,
  writePlanMarkdown,
  writePlanText,
} from '../index.js';
import type { OutputFile } from './write-files.js';

/** The forms in which a plan can be written. */
export const PLAN_FORMATS = ['text', 'json', 'markdown', 'html'] as const;
export type PlanFormat = (typeof PLAN_FORMATS)[number];

/** The plan as one document. */
export function planDocument(
  plan: CutPlan,
  findings: readonly Finding[],
  format: PlanFormat,
  title: string,
  copies = 1,
): string {
  const options = { title, findings, copies };
  switch (format) {
    case 'text':
      return writePlanText(plan, options);
    case 'markdown':
      return writePlanMarkdown(plan, options);
    case 'html':
      return writePlanHtml(plan, options);
    case 'json':
      return `${JSON.stringify(planReport(plan, findings), null, 2)}\n`;
  }
}

const ENDINGS: Readonly<Record<PlanFormat, string>> = {
  text: 'txt',
  json: 'json',
  markdown: 'md',
  html: 'html',
};

/** The plan in all its forms, as files in `folder`. */
export function planFiles(
  plan: CutPlan,
  findings: readonly Finding[],
  title: string,
  folder: string,
): OutputFile[] {
  return PLAN_FORMATS.map((format) => ({
    name: join(folder, `plan.${ENDINGS[format]}`),
    text: planDocument(plan, findings, format, title),
  }));
}
