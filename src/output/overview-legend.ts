import type { Relief } from '../relief/relief.js';
import { distinctBridges, drillStarts } from './overview-marks.js';
import { depthlessCounts } from './overview-regions.js';
import type { OverviewScene } from './overview-scene.js';
import { depthTint, INK, inkOn } from './palette.js';
import { scaleBar } from './scale-bar.js';
import { element, group, textElement } from './svg-markup.js';
import { BASELINE, textWidth } from './text-width.js';

/** A drawn legend and the room that it takes, mm. */
export interface Legend {
  readonly svg: string;
  readonly left: number;
  readonly width: number;
  readonly height: number;
}

/** One entry: a picture drawn around [0, 0], `swatch` wide, and its words. */
interface Entry {
  readonly picture: (x: number, y: number) => string;
  readonly words: string;
}

/** Sizes in units of the scene. */
const TYPE = 1.25;
const SWATCH = { width: 2.6, height: 1.9 };
const ROW = 2.9;
const GAP = 1.9;

/** Type of the legend is no smaller than this, mm (5.7 points), however small the drawing is. */
const LEAST_TYPE = 2;

/** The title, the facts, and the first row of entries, in units from the top; a further line of facts. */
const TITLE_AT = 2;
const FACTS_AT = 4.1;
const FACTS_LINE = 1.9;
const ROWS_AT = 6.6;

/**
 * The legend below a drawing from `x` to `x + width`, its upper edge at `top`, mm. Where a drawing is too narrow for it,
 * it reaches as far beyond on both sides.
 */
export function overviewLegend(
  scene: OverviewScene,
  title: string,
  top: number,
  { x, width: across }: { readonly x: number; readonly width: number },
): Legend {
  const unit = Math.max(scene.unit, LEAST_TYPE / TYPE);
  const depths = depthEntries(scene, unit);
  const symbols = symbolEntries(scene, unit);
  const bar = Math.max(0.22 * across, LEAST_BAR * unit);
  const needed = [
    ...[...depths, ...symbols].map((entry) => entryWidth(entry, unit)),
    textWidth(title, 2 * unit, true) + bar + GAP * unit,
  ];
  const width = Math.max(across, ...needed);
  const left = x - (width - across) / 2;
  const head = textElement(left, top + unit * TITLE_AT, title, {
    'font-size': unit * 2,
    'font-weight': 'bold',
    fill: INK.line,
  });
  const lines = factLines(sceneFacts(scene), width - bar - GAP * unit, unit);
  const facts = lines.map((line, i) =>
    textElement(left, top + unit * (FACTS_AT + i * FACTS_LINE), line, {
      'font-size': unit * TYPE,
      fill: INK.soft,
    }),
  );
  const rows = [...flow(depths, unit, width), ...flow(symbols, unit, width)];
  const rowsAt = ROWS_AT + (lines.length - 1) * FACTS_LINE;
  const drawn = rows.flatMap((row, i) =>
    row.map(({ entry, at }) => drawEntry(entry, left + at, top + unit * (rowsAt + i * ROW), unit)),
  );
  const scale = scaleBar(left + width, top + unit * 2.4, unit, bar);
  return {
    svg: group({ id: 'legend', class: 'type' }, [head, ...facts, scale, ...drawn]),
    left,
    width,
    height: unit * (rowsAt + rows.length * ROW - 1),
  };
}

/** The scale bar has room for its words, in units. */
const LEAST_BAR = 7;

/** Facts side by side, in as many lines as it takes beside the scale bar. */
function factLines(facts: readonly string[], width: number, unit: number): string[] {
  const lines: string[] = [];
  for (const fact of facts) {
    const last = lines[lines.length - 1];
    const longer = `${last}  \u00b7  ${fact}`;
    if (last === undefined || textWidth(longer, unit * TYPE) > width) lines.push(fact);
    else lines[lines.length - 1] = longer;
  }
  return lines;
}

function drawEntry(entry: Entry, x: number, y: number, unit: number): string {
  const words = textElement(x + unit * (SWATCH.width + 0.7), y + unit * TYPE * BASELINE, entry.words, {
    'font-size': unit * TYPE,
    fill: INK.line,
  });
  return entry.picture(x + (unit * SWATCH.width) / 2, y) + words;
}

/** Lays entries into rows no wider than `width`. */
function flow(entries: readonly Entry[], unit: number, width: number): { entry: Entry; at: number }[][] {
  const rows: { entry: Entry; at: number }[][] = [];
  let at = 0;
  for (const entry of entries) {
    const needed = entryWidth(entry, unit);
    if (rows.length === 0 || at + needed > width) {
      rows.push([]);
      at = 0;
    }
    rows[rows.length - 1].push({ entry, at });
    at += needed + unit * GAP;
  }
  return rows;
}

function entryWidth({ words }: Entry, unit: number): number {
  return unit * (SWATCH.width + 0.7) + textWidth(words, unit * TYPE);
}

function sceneFacts(scene: OverviewScene): string[] {
  const { map, relief, plan, assumedStack } = scene;
  const size = `${Math.round(scene.drawing.width)} \u00d7 ${Math.round(scene.drawing.height)} mm`;
  const facts = [size, counted(map.regions.length, 'region')];
  if (relief !== null && !assumedStack) {
    facts.push(counted(relief.bodies.length, 'piece'), counted(relief.stack.sheets.length, 'sheet'));
    facts.push(`joint: ${relief.joint}`);
  }
  if (plan !== null) {
    facts.push(counted(plan.passes.filter((pass) => pass.phase === 'pass').length, 'pass', 'passes'));
  }
  return facts;
}

const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

