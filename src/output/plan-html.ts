import type { CutPlan, Pass } from '../workshop/cut-plan.js';
import { type Block, planContent, type Section } from './plan-content.js';
import { type PlanPictures, planPictures } from './plan-picture.js';
import { walkPlan } from './plan-progress.js';
import { PLAN_STYLE } from './plan-style.js';
import { DEFAULT_PLAN_TITLE, type PlanDocumentOptions } from './plan-text.js';
import { millimetres } from './plan-words.js';
import { escapeXml, svgNumber } from './svg-markup.js';

/**
 * The plan as one self-contained HTML page to print: a picture for every setting and every step. Nothing is
 * loaded from anywhere, no script runs, and a content policy in the page says so.
 */
export function writePlanHtml(plan: CutPlan, options: PlanDocumentOptions = {}): string {
  const title = escapeXml(options.title ?? DEFAULT_PLAN_TITLE);
  const drawn = drawAll(plan);
  const sections = planContent(plan, options).map((section) => sectionHtml(plan, section, drawn));
  return [
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    `<title>${title}</title>`,
    `<style>${PLAN_STYLE}</style>`,
    '</head>',
    '<body>',
    drawn.outlines,
    `<header><h1>${title}</h1>${legendHtml()}</header>`,
    ...sections,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** All pictures, made while walking through the plan once. */
interface DrawnPlan {
  readonly outlines: string;
  readonly pieces: string;
  readonly settings: ReadonlyMap<Pass, string>;
  /** By the number of the step. */
  readonly steps: ReadonlyMap<number, ReturnType<PlanPictures['step']>>;
}

function drawAll(plan: CutPlan): DrawnPlan {
  const pictures = planPictures(plan);
  const settings = new Map<Pass, string>();
  const steps = new Map<number, ReturnType<PlanPictures['step']>>();
  walkPlan(plan, (progress, pass, step, number) => {
    if (step === null) settings.set(pass, pictures.setting(pass, progress, number));
    else steps.set(number, pictures.step(pass, step, progress));
  });
  return { outlines: pictures.outlines, pieces: pictures.pieces(), settings, steps };
}

function sectionHtml(plan: CutPlan, section: Section, drawn: DrawnPlan): string {
  const parts: string[] = [];
  let cards: string[] = [];
  const flush = (): void => {
    if (cards.length > 0) parts.push(`<ol class="steps">${cards.join('\n')}</ol>`);
    cards = [];
  };
  for (const block of section.blocks) {
    if (block.kind === 'step') {
      cards.push(cardHtml(block, drawn));
      continue;
    }
    flush();
    parts.push(blockHtml(plan, block, drawn));
  }
  flush();
  const heading = `<h2>${escapeXml(section.title)}</h2>`;
  const scene = parts.findIndex((part) => part.startsWith(SCENE));
  const head = `<div class="head">${[heading, ...parts.slice(0, scene + 1)].join('\n')}</div>`;
  return `<section id="${section.id}">\n${[head, ...parts.slice(scene + 1)].join('\n')}\n</section>`;
}

/** A setting's pictures stay on one page with its heading and what is said before them. */
const SCENE = '<div class="scene">';

function blockHtml(plan: CutPlan, block: Exclude<Block, { kind: 'step' }>, drawn: DrawnPlan): string {
  switch (block.kind) {
    case 'paragraph':
      return `<p>${escapeXml(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((item) => `<li>${escapeXml(item)}</li>`).join('')}</ul>`;
    case 'table': {
      const cell = (tag: string, text: string, c: number): string =>
        `<${tag}${block.numbers.includes(c) ? ' class="number"' : ''}>${escapeXml(text)}</${tag}>`;
      const row = (tag: string, cells: readonly string[]): string =>
        `<tr>${cells.map((text, c) => cell(tag, text, c)).join('')}</tr>`;
      const body = block.rows.map((cells) => row('td', cells)).join('\n');
      return `<table><thead>${row('th', block.head)}</thead><tbody>${body}</tbody></table>`;
    }
    case 'pieces':
      return `<div class="ids">${drawn.pieces}</div>`;
    case 'setting':
      return `${SCENE}${stackPicture(plan, block.pass)}${drawn.settings.get(block.pass) ?? ''}</div>`;
  }
}

function cardHtml(block: Extract<Block, { kind: 'step' }>, drawn: DrawnPlan): string {
  const { near, far } = drawn.steps.get(block.number) ?? { near: '', far: '' };
  const lines = block.lines.map((line) => `<p>${escapeXml(line)}</p>`).join('');
  return (
    `<li class="step"><div class="look">${near}${far}</div>` +
    `<div class="say"><h3><b>${block.number}</b> ${escapeXml(block.title)}</h3>${lines}</div></li>`
  );
}

/** The stack seen from its side: what is in the saw is solid, what is off is an outline; heights to scale. */
function stackPicture({ relief }: CutPlan, pass: Pass): string {
  const { sheets } = relief.stack;
  const total = sheets.reduce((sum, sheet) => sum + sheet.thickness, 0);
  const scale = 46 / Math.max(total, 12);
  let y = 4;
  const bars = sheets.map((sheet) => {
    const height = Math.max(3.2, sheet.thickness * scale);
    const inSaw = pass.sheets.includes(sheet.id);
    const fill = inSaw ? (sheet.color ?? '#d9c9a3') : 'none';
    const bar =
      `<rect x="1" y="${svgNumber(y, 2)}" width="26" height="${svgNumber(height, 2)}" fill="${escapeXml(fill)}" class="${inSaw ? 'in' : 'off'}"/>` +
      `<text x="30" y="${svgNumber(y + height / 2 + 1.3, 2)}">${escapeXml(sheet.id)} ${millimetres(sheet.thickness)}</text>`;
    y += height + 0.8;
    return bar;
  });
  return (
    `<figure class="stack"><svg viewBox="0 0 50 ${svgNumber(y + 4, 2)}" role="img"><text x="1" y="2.6">front</text>` +
    `${bars.join('')}<text x="1" y="${svgNumber(y + 2.4, 2)}">back</text></svg>` +
    `<figcaption>${escapeXml(pass.sheets.join(' + '))}: ${millimetres(pass.height)}</figcaption></figure>`
  );
}

function legendHtml(): string {
  const swatch = (name: string, text: string): string => `<li><i class="${name}"></i>${text}</li>`;
  return (
    '<ul class="legend">' +
    swatch('now', 'sawn in this step; the triangle shows the way') +
    swatch('piece', 'comes free: a piece to keep') +
    swatch('waste', 'comes free: waste') +
    swatch('block', 'comes free: a block to saw on later') +
    swatch('stays', 'stays in the stock') +
    swatch('open', 'gone already, open right through') +
    swatch('partly', 'gone in the front sheets only') +
    swatch('drill', 'drill here') +
    swatch('edge', 'come in from the edge here') +
    swatch('ring', 'begin here: through what is open, or along a line') +
    '</ul>'
  );
}
