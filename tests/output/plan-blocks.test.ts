import { describe, expect, it } from 'vitest';
import { planBlocks, sawnLater } from '../../src/output/plan-blocks.js';
import { writePlanText } from '../../src/output/plan-text.js';
import type { CutPlan, Pass } from '../../src/workshop/cut-plan.js';
import { planFixture } from '../support/plan-fixture.js';
import { planOf } from './jobs.js';

const harbour = planFixture('harbour');
const owl = planFixture('owl');

/** The letters of a plan in the order in which they are given. */
function givenBy(plan: CutPlan): string[] {
  const blocks = planBlocks(plan);
  return plan.passes.flatMap((pass) => [
    ...blocks
      .setting(pass)
      .filter(({ isNew }) => isNew)
      .map(({ letter }) => letter),
    ...pass.steps.flatMap((step) => {
      const { apart, lumps } = blocks.step(step);
      return [...apart, ...lumps.map(({ letter }) => letter)];
    }),
  ]);
}

describe('letters of blocks', () => {
  it('bare waste that is left of the board is no block', () => {
    const plan = planOf('fixtures/small/ring');
    expect(plan.passes.some(({ blocks }) => blocks.some(({ regions }) => regions.length === 0))).toBe(true);
    const blocks = planBlocks(plan);
    for (const pass of plan.passes) {
      for (const { regions } of blocks.setting(pass)) expect(regions.length).toBeGreaterThan(0);
    }
    expect(writePlanText(plan)).not.toContain('()');
  });

  it('each letter is given once, in the order of the alphabet, after A for the board', () => {
    expect(givenBy(harbour)).toEqual(['B', 'C', 'D', 'E', 'F', 'G']);
    expect(givenBy(owl)).toEqual(['B', 'C', 'D', 'E', 'F']);
  });

  it.each([
    ['harbour', harbour],
    ['owl', owl],
  ] as const)('%s: a block of a setting has the letter that it came apart with', (_, plan) => {
    const blocks = planBlocks(plan);
    const letterOf = new Map<number, string>();
    for (const pass of plan.passes) {
      for (const { letter, regions } of blocks.setting(pass)) {
        for (const r of regions) expect(letterOf.get(r) ?? 'A').toBe(letter);
      }
      for (const step of pass.steps) {
        const { apart, lumps } = blocks.step(step);
        (step.boardApart ?? []).forEach(({ regions }, i) => {
          for (const r of regions) letterOf.set(r, apart[i]);
        });
        for (const { letter, regions } of lumps) for (const r of regions) letterOf.set(r, letter);
      }
    }
  });

  it('a step saws the block that its line is in', () => {
    const blocks = planBlocks(harbour);
    const letters = harbour.passes.flatMap(({ steps }) => steps).map((step) => blocks.step(step).own);
    // Steps 156 to 170: the frame with all of the board, then what came loose.
    expect(letters.slice(155, 170).join('')).toBe('ACCCDBBEAEFECCC');
    expect(letters.slice(0, 131).every((letter) => letter === undefined)).toBe(true);
  });

  it('tells which blocks still stand beside a lump', () => {
    const blocks = planBlocks(harbour);
    const frame = harbour.passes.flatMap(({ steps }) => steps)[155];
    expect(blocks.step(frame).lumps.map(({ letter, beside }) => [letter, beside])).toEqual([
      ['C', []],
      ['D', ['A']],
      ['E', ['B']],
    ]);
    expect(blocks.step(frame).rest).toBe('A');
  });

  it('tapes a lump only to what stays until all of it is sawn', () => {
    const blocks = planBlocks(harbour);
    const steps = harbour.passes.flatMap((pass) => pass.steps);
    // B is sawn up by step 162, E from 163 on.
    expect(blocks.step(steps[155]).lumps.map(({ letter, lasting }) => [letter, lasting])).toEqual([
      ['C', []],
      ['D', ['A']],
      ['E', []],
    ]);
    for (const plan of [harbour, owl]) {
      const all = planBlocks(plan);
      for (const pass of plan.passes) {
        pass.steps.forEach((step, at) => {
          for (const { regions, lasting, beside } of all.step(step).lumps) {
            for (const letter of lasting) expect(beside).toContain(letter);
            const last = sawnLater(plan, pass, step, regions).pop();
            if (last === undefined) expect(lasting).toEqual([]);
            else for (const letter of lasting) expect(stillStands(plan, pass, at + last, letter)).toBe(true);
          }
        });
      }
    }
  });

  it('tells where another block goes on the table', () => {
    const blocks = planBlocks(harbour);
    const steps = harbour.passes.flatMap((pass) => pass.steps);
    const changes = steps.flatMap((step, i) => {
      const { change } = blocks.step(step);
      return change === undefined ? [] : [`${i + 1} ${change.off}${change.on}`];
    });
    // D and B lie taped to A, so B after D and A after B are no change.
    expect(changes).toEqual([
      '157 AC',
      '160 CD',
      '163 BE',
      '164 EA',
      '165 AE',
      '166 EF',
      '167 FE',
      '168 EC',
      '172 CA',
      '193 CA',
      '205 AG',
    ]);
    expect(blocks.step(steps[159]).change).toMatchObject({ offTaped: false, onTaped: true });
  });
});

/** Some of a block stands when a step of a setting begins. */
function stillStands(plan: CutPlan, pass: Pass, before: number, letter: string): boolean {
  const freed = new Set(
    pass.steps.slice(0, before).flatMap(({ frees, regions }) => (frees === 'nothing' ? [] : regions)),
  );
  const blocks = planBlocks(plan);
  const lettered: readonly { readonly letter: string; readonly regions: readonly number[] }[] = [
    ...blocks.setting(pass),
    ...pass.steps.flatMap((step) => blocks.step(step).lumps),
  ];
  return lettered.some((block) => block.letter === letter && block.regions.some((r) => !freed.has(r)));
}
