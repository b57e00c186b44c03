import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { escapeMarkdown, writePlanMarkdown } from '../../src/output/plan-markdown.js';
import { wrap, writePlanText } from '../../src/output/plan-text.js';
import { joinNumbers, millimetres, minutesText } from '../../src/output/plan-words.js';
import { renumber } from '../../src/relief/build-relief.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

const harbour = planFixture('harbour');
const steps = harbour.passes.flatMap((pass) => pass.steps);

describe('the picture of the pieces by their height', () => {
  it('has the heights of floors in its key, where sheets are of unequal thickness', () => {
    // A cutout one sheet down leaves 2 + 2 mm, where a piece of two sheets has 5 + 2 mm.
    const relief = cellRelief({
      rows: [
        [
          { depth: '3', inside: [{ shape: 'square', depth: '-1' }] },
          { depth: '2', inside: [] },
        ],
      ],
      sheets: [5, 2, 2],
    });
    const page = writePlanHtml(planCuts(relief), { title: 'Heights' });
    const key = /by their height, not their wood:(.*?)<\/figcaption>/.exec(page)![1];
    expect(
      key
        .replace(/<[^>]*>/g, '|')
        .split('|')
        .filter((word) => word !== ''),
    ).toEqual(['9 mm', '7 mm or 4 mm']);
  });
});

describe('writePlanText', () => {
  const text = writePlanText(harbour, { title: 'Harbour' });

  it('numbers all steps through', () => {
    const numbers = [...text.matchAll(/^ {0,3}(\d+)\. /gm)].map((match) => Number(match[1]));
    expect(numbers).toEqual(steps.map((_, i) => i + 1));
  });

  it('keeps to 96 columns, but for tables', () => {
    const long = text.split('\n').filter((line) => line.length > 96 && !/ {2}/.test(line.trim()));
    expect(long).toEqual([]);
  });

  it('speaks of no picture, and tells places by x and y', () => {
    const words = text.replace(/\s+/g, ' ');
    expect(words).not.toMatch(/blue|dashed line|as drawn|in the picture\b|as numbered/);
    expect(words).toMatch(/at the mark \(x [\d.]+, y [\d.]+\)/);
  });

  it('names every piece as something to keep', () => {
    const kept = [...text.replace(/\s+/g, ' ').matchAll(/(Keep|Loose already[^:]*:) ([^.;]*)/g)]
      .map((match) => match[2])
      .join(' ');
    const missing = harbour.pieces.filter(({ id }) => !new RegExp(`\\b${id}\\b`).test(kept));
    // A step that frees more than six pieces counts the others.
    expect(missing.length).toBeLessThanOrEqual(harbour.pieces.length / 20);
  });
});

/** Room on an A4 page for a picture of a kind, mm: its width, and its height where that is limited. */
const PRINTED: Readonly<Record<string, readonly [width: number, height: number]>> = {
  map: [186, 118],
  'map middle': [186, 100],
  'map glue': [186, 112],
  'map small': [186, 84],
  // Beside what is said of a setting.
  'upright map': [186, 104],
  near: [59, 59],
  'near large': [121, 121],
  'near full': [184, 184],
};

it.each(['owl', 'harbour'] as const)('prints no number or id of the %s smaller than 2.25 mm', (name) => {
  const html = writePlanHtml(planFixture(name));
  const cards = html.matchAll(
    /<li class="step ?(large|full)?">(<svg class="near" viewBox="([^"]+)".*?<\/svg>)|(<div class="scene">)?<svg class="(map|map small|map middle|map glue)" (viewBox="([^"]+)".*?<\/svg>)/gs,
  );
  let counted = 0;
  for (const [, size, near, nearBox, scene, look, map, mapBox] of cards) {
    const kind = name === 'owl' && scene !== undefined && look === 'map' ? 'upright map' : look;
    const [width, height] = PRINTED[kind ?? (size === undefined ? 'near' : `near ${size}`)];
    const [, , across, down] = (nearBox ?? mapBox).split(' ').map(Number);
    const scale = Math.min(width / across, height / down);
    for (const [, type, text] of (near ?? map).matchAll(/font-size="([^"]+)"[^>]*>([^<]*)</g)) {
      counted++;
      expect(Number(type) * scale, `${text} in ${kind ?? 'a step'}`).toBeGreaterThan(2.25);
    }
  }
  expect(counted).toBeGreaterThan(100);
});

it.each([
  ['owl', 1],
  ['fretwork', 1],
  ['harbour', 2],
] as const)('prints the drawing of the %s on %i pages: none for nothing but waste', (name, pages) => {
  const html = writePlanHtml(planFixture(name));
  expect(html.match(/<figure class="tile">/g)).toHaveLength(pages);
});

describe('the table of pieces', () => {
  /** The ids of a cell, runs written out. */
  const idsOf = (cell: string): string[] =>
    cell
      .split(' ')
      .filter((word) => word !== '')
      .flatMap((word) => {
        const [first, last] = word.split('\u2013').map((id) => Number(id.slice(1)));
        return Array.from({ length: (last ?? first) - first + 1 }, (_, i) => `p${first + i}`);
      });

  it('says what each piece is glued to', () => {
    const text = writePlanMarkdown(harbour);
    const rows = text.split('\n').filter((line) => /^\| p\d+ \| r\d+ \|/.test(line));
    expect(rows).toHaveLength(harbour.pieces.length);
    harbour.pieces.forEach(({ id, gluedTo }, i) => {
      const cells = rows[i].split('|').map((cell) => cell.trim());
      expect(cells[1]).toBe(id);
      expect(new Set(idsOf(cells[10]))).toEqual(new Set(gluedTo.map(({ piece }) => piece)));
    });
  });
});

