import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBlocks } from '../../src/output/plan-blocks.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { type Cell, cellRelief } from '../support/cell-relief.js';

const cell: fc.Arbitrary<Cell> = fc.record({
  depth: fc.constantFrom('1', '2', '3', '4', '4', '0'),
  inside: fc.array(
    fc.record({
      shape: fc.constantFrom('circle', 'square'),
      depth: fc.constantFrom('-1', '-2', '0', '1', '2', '3', '4'),
      right: fc.option(fc.constantFrom('-1', '0', '1', '3'), { nil: undefined }),
    }),
    { maxLength: 2 },
  ),
});

const rows = fc.array(fc.array(cell, { minLength: 3, maxLength: 3 }), { minLength: 2, maxLength: 2 });

describe('letters of blocks of random reliefs', () => {
  it.each(['cut', 'board-edge'] as const)('name one thing each, frame %s', (frame) => {
    fc.assert(
      fc.property(rows, (picture) => {
        const plan = planCuts(cellRelief({ rows: picture, sheets: [6, 3, 4, 3], joint: 'pieces', frame }));
        const blocks = planBlocks(plan);
        const given = new Set(['A']);
        const give = (letter: string): void => {
          expect(given.has(letter), letter).toBe(false);
          given.add(letter);
        };
        for (const pass of plan.passes) {
          const own = blocks.setting(pass);
          for (const { letter, isNew } of own) if (isNew) give(letter);
          expect(new Set(own.map(({ letter }) => letter)).size).toBe(own.length);
          const known = new Set(own.map(({ letter }) => letter));
          for (const step of pass.steps) {
            const { own: sawn, lumps, apart } = blocks.step(step);
            if (sawn !== undefined) expect(known.has(sawn), sawn).toBe(true);
            for (const letter of [...apart, ...lumps.map((lump) => lump.letter)]) {
              give(letter);
              known.add(letter);
            }
            for (const { beside, letter } of lumps) expect(beside).not.toContain(letter);
          }
        }
        expect(/.*(undefined|NaN| \.|\.\.).*/.exec(writePlanText(plan))?.[0]).toBeUndefined();
      }),
      { numRuns: 25 },
    );
  });
});
