import type { CutPlan, Pass } from '../workshop/cut-plan.js';
import { glueCaption, glueMap } from './glue-map.js';
import { kerfRoutes } from './kerf-routes.js';
import { openWays } from './open-ways.js';
import { depthTint } from './palette.js';
import { isUpright, type PlanCanvas, planCanvas } from './plan-canvas.js';
import { type Block, planContent, type Section } from './plan-content.js';
import { legendHtml } from './plan-legend.js';
import { narrowMap, offcutMaps, piecesMap, settingMap } from './plan-maps.js';
import { type StepPicture, stepPicture } from './plan-picture.js';
import { walkPlan } from './plan-progress.js';
import { stepGroups } from './plan-step-groups.js';
import { PLAN_STYLE } from './plan-style.js';
import { DEFAULT_PLAN_TITLE, demandPlanDocument, type PlanDocumentOptions } from './plan-text.js';
import { trueSizePages } from './plan-true-size.js';
import { millimetres } from './plan-words.js';
import { escapeXml, svgNumber } from './svg-markup.js';

/**
 * The plan as one self-contained HTML page to print: a picture for every setting and every step, and the drawing
 * at true size. Nothing is loaded from anywhere, no script runs, and a content policy in the page says so.
 */
export function writePlanHtml(plan: CutPlan, options: PlanDocumentOptions = {}): string {
  demandPlanDocument('writePlanHtml', plan, options);
  const title = escapeXml(options.title ?? DEFAULT_PLAN_TITLE);
  const canvas = planCanvas(plan);
  const drawn = drawAll(canvas);
  const sections = planContent(plan, options, true).map((section) => sectionHtml(canvas, section, drawn));
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
    canvas.outlines,
    `<header><h1>${title}</h1>${legendHtml(canvas)}</header>`,
    ...sections,
    '</body>',
    '</html>',
    '',
  ].join('\n');
}

/** All pictures of the sawing, made while walking through the plan once. */
interface DrawnPlan {
  readonly settings: ReadonlyMap<Pass, string>;
  /** By the number of the step, or of the first that shares the picture. */
  readonly steps: ReadonlyMap<number, StepPicture>;
}

function drawAll(canvas: PlanCanvas): DrawnPlan {
  const settings = new Map<Pass, string>();
  const steps = new Map<number, StepPicture>();
  const groups = stepGroups(canvas);
  const routes = kerfRoutes(canvas);
  const ways = openWays();
  walkPlan(canvas.plan, (progress, pass, step, number) => {
    if (step === null) settings.set(pass, settingMap(canvas, pass, progress, number + 1));
    const group = step === null ? undefined : groups.get(number);
    if (group !== undefined)
      steps.set(number, stepPicture(canvas, pass, group, number, progress, routes, ways));
    if (step === null || pass.phase === 'add-ons') return;
    routes.saw(step);
    ways.saw(step);
  });
  return { settings, steps };
}

function sectionHtml(canvas: PlanCanvas, section: Section, drawn: DrawnPlan): string {
  const parts = [`<h2>${escapeXml(section.title)}</h2>`];
  let cards: string[] = [];
  let shared: StepBlock[] = [];
  const close = (): void => {
    if (shared.length > 0) cards.push(cardHtml(shared, drawn));
    shared = [];
  };
  const flush = (): void => {
    close();
    if (cards.length > 0) parts.push(`<ol class="steps">${cards.join('\n')}</ol>`);
    cards = [];
  };
  for (const block of section.blocks) {
    if (block.kind === 'step') {
      if (drawn.steps.has(block.number)) close();
      shared.push(block);
      continue;
    }
    flush();
    if (block.kind === 'setting') {
      // Stack and picture stay with what is said of them, on the same page.
      const [heading, ...said] = parts.splice(0);
      const stack = stackPicture(canvas.plan, block.pass);
      const scene = drawn.settings.get(block.pass) ?? '';
      const look = isUpright(canvas) ? 'intro beside' : 'intro';
      parts.push(
        `<div class="${look}">${heading}\n<div>${stack}${said.join('\n')}</div>`,
        block.pass.phase === 'add-ons' ? '' : `<div class="scene">${scene}</div>`,
        '</div>',
      );
      continue;
    }
    parts.push(blockHtml(canvas, block));
  }
  flush();
  return `<section id="${section.id}">\n${parts.join('\n')}\n</section>`;
}

function blockHtml(canvas: PlanCanvas, block: Exclude<Block, { kind: 'step' | 'setting' }>): string {
  switch (block.kind) {
    case 'paragraph':
      // What leads on to a list or a table stays with it.
      return `<p${block.text.endsWith(':') ? ' class="lead"' : ''}>${escapeXml(block.text)}</p>`;
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      const long = block.items.length > LONG_LIST && !block.ordered ? ' class="long"' : '';
      return `<${tag}${long}>${block.items.map((item) => `<li>${escapeXml(item)}</li>`).join('')}</${tag}>`;
    }
    case 'table':
      return tableHtml(block);
    case 'pieces':
      return figure(
        piecesMap(canvas),
        `The pieces with their ids, by their height, not their wood:${heightKey(canvas.plan)}`,
      );
    case 'glue':
      return figure(glueMap(canvas), glueCaption(canvas));
    case 'narrow':
      return figure(narrowMap(canvas), 'The narrow places, by their numbers in the table.');
    case 'offcuts':
      return offcutMaps(canvas);
    case 'drawing':
      return trueSizePages(canvas);
  }
}

