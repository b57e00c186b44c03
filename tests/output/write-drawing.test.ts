import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { Bounds } from '../../src/geometry/point.js';
import { boxesMeet } from '../../src/output/box-grid.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { writePlanMarkdown } from '../../src/output/plan-markdown.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { sheetIndex, sheetIndexHtml } from '../../src/output/sheet-index.js';
import { svgNumber } from '../../src/output/svg-markup.js';
import { textWidth } from '../../src/output/text-width.js';
import { DRAWING_FILE, writeDrawing } from '../../src/output/write-drawing.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { JOBS, planOf } from './jobs.js';

/** The texts of a group, whatever is in it beside. */
function textsIn(svg: string, id: string) {
  const from = svg.indexOf(`<g id="${id}"`);
  if (from < 0) return [];
  const next = svg.indexOf('\n<g id="', from + 1);
  const part = svg.slice(from, next < 0 ? undefined : next);
  const found = part.matchAll(/<text x="([^"]+)" y="([^"]+)" font-size="([^"]+)">([^<]*)</g);
  return [...found].map(([, x, y, size, text]) => ({ x: Number(x), y: Number(y), size: Number(size), text }));
}

describe.each(JOBS)('the drawing of %s', (path) => {
  const plan = planOf(path);
  const { relief } = plan;
  const drawing = writeDrawing(plan, 'A & B');

  it('has every region of the base when it is read back, so every line', () => {
    const base = relief.map.regions.filter(({ addOn }) => !addOn);
    const lines = readDrawing(drawing, {
      exclude: ['holes', 'add-ons'].filter((id) => drawing.includes(`id="${id}"`)),
    });
    const read = mapRegions(lines, relief.map.options);
    expect(read.regions).toHaveLength(base.length);
    const areas = (regions: readonly { readonly area: number }[]) =>
      regions.map(({ area }) => area).sort((a, b) => a - b);
    const want = areas(base);
    areas(read.regions).forEach((area, i) => {
      expect(Math.abs(area - want[i])).toBeLessThan(1e-3 * Math.max(1, want[i]));
    });
  });

  it('has every hole with its step, and each piece with both of its ids', () => {
    const holes = plan.passes
      .filter(({ phase }) => phase !== 'add-ons')
      .flatMap(({ steps }) => steps.filter(({ start }) => start.kind === 'drill'));
    const group = /<g id="holes"[^>]*>(.*?)<\/g>/s.exec(drawing)?.[1] ?? '';
    expect(group.match(/<circle/g) ?? []).toHaveLength(holes.length);
    const said = textsIn(drawing, 'marks');
    expect(said).toHaveLength(plan.pieces.length + relief.addOns.length);
    [...plan.pieces, ...relief.addOns].forEach(({ id, region }, i) => {
      expect([id, `${id} ${relief.map.regions[region].id}`]).toContain(said[i].text);
    });
  });

  it('says beside every start its step, and its bit and setting where there is room', () => {
    const starts = plan.passes.flatMap(({ steps, phase }, p) =>
      steps.map(({ start }) => ({ start, setting: p + 1, isAddOn: phase === 'add-ons' })),
    );
    const threaded = starts.flatMap(({ start: { kind, threaded }, isAddOn }, i) =>
      !isAddOn && (kind === 'drill' || threaded) ? [i + 1] : [],
    );
    const said = textsIn(drawing, 'steps');
    const told = said.flatMap(({ text }) => text.split('; '));
    expect(told.map((text) => Number.parseInt(text, 10))).toEqual(expect.arrayContaining(threaded));
    for (const text of told) {
      const { start, setting } = starts[Number.parseInt(text, 10) - 1];
      if (/^\d+$/.test(text)) continue;
      expect(text).toMatch(new RegExp(`^\\d+( · [\\d.]+ mm)? · set ${setting}$`));
      const size = /([\d.]+) mm/.exec(text);
      if (size !== null) expect(Number(size[1])).toBeCloseTo(start.diameter ?? 0, 2);
    }
    expect(told.length).toBeGreaterThan(threaded.length / 2);
  });

  it('names the bit of every hole, beside it or below the drawing', () => {
    const steps = plan.passes.flatMap(({ steps }) => steps);
    const bits = new Set(steps.flatMap(({ start }) => (start.kind === 'drill' ? [start.diameter] : [])));
    const noteIn = (text: string): string =>
      /Holes with a number alone: (.*? mm)\./s.exec(text.replace(/<\/text>\s*<text[^>]*>/g, ' '))?.[1] ?? '';
    const [note, printed] = [noteIn(drawing), noteIn(writePlanHtml(plan))];
    if (bits.size < 2) {
      expect(note + printed).toBe('');
      return;
    }
    const [most, ...others] = note.split('; ');
    const told = new Map<number, string>();
    for (const other of others) {
      const [numbers, size] = other.split(': ');
      for (const [, from, to = from] of numbers.matchAll(/(\d+)(?: to (\d+))?/g)) {
        for (let n = Number(from); n <= Number(to); n++) told.set(n, size);
      }
    }
    let bare = 0;
    for (const { text } of textsIn(drawing, 'steps')) {
      const [first] = text.split('; ');
      const { start } = steps[Number.parseInt(first, 10) - 1];
      if (start.kind !== 'drill' || first.includes(' mm')) continue;
      bare++;
      expect(Number.parseFloat(told.get(Number(first)) ?? most)).toBeCloseTo(start.diameter ?? 0, 2);
    }
    expect(note !== '').toBe(bare > 0);
    expect(printed !== '').toBe(true);
  });

  it('has the number of a way in where it begins at the edge of the board', () => {
    const said = textsIn(drawing, 'steps');
    let number = 0;
    for (const { steps, phase } of plan.passes) {
      for (const { waysIn = [] } of steps) {
        number++;
        if (phase === 'add-ons') continue;
        for (const { from, points } of waysIn) {
          if (from !== 'edge') continue;
          const own = said.filter(({ text }) => Number.parseInt(text, 10) === number);
          const [x, y] = points[0];
          const far = own.map((word) => Math.hypot(word.x - x, word.y - y));
          expect(Math.min(...far), `step ${number}`).toBeLessThan(16);
        }
      }
    }
  });

  it('has a cross for every hole, here and on the pages, whatever is threaded there later', () => {
    const pages = writePlanHtml(plan);
    const from = pages.indexOf('<g id="true-size">');
    const printed = pages.slice(from, pages.indexOf('</defs>', from));
    const found = printed.matchAll(
      /cx="([^"]+)" cy="([^"]+)" r="[^"]+" class="hole"[^>]*><path [^>]*class="cross"/g,
    );
    const holes = [...found].map(([, x, y]) => `${x} ${y}`);
    const places = new Map<string, number[]>();
    let number = 0;
    for (const { phase, steps } of plan.passes) {
      for (const { start } of steps) {
        number++;
        if (phase === 'add-ons' || (start.kind !== 'drill' && !start.threaded)) continue;
        const place = start.at.join(' ');
        places.set(place, [...(places.get(place) ?? []), number]);
        if (start.kind !== 'drill') continue;
        const [x, y] = start.at;
        const arm = (start.diameter ?? 0) / 2 + 0.5;
        expect(drawing).toContain(
          `"M${svgNumber(x - arm)} ${svgNumber(y)}L${svgNumber(x + arm)} ${svgNumber(y)}`,
        );
        expect(holes).toContain(`${svgNumber(x, 2)} ${svgNumber(y, 2)}`);
      }
    }
    const said = textsIn(drawing, 'steps').map(({ text }) => text.replace(/ · [^;]*/g, ''));
    // No diamond of a later step lies on a cross.
    const open = new Set([...places.keys()]);
    for (const { steps } of plan.passes) {
      for (const { start } of steps) if (start.kind === 'drill') open.delete(start.at.join(' '));
    }
    expect(printed.match(/class="begin eye"/g) ?? []).toHaveLength(open.size);
    for (const steps of places.values()) expect(said).toContain(steps.join('; '));
  });

  it('can be read: type of 2 mm and more, no word on another, none outside', () => {
    const words = [...textsIn(drawing, 'marks'), ...textsIn(drawing, 'steps')];
    for (const { size } of words) expect(size).toBeGreaterThan(2);
    for (const { size } of textsIn(drawing, 'steps')) expect(size).toBeGreaterThanOrEqual(2.3);
    const boxes = words.map(({ text, x, y, size }): Bounds => {
      const half = textWidth(text, size) / 2;
      return [x - half, y - 0.72 * size, x + half, y];
    });
    boxes.forEach((box, i) => {
      for (let k = 0; k < i; k++)
        expect(boxesMeet(box, boxes[k]), `${words[i].text}, ${words[k].text}`).toBe(false);
    });
  });

  it('is named by the plans and linked to in the index', () => {
    for (const document of [writePlanText(plan), writePlanMarkdown(plan)]) {
      expect(document).toContain(DRAWING_FILE);
      expect(document).not.toContain('file of sheet 1');
    }
    const sheets = writeSheets(plan);
    const files = [{ file: DRAWING_FILE, what: 'a & b' }];
    const html = sheetIndexHtml(plan, sheets, 'x', files);
    expect(html).toContain(`href="${DRAWING_FILE}"`);
    expect(html).toContain('a &#38; b');
    expect(sheetIndex(plan, sheets, files).files).toEqual(files);
    expect(sheetIndexHtml(plan, sheets, 'x')).not.toContain(DRAWING_FILE);
  });
});

it('the plans tell the region of each piece', () => {
  const plan = planOf('fixtures/harbour/harbour');
  const text = writePlanText(plan);
  const markdown = writePlanMarkdown(plan);
  for (const { id, region } of plan.pieces) {
    const name = plan.relief.map.regions[region].id;
    expect(text).toMatch(new RegExp(`^${id} +${name} `, 'm'));
    expect(markdown).toContain(`| ${id} | ${name} |`);
  }
});
