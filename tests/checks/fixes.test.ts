import { describe, expect, it } from 'vitest';
import type { RuleId } from '../../src/checks/rules.js';
import type { Finding } from '../../src/finding.js';
import { foundBy, type Setup } from '../support/check-pair.js';

// Each report says what would pass. Here that is done, with nothing but the numbers of its own fix.

const page = (body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="60mm" viewBox="0 0 100 60" fill="none" stroke="black">${body}</svg>`;
const frame = '<rect x="2" y="2" width="96" height="56"/>';
const label = (x: number, y: number, text: string): string =>
  `<text x="${x}" y="${y}" font-size="3">${text}</text>`;

/** A drawing with one number in it that is to be put right. */
interface Fixable {
  readonly rule: RuleId;
  readonly wrong: number;
  readonly draw: (value: number) => string;
  readonly setup: (value: number) => Setup;
  /** Where in the fix the number stands. */
  readonly said: RegExp;
  /** From what the fix says to what is drawn. */
  readonly apply?: (said: number, finding: Finding) => number;
  /** A value that is a little too small; by default a tenth less than what the fix says. */
  readonly less?: number;
}

const stack = '2x 3 mm poplar';
const zero = (at: [number, number]) => [{ at, depth: '0' }];

const CASES: Record<string, Fixable> = {
  'a bridge between two openings': {
    rule: 'thin-bridge',
    wrong: 1,
    draw: (w) =>
      page(
        `${frame}<rect x="20" y="15" width="20" height="30"/><rect x="${40 + w}" y="15" width="20" height="30"/>${label(5, 8, '2')}`,
      ),
    setup: (w) => ({ stack, numbers: [...zero([30, 30]), ...zero([50 + w, 30])] }),
    said: /^Widen it to ([\d.]+) mm/,
  },
  'a bridge across short grain': {
    rule: 'thin-bridge',
    wrong: 2,
    draw: (w) =>
      page(
        `${frame}<rect x="20" y="15" width="20" height="30"/><rect x="${40 + w}" y="15" width="20" height="30"/>${label(5, 8, '2')}`,
      ),
    setup: (w) => ({
      stack: '2x 3 mm basswood (grain 0)',
      numbers: [...zero([30, 30]), ...zero([50 + w, 30])],
    }),
    said: /^Widen it to ([\d.]+) mm/,
  },
  'a bridge as a continuous sheet': {
    rule: 'thin-bridge',
    wrong: 1,
    draw: (w) =>
      page(
        `${frame}<rect x="20" y="15" width="20" height="30"/><rect x="${40 + w}" y="15" width="20" height="30"/>${label(5, 8, '2')}`,
      ),
    setup: (w) => ({ stack, joint: 'continuous', numbers: [...zero([30, 30]), ...zero([50 + w, 30])] }),
    said: /^Widen it to ([\d.]+) mm/,
  },
  'an opening without room for the bit': {
    rule: 'small-opening',
    wrong: 0.6,
    draw: (d) => page(`${frame}<circle cx="50" cy="30" r="${d / 2}"/>${label(5, 8, '2')}`),
    setup: () => ({ stack, numbers: zero([50, 30]) }),
    said: /circle of ([\d.]+) mm/,
  },
  'a slot': {
    rule: 'narrow-slot',
    wrong: 0.2,
    draw: (w) => page(`${frame}<rect x="20" y="30" width="40" height="${w}"/>${label(5, 8, '2')}`),
    setup: (w) => ({ stack, numbers: zero([40, 30 + w / 2]) }),
    said: /widen it to ([\d.]+) mm/,
    // The blade takes 0.41 mm, and fixes are in tenths.
    less: 0.4,
  },
  'a small piece': {
    rule: 'small-piece',
    wrong: 5,
    draw: (d) => page(`${frame}<circle cx="50" cy="30" r="${d / 2}"/>${label(5, 8, '2')}`),
    setup: () => ({ stack, numbers: [{ at: [50, 30], depth: '1' }] }),
    said: /^Draw it ([\d.]+) mm long/,
  },
  'a tight turn': {
    rule: 'tight-turn',
    wrong: 0.4,
    draw: (r) => page(`${frame}<path d="M2 20H50a${r} ${r} 0 0 1 0 ${2 * r}H2"/>`),
    setup: () => ({ stack }),
    said: /radius of ([\d.]+) mm/,
  },
  'a sharp tip': {
    rule: 'weak-tip',
    wrong: 10,
    draw: (a) => {
      const half = 30 * Math.tan((a * Math.PI) / 360);
      return page(
        `${frame}<path d="M30 30L60 ${30 - half}V${30 + half}Z"/>${label(5, 8, '1')}${label(55, 31, '2')}`,
      );
    },
    setup: () => ({ stack }),
    said: /blunter, (\d+)°/,
  },
  'a board too small': {
    rule: 'board-too-small',
    wrong: 80,
    draw: () => page(`${frame}${label(5, 8, '2')}`),
    setup: (w) => ({ stack: `2x 3 mm poplar (board ${w} x 60 mm)` }),
    said: /board of ([\d.]+) x/,
  },
  'a board too small for its add-on': {
    rule: 'board-too-small',
    wrong: 20,
    draw: () =>
      page(`${frame}<rect x="20" y="20" width="40" height="10" data-depth="+"/>${label(5, 8, '1')}`),
    setup: (w) => ({
      stack: `3 mm poplar, 3 mm oak (board ${w} x 30 mm)`,
      numbers: [{ at: [40, 25], depth: '+', face: 'oak' }],
    }),
    said: /board of ([\d.]+) x/,
  },
  'a part held by too little': {
    rule: 'falls-out',
    wrong: 2,
    // An island on a neck that borders on the frame over some length, in an opening all round.
    draw: (l) =>
      page(
        `${frame}<rect x="20" y="12" width="40" height="36"/><path d="M38 48V30H30V20H50V30H${38 + l}V48"/>${label(5, 8, '1')}`,
      ),
    setup: () => ({
      stack: '3 mm poplar',
      numbers: [...zero([25, 40]), ...zero([55, 40]), { at: [40, 25], depth: '1' }],
    }),
    said: /length, (\d+) mm²/,
    apply: (area, finding) => (finding.measured!.value + area) / 3,
  },
};

describe('the fix that a report names', () => {
  it.each(Object.entries(CASES))('%s', (_, { rule, wrong, draw, setup, said, apply, less }) => {
    const [finding] = foundBy(rule, draw(wrong), setup(wrong));
    expect(finding).toBeDefined();
    const [, number] = finding.fix!.match(said) ?? [];
    const right = apply === undefined ? Number(number) : apply(Number(number), finding);
    expect(right).not.toBe(wrong);
    expect(foundBy(rule, draw(right), setup(right))).toEqual([]);
    // And it is no larger than it must be.
    const short = less ?? 0.9 * right;
    expect(foundBy(rule, draw(short), setup(short)).length).toBeGreaterThan(0);
  });
});