function depthEntries(scene: OverviewScene, unit: number): Entry[] {
  const { relief, sheets } = scene;
  if (relief === null || relief.bodies.length === 0) return [];
  return Array.from({ length: sheets }, (_, i): Entry => {
    const depth = sheets - i;
    const tint = depthTint(depth, sheets);
    const noun = depth === 1 ? 'sheet' : 'sheets';
    return {
      picture: (x, y) =>
        swatch(x, y, unit, tint) +
        textElement(x, y + unit * TYPE * BASELINE, String(depth), {
          'font-size': unit * TYPE,
          'font-weight': 'bold',
          'text-anchor': 'middle',
          fill: inkOn(tint),
        }),
      words: scene.assumedStack ? noun : `${noun}, ${heightOf(relief, depth).toFixed(1)} mm`,
    };
  });
}

/** Height of `depth` sheets above the common back, mm: the front ones as pieces, the back ones as levels. */
function heightOf(relief: Relief, depth: number): number {
  const { sheets } = relief.stack;
  const taken = relief.joint === 'pieces' ? sheets.slice(0, depth) : sheets.slice(sheets.length - depth);
  return taken.reduce((sum, sheet) => sum + sheet.thickness, 0);
}

function symbolEntries(scene: OverviewScene, unit: number): Entry[] {
  const { relief, map, plan } = scene;
  const has = (role: string): boolean => relief?.regions.some((region) => region.role === role) ?? false;
  const entries: Entry[] = [];
  if (plan !== null && relief?.joint === 'pieces' && plan.pieces.length > 0) {
    entries.push({
      picture: (x, y) => sign(x, y, unit, 'p r'),
      words: 'piece in the plan, region of the drawing',
    });
  }
  const { unnumbered, unusable } = depthlessCounts(scene);
  if (unnumbered > 0) {
    entries.push({
      picture: (x, y) => swatch(x, y, unit, INK.unnumbered),
      words: `no number yet (${unnumbered})`,
    });
  }
  if (unusable > 0) {
    entries.push({
      picture: (x, y) => swatch(x, y, unit, INK.unnumbered),
      words: `number that cannot be used (${unusable})`,
    });
  }
  if (has('opening') || has('void')) {
    entries.push({
      picture: (x, y) => swatch(x, y, unit, 'url(#opening)'),
      words: '0: opening, right through',
    });
  }
  if (has('recess')) {
    entries.push({ picture: (x, y) => sign(x, y, unit, '\u22121'), words: 'cutout, that many sheets down' });
  }
  if (has('add-on'))
    entries.push({ picture: (x, y) => sign(x, y, unit, '+'), words: 'add-on, glued on last' });
  if (map.outsideVeins.length > 0 || map.regions.some((region) => region.veins.length > 0)) {
    entries.push({ picture: (x, y) => veinSample(x, y, unit), words: 'line that bounds nothing' });
  }
  if (map.details.some(({ mark }) => mark === 'fold')) {
    entries.push({ picture: (x, y) => foldSample(x, y, unit), words: 'fold mark, not sawn' });
  }
  const drills = drillStarts(scene).length;
  if (drills > 0)
    entries.push({ picture: (x, y) => drillSample(x, y, unit), words: `drilled start (${drills})` });
  const bridges = distinctBridges(scene).length;
  if (bridges > 0)
    entries.push({ picture: (x, y) => bridgeSample(x, y, unit), words: `narrow bridge (${bridges})` });
  return entries;
}

function swatch(x: number, y: number, unit: number, fill: string): string {
  const [width, height] = [unit * SWATCH.width, unit * SWATCH.height];
  const place = { x: x - width / 2, y: y - height / 2, width, height };
  return element('rect', { ...place, fill, stroke: INK.line, 'stroke-width': 0.14 * unit });
}

function sign(x: number, y: number, unit: number, text: string): string {
  return textElement(x, y + unit * 1.6 * BASELINE, text, {
    'font-size': unit * 1.6,
    'font-weight': 'bold',
    'text-anchor': 'middle',
    fill: INK.line,
  });
}

function veinSample(x: number, y: number, unit: number): string {
  const half = unit * 1.2;
  const dashes = `${(0.7 * unit).toFixed(4)} ${(0.45 * unit).toFixed(4)}`;
  return element('line', {
    x1: x - half,
    y1: y,
    x2: x + half,
    y2: y,
    stroke: INK.vein,
    'stroke-width': 0.22 * unit,
    'stroke-dasharray': dashes,
  });
}

function foldSample(x: number, y: number, unit: number): string {
  const half = unit * 1.2;
  const line = { x1: x - half, y1: y, x2: x + half, y2: y };
  const dashes = `${(1.4 * unit).toFixed(4)} ${(0.84 * unit).toFixed(4)}`;
  return element('line', {
    ...line,
    stroke: INK.soft,
    'stroke-width': 0.14 * unit,
    'stroke-dasharray': dashes,
  });
}

function drillSample(x: number, y: number, unit: number): string {
  const attributes = { stroke: INK.drill, 'stroke-width': 0.18 * unit, fill: 'none' };
  const arm = unit * 0.95;
  const across = element('line', { x1: x - arm, y1: y, x2: x + arm, y2: y });
  const down = element('line', { x1: x, y1: y - arm, x2: x, y2: y + arm });
  return group(attributes, [element('circle', { cx: x, cy: y, r: unit * 0.6 }), across, down]);
}

function bridgeSample(x: number, y: number, unit: number): string {
  const bar = element('line', {
    x1: x - unit * 0.5,
    y1: y,
    x2: x + unit * 0.5,
    y2: y,
    'stroke-width': 0.4 * unit,
  });
  const ring = element('circle', { cx: x, cy: y, r: unit * 0.85, 'stroke-width': 0.24 * unit });
  return group({ stroke: INK.alarm, fill: 'none', 'stroke-linecap': 'round' }, [bar, ring]);
}