describe('writePlanMarkdown', () => {
  it('has a heading a section and a bold number a step', () => {
    const text = writePlanMarkdown(harbour, { title: 'Harbour' });
    expect(text.startsWith('# Harbour\n')).toBe(true);
    expect([...text.matchAll(/^\*\*(\d+)\.\*\*/gm)]).toHaveLength(steps.length);
    expect([...text.matchAll(/^## /gm)].length).toBeGreaterThan(harbour.passes.length);
  });

  it('keeps names from being markup', () => {
    expect(escapeMarkdown('a*b_c|<d>[e](f)')).toBe('a\\*b\\_c\\|\\<d\\>\\[e\\](f)');
  });
});

describe('writePlanHtml', () => {
  const html = writePlanHtml(harbour, { title: 'Harbour' });

  it('has a picture for every setting and every step', () => {
    expect([...html.matchAll(/<svg class="near"/g)]).toHaveLength(steps.length);
    // One for each setting out of the stack; all pieces at the start, for the glue-up and for the narrow places.
    expect([...html.matchAll(/<svg class="map[ "]/g)]).toHaveLength(
      harbour.passes.filter(({ phase }) => phase !== 'add-ons').length + 3,
    );
    expect([...html.matchAll(/<figure class="stack">/g)]).toHaveLength(harbour.passes.length);
  });

  it('marks every hole, and the start of every other step', () => {
    const drilled = steps.filter((step) => step.start.kind === 'drill').length;
    const cards = [...html.matchAll(/<svg class="near"[\s\S]*?<\/svg>/g)]
      .map(([picture]) => picture)
      .join('');
    expect([...cards.matchAll(/class="hole"/g)]).toHaveLength(drilled);
    expect([...cards.matchAll(/class="begin( eye)?"/g)]).toHaveLength(steps.length - drilled);
    const open = steps.filter(({ start }) => start.threaded && start.kind !== 'drill').length;
    expect(open).toBeGreaterThan(0);
    expect([...cards.matchAll(/class="begin eye"/g)]).toHaveLength(open);
    // Every hole is on the drawing at true size, with the number of its step.
    const drawing = /<g id="true-size">[\s\S]*?<\/svg>/.exec(html)![0];
    expect([...drawing.matchAll(/class="hole"/g)]).toHaveLength(drilled);
  });

  it('loads nothing, runs nothing, and refers to nothing but its own outlines', () => {
    expect(html).not.toMatch(/<script|javascript:|\son\w+=|url\((?!#)|@import|<img|<link|<iframe/i);
    const targets = [...html.matchAll(/(?:href|src)="([^"]*)"/g)].map((match) => match[1]);
    const ids = new Set([...html.matchAll(/ id="([^"]*)"/g)].map((match) => `#${match[1]}`));
    expect(targets.filter((target) => !ids.has(target))).toEqual([]);
  });

  it('is well formed, picture by picture', () => {
    for (const [picture] of html.matchAll(/<svg[\s\S]*?<\/svg>/g)) {
      expect(() => new SaxesParser().write(picture).close()).not.toThrow();
    }
  });

  it('escapes names', () => {
    const relief = cellRelief({ rows: [[{ depth: '1', inside: [] }]], sheets: [3] });
    const region = relief.map.regions[0].id;
    const name = '<script>alert(1)</script>';
    const plan = planCuts(renumber(relief, { numbers: [{ region, depth: '1', name }] }));
    expect(writePlanHtml(plan)).not.toContain('<script');
    expect(writePlanHtml(plan)).toContain('&#60;script');
    expect(writePlanMarkdown(plan)).not.toMatch(/(?<!\\)<script/);
  });
});

describe('all documents', () => {
  it('are the same each time', () => {
    const plan = planFixture('owl');
    expect(writePlanHtml(plan)).toBe(writePlanHtml(plan));
    expect(writePlanText(plan)).toBe(writePlanText(plan));
  });

  it('have nothing but words for a plan without cuts', () => {
    const plan = planCuts(cellRelief({ rows: [[{ depth: '?', inside: [] }]], sheets: [3] }));
    for (const write of [writePlanText, writePlanMarkdown, writePlanHtml]) {
      expect(write(plan)).toContain('0 pieces');
    }
  });

  it('advise on copies when asked', () => {
    const text = writePlanText(planFixture('owl'), { copies: 6 });
    expect(text).toContain('6 copies');
    expect(text).toMatch(/Together +Highest setting/);
  });

  it('put what the checks found first', () => {
    const finding = { rule: 'x', level: 'warning', message: 'A thin bar.', at: null, regions: [] } as const;
    const text = writePlanText(harbour, { findings: [finding] });
    expect(text.indexOf('A thin bar.')).toBeLessThan(text.indexOf('Before anything else'));
  });
});

describe('words', () => {
  it('write lengths and times no finer than they are', () => {
    expect([3, 12.7, 0.04].map((v) => millimetres(v))).toEqual(['3 mm', '12.7 mm', '0 mm']);
    expect([0.05, 0.5, 2.34, 42.4, 125].map(minutesText)).toEqual([
      '3 s',
      '30 s',
      '2.3 min',
      '42 min',
      '2 h 5 min',
    ]);
  });

  it('join step numbers to ranges', () => {
    expect(joinNumbers([1, 3, 4, 5, 8, 9])).toBe('1, 3 to 5, 8 and 9');
    expect(joinNumbers([7])).toBe('7');
  });

  it('break lines between words only', () => {
    const lines = wrap('word '.repeat(60), '- ', '  ');
    expect(lines.every((line) => line.length <= 96)).toBe(true);
    expect(lines.join(' ').match(/word/g)).toHaveLength(60);
  });
});
