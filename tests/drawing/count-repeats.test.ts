import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { PlystepError } from '../../src/error.js';
import { svg } from './pages.js';

const LINE = '<path d="M0 0H9" stroke="red"/>';

/** A group with an id for each list: the group shows a line and the groups of the list. */
const groups = (shown: readonly (readonly number[])[], tag: string): string =>
  shown
    .map(
      (list, i) => `<${tag} id="g${i}">${LINE}${list.map((j) => `<use href="#g${j}"/>`).join('')}</${tag}>`,
    )
    .join('');

/** Elements that a group shows, itself with them, drawn by plain recursion; a use of what is open shows nothing. */
function drawn(shown: readonly (readonly number[])[], group: number, open: readonly number[]): number {
  const inside = shown[group].map((next) =>
    next === group || open.includes(next) ? 1 : 1 + drawn(shown, next, [...open, next]),
  );
  return 2 + inside.reduce((sum, count) => sum + count, 0);
}

function refusal(text: string, repeatedElements?: number): string | null {
  try {
    readDrawing(text, repeatedElements === undefined ? {} : { limits: { repeatedElements } });
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(PlystepError);
    expect((error as PlystepError).code).toBe('limit');
    return (error as PlystepError).message;
  }
}

/** Processor time of a refusal, ms: the bound is for the slowest machine at its busiest, the time is some ms. */
function millisecondsOf(text: string): number {
  const start = process.cpuUsage();
  expect(refusal(text)).toContain('limit "repeatedElements" is 250000');
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

describe('elements drawn again', () => {
  test('as many as plain recursion draws, in circles too', () => {
    const graph = fc
      .integer({ min: 1, max: 5 })
      .chain((n) => fc.array(fc.array(fc.nat(n - 1), { maxLength: 2 }), { minLength: n, maxLength: n }));
    fc.assert(
      fc.property(graph, fc.constantFrom('g', 'symbol', 'svg'), (shown, tag) => {
        const text = svg(`<defs>${groups(shown, tag)}</defs>${LINE}<use href="#g0"/>`);
        const again = drawn(shown, 0, [0]);
        expect(refusal(text, again)).toBeNull();
        expect(refusal(text, again - 1)).toMatch(/drawn again|in circles/);
      }),
      { numRuns: 200 },
    );
  });

  test('groups on the page that show each other', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.nat(3), { maxLength: 3 }), { minLength: 4, maxLength: 4 }),
        (shown) => {
          const again = shown.reduce((sum, _, i) => sum + onPage(shown, i), 0);
          const text = svg(groups(shown, 'g'));
          expect(refusal(text, Math.max(again, 1))).toBeNull();
          if (again > 1) expect(refusal(text, again - 1)).toMatch(/drawn again|in circles/);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('boxes for clip paths count, with all that is in them', () => {
    const text = svg(
      `<clipPath id="c" clipPathUnits="objectBoundingBox"><rect width="1" height="1"/></clipPath>${'<g clip-path="url(#c)">'.repeat(10)}${LINE.repeat(10)}${'</g>'.repeat(10)}`,
    );
    // The outermost group holds nine groups and ten lines, the innermost ten lines.
    expect(refusal(text, 19 + 18 + 17 + 16 + 15 + 14 + 13 + 12 + 11 + 10)).toBeNull();
    expect(refusal(text, 144)).toContain('drawn again');
  });

  test('what never shows counts for nothing', () => {
    const bomb = levels('g', 9);
    const hidden = ['<g display="none">', '<g opacity="0">', '<g systemLanguage="xx">', '<defs>'];
    for (const open of hidden) {
      const tag = /\w+/.exec(open)?.[0];
      expect(refusal(svg(`${bomb}${LINE}${open}<use href="#u9"/></${tag}>`))).toBeNull();
    }
    expect(refusal(svg(`${bomb}<switch>${LINE}<use href="#u9"/></switch>`))).toBeNull();
  });
});

/** What the uses in a group on the page show. */
function onPage(shown: readonly (readonly number[])[], group: number): number {
  // A group on the page is around its own uses, but not around those of others.
  return shown[group].reduce((sum, next) => sum + (next === group ? 0 : drawn(shown, next, [next])), 0);
}

/** `u1` shows ten times `u0`, `u2` ten times `u1`, and so on. */
function levels(tag: string, count: number, fan = 10): string {
  const list = Array.from(
    { length: count },
    (_, i) => `<${tag} id="u${i + 1}">${`<use href="#u${i}"/>`.repeat(fan)}</${tag}>`,
  );
  return `<defs><path id="u0" d="M0 0H1" stroke="red"/>${list.join('')}</defs>`;
}

describe('a thousand million lines in a small file are refused at once', () => {
  test.each(['g', 'symbol', 'svg', 'a'])('%s', (tag) => {
    const text = svg(`${levels(tag, 9)}<use href="#u9"/>`);
    expect(text.length).toBeLessThan(2_200);
    expect(millisecondsOf(text)).toBeLessThan(500);
    expect(refusal(text)).toMatch(/2,\d00,000,000 elements would be drawn again/);
  });

  test('texts', () => {
    const text = svg(`${levels('g', 9)}<use href="#u9"/>`).replace(
      /<path id="u0"[^>]*>/,
      '<text id="u0">7</text>',
    );
    expect(millisecondsOf(text)).toBeLessThan(500);
  });

  test('more than any number can hold', () => {
    const text = svg(`${levels('g', 400)}<use href="#u400"/>`);
    expect(millisecondsOf(text)).toBeLessThan(1_000);
  });

  test('a dozen groups that all show each other', () => {
    const all = Array.from({ length: 12 }, (_, i) => i);
    expect(
      millisecondsOf(
        svg(
          groups(
            all.map(() => all),
            'g',
          ),
        ),
      ),
    ).toBeLessThan(1_000);
  });

  test('clip paths whose parts are clipped by clip paths', () => {
    const clips = Array.from(
      { length: 30 },
      (_, i) =>
        `<clipPath id="c${i}" clip-path="url(#c${i + 1})">${`<use href="#r" clip-path="url(#c${i + 1})"/>`.repeat(10)}</clipPath>`,
    );
    const text = svg(
      `<rect id="r" width="9" height="9"/>${clips.join('')}<path clip-path="url(#c0)" d="M0 5H50" stroke="red"/>`,
    );
    const start = process.cpuUsage();
    expect(readDrawing(text).shapes.length).toBeGreaterThan(0);
    const { user, system } = process.cpuUsage(start);
    expect((user + system) / 1000).toBeLessThan(2_000);
  });
});