/** A list of more items is set in two columns. */
const LONG_LIST = 10;

/** The tints, and the heights that pieces and floors of cutouts have by them: sheets need not be of one thickness. */
function heightKey({ relief }: CutPlan): string {
  const heights = new Map<number, Set<number>>();
  for (const { body, depth, height } of relief.regions) {
    if (body === null || depth === null || height === null || depth === 0) continue;
    const known = heights.get(depth) ?? new Set();
    heights.set(depth, known.add(height));
  }
  return [...heights]
    .sort((a, b) => b[0] - a[0])
    .map(([depth, own]) => {
      const tint = depthTint(depth, relief.stack.sheets.length);
      const words = [...own].sort((a, b) => b - a).map((height) => millimetres(height));
      return `<i class="key-height" style="background:${tint}"></i>${words.join(' or ')}`;
    })
    .join('');
}

function figure(picture: string, caption: string): string {
  return `<figure class="whole">${picture}<figcaption>${caption}</figcaption></figure>`;
}

/** A long table of no more columns is set twice side by side. */
const NARROW_TABLE = 5;

/** Ids that stay in one line. */
const FEW_IDS = /^[a-z]\d+( [a-z]\d+){1,4}$/;

function tableHtml({ head, numbers, rows }: Extract<Block, { kind: 'table' }>): string {
  const cell = (tag: string, text: string, c: number): string => {
    const name = numbers.includes(c) ? 'number' : FEW_IDS.test(text) ? 'ids' : '';
    return `<${tag}${name === '' ? '' : ` class="${name}"`}>${escapeXml(text)}</${tag}>`;
  };
  const row = (tag: string, cells: readonly string[]): string =>
    `<tr>${cells.map((text, c) => cell(tag, text, c)).join('')}</tr>`;
  const body = rows.map((cells) => row('td', cells)).join('\n');
  const table = `<table><thead>${row('th', head)}</thead><tbody>${body}</tbody></table>`;
  return head.length <= NARROW_TABLE && rows.length > LONG_LIST ? `<div class="two">${table}</div>` : table;
}

type StepBlock = Extract<Block, { kind: 'step' }>;

/** The card of a step, or of several that share a picture. */
function cardHtml(blocks: readonly StepBlock[], drawn: DrawnPlan): string {
  const { near, far, size } = drawn.steps.get(blocks[0].number) ?? { near: '', far: '', size: 'small' };
  const said = blocks.map(({ number, title, lines }) => {
    const told = lines.map((line) => `<p>${escapeXml(line)}</p>`).join('');
    return `<h3><b>${number}</b> ${escapeXml(title)}</h3>${told}`;
  });
  return (
    `<li class="step${size === 'small' ? '' : ` ${size}`}">${near}` +
    `<div class="say">${size === 'small' ? far : ''}${said.join('')}</div></li>`
  );
}

/** Room for a word above and below the stack, mm. */
const STACK_WORD = 6;

/** The stack seen from its side: what is in the saw is solid, what is off is an outline; heights to scale. */
function stackPicture({ relief }: CutPlan, pass: Pass): string {
  const isScrap = pass.phase === 'add-ons';
  const sheets = relief.stack.sheets.filter(({ id }) => !isScrap || pass.sheets.includes(id));
  const total = sheets.reduce((sum, sheet) => sum + sheet.thickness, 0);
  const scale = 40 / Math.max(total, 12);
  let y = STACK_WORD;
  const bars = sheets.map((sheet) => {
    const height = Math.max(4.6, sheet.thickness * scale);
    const inSaw = pass.sheets.includes(sheet.id);
    const fill = inSaw ? (sheet.color ?? '#d9c9a3') : 'none';
    const bar =
      `<rect x="1" y="${svgNumber(y, 2)}" width="22" height="${svgNumber(height, 2)}" fill="${escapeXml(fill)}" class="${inSaw ? 'in' : 'off'}"/>` +
      `<text x="25" y="${svgNumber(y + height / 2 + 1.65, 2)}">${isScrap ? 'scrap' : escapeXml(sheet.id)} ${millimetres(sheet.thickness)}</text>`;
    y += height + 0.8;
    return bar;
  });
  return (
    `<figure class="stack"><svg viewBox="0 0 66 ${svgNumber(y + STACK_WORD, 2)}" role="img"><text x="1" y="4.4">front</text>` +
    `${bars.join('')}<text x="1" y="${svgNumber(y + 3.9, 2)}">back</text></svg>` +
    `<figcaption>${isScrap ? 'scrap' : escapeXml(pass.sheets.join(' + '))}: ${millimetres(pass.height)}</figcaption></figure>`
  );
}
