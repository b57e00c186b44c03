import { describe, expect, it } from 'vitest';
import { BLADES } from '../../shared/tables/blades.js';
import { MM_PER_INCH, NUMBER_DRILLS_INCH } from '../../shared/tables/drills.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';

describe('the stack of 5/8 in (the trade; common practice, no source)', () => {
  const inch = (part: number): number => part * MM_PER_INCH;
  const relief = cellRelief({
    rows: [[1, 2, 3, 4].map((n) => ({ depth: String(n), inside: [] }))],
    sheets: [inch(1 / 4), inch(1 / 8), inch(1 / 8), inch(1 / 8)],
  });
  const plan = planCuts(relief);

  it('is sawn from the highest number down, one back sheet lifted off before each pass', () => {
    expect(plan.passes.map((pass) => pass.number)).toEqual([4, 3, 2, 1]);
    expect(plan.passes.map((pass) => pass.moves)).toEqual([
      [],
      [{ sheet: 's4', action: 'lift' }],
      [{ sheet: 's3', action: 'lift' }],
      [{ sheet: 's2', action: 'lift' }],
    ]);
  });

  it('is 5/8, 1/2, 3/8 and 1/4 in high in its passes, and so are the pieces', () => {
    const heights = [5 / 8, 1 / 2, 3 / 8, 1 / 4].map(inch);
    plan.passes.forEach((pass, i) => {
      expect(pass.height).toBeCloseTo(heights[i], 9);
    });
    const pieces = [...plan.pieces].sort((a, b) => b.thickness - a.thickness);
    pieces.forEach((piece, i) => {
      expect(piece.thickness).toBeCloseTo(heights[i], 9);
    });
  });

  it('has pieces of 1/8, 1/4, 3/8 and 5/8 in as continuous sheets', () => {
    const level = (n: number) => relief.regions.findIndex((region) => region.label === String(n));
    const continuous = cellRelief({
      rows: [[1, 2, 3, 4].map((n) => ({ depth: String(n), inside: [] }))],
      sheets: relief.stack.sheets.map((sheet) => sheet.thickness),
      joint: 'continuous',
    });
    const heights = [1 / 8, 1 / 4, 3 / 8, 5 / 8].map(inch);
    heights.forEach((height, i) => {
      expect(continuous.regions[level(i + 1)].height).toBeCloseTo(height, 9);
    });
    expect(planCuts(continuous).passes.every((pass) => pass.sheets.length === 1)).toBe(true);
  });

  it('suits a No. 5 blade', () => {
    expect(plan.advice[0].text).toMatch(/No\. 5 suits/);
    expect(BLADES.find((blade) => blade.name === 'No. 5')!.height[1]).toBeGreaterThan(plan.passes[0].height);
  });
});

describe('number drills', () => {
  // Values on independent public pages, inches.
  it.each([
    [1, 0.228],
    [2, 0.221],
    [3, 0.213],
    [4, 0.209],
    [7, 0.201],
    [10, 0.1935],
    [21, 0.159],
    [25, 0.1495],
    [80, 0.0135],
  ])('#%i is %f in', (number, size) => {
    expect(NUMBER_DRILLS_INCH[number - 1]).toBe(size);
  });

  // Unified threads, major diameter and threads an inch, with the number drill that machinists pair them with
  // for about 75 % of thread: drill = major − 0.75 · 1.299 / tpi (Machinery's Handbook, from memory).
  it.each([
    ['4-40', 0.112, 40, 43],
    ['6-32', 0.138, 32, 36],
    ['8-32', 0.164, 32, 29],
    ['10-24', 0.19, 24, 25],
    ['10-32', 0.19, 32, 21],
    ['1/4-20', 0.25, 20, 7],
  ])('fit the tap drill of %s', (_, major, threads, number) => {
    const drill = major - (0.75 * 1.299) / threads;
    expect(Math.abs(NUMBER_DRILLS_INCH[number - 1] - drill)).toBeLessThan(0.003);
  });
});
