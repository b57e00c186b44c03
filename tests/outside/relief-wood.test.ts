import { describe, expect, it } from 'vitest';
import { BOARDS, findMaterial, MPA_PER_PSI, WOODS } from '../../shared/tables/woods.js';
import { NEEDED_WIDTH_DEFAULTS, neededWidth, strengthAt } from '../../src/workshop/needed-width.js';

/**
 * Wood Handbook (USDA Forest Products Laboratory), table 5-3b, clear wood at 12 % moisture: specific gravity and
 * shear parallel to the grain in psi. The first four were read in a stored copy of an earlier edition's table,
 * the next ten in secondary tables, the last six are from memory.
 */
const HANDBOOK: readonly (readonly [string, number, number])[] = [
  ['ponderosa pine', 0.4, 1130],
  ['red pine', 0.46, 1210],
  ['sugar pine', 0.36, 1130],
  ['western white pine', 0.38, 1040],
  ['basswood', 0.37, 990],
  ['aspen', 0.38, 850],
  ['alder', 0.41, 1080],
  ['butternut', 0.38, 1170],
  ['cherry', 0.5, 1700],
  ['paper birch', 0.55, 1210],
  ['yellow birch', 0.62, 1880],
  ['ash', 0.6, 1910],
  ['beech', 0.64, 2010],
  ['maple', 0.63, 2330],
  ['walnut', 0.55, 1370],
  ['poplar', 0.42, 1190],
  ['red oak', 0.63, 1780],
  ['white oak', 0.68, 2000],
  ['eastern white pine', 0.35, 900],
  ['western redcedar', 0.32, 990],
];

/** Same handbook: modulus of rupture and tension perpendicular to the grain, psi, from memory. */
const ALONG_AND_ACROSS: readonly (readonly [string, number, number])[] = [
  ['basswood', 8700, 350],
  ['cherry', 12300, 560],
  ['poplar', 10100, 540],
  ['red oak', 14300, 800],
  ['ash', 15000, 940],
];

const named = (name: string) => WOODS.find((wood) => wood.name === name)!;

describe('woods against the Wood Handbook', () => {
  it.each(HANDBOOK)('%s has gravity %f and shear %i psi', (name, gravity, shear) => {
    expect([named(name).gravity, named(name).shear]).toEqual([gravity, shear]);
  });

  it('has no wood that is not in the list', () => {
    expect(WOODS.map((wood) => wood.name)).toEqual(HANDBOOK.map(([name]) => name).sort());
  });

  it.each(ALONG_AND_ACROSS)('%s bends at %i psi along and tears at %i psi across', (name, along, across) => {
    expect(strengthAt(name, 0, 1)).toBeCloseTo(along, 6);
    expect(strengthAt(name, 90, 1)).toBeCloseTo(across, 6);
  });

  it('is about a twentieth as strong across the grain', () => {
    const ratios = WOODS.flatMap((w) => (w.tensionAcross === null ? [] : [w.rupture / w.tensionAcross]));
    const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length;
    expect(mean).toBeGreaterThan(17);
    expect(mean).toBeLessThan(26);
    expect(1 / NEEDED_WIDTH_DEFAULTS.acrossByAlong).toBeCloseTo(mean, -0.5);
  });

  it('agrees with one psi in pascals (6.895 kPa)', () => {
    expect(MPA_PER_PSI * 1000).toBeCloseTo(6.895, 3);
  });
});

describe('needed width against the trade', () => {
  // Common practice, no source: a bridge is not thinner than its sheet.
  it.each([1.5, 3, 6.35])(
    'asks for no less than the sheet of %f mm where the grain is not known',
    (thickness) => {
      const bridge = { material: 'poplar', thickness, heightSawn: thickness, kerf: 0.4 };
      expect(neededWidth(bridge)).toBeGreaterThanOrEqual(thickness);
    },
  );

  // Bending in the plane goes with the square of the width, so the widths go with the root of the strengths.
  it.each(ALONG_AND_ACROSS)(
    'asks for √(along/across) times the width across the grain of %s',
    (name, along, across) => {
      const width = (grainAngle: number): number =>
        neededWidth({ material: name, thickness: 10, heightSawn: 0, kerf: 0, grainAngle }, { least: 0 });
      expect(width(90) / width(0)).toBeCloseTo(Math.sqrt(along / across), 9);
    },
  );
});

describe('findMaterial', () => {
  it.each([
    ['basswood', 'basswood'],
    ['Basswood plywood', 'plywood'],
    ['birch ply', 'plywood'],
    ['birch', 'yellow birch'],
    ['black walnut', 'walnut'],
    ['sugar maple', 'maple'],
    ['MDF', 'fibreboard'],
    ['tempered hardboard', 'hardboard'],
    ['sugar pine', 'sugar pine'],
    ['pine', 'eastern white pine'],
    ['oak veneer', 'white oak'],
  ])('takes %s for %s', (text, name) => {
    const found = findMaterial(text);
    expect(found?.kind === 'board' ? found.board.name : found?.wood.name).toBe(name);
  });

  it.each(['', 'wood', 'brass', 'applewood', 'pineapple'])('does not know %j', (text) => {
    expect(findMaterial(text)).toBeNull();
  });

  it('lists boards that are no stronger than the strongest wood', () => {
    const strongest = Math.max(...WOODS.map((wood) => wood.rupture));
    for (const board of BOARDS) expect(board.rupture).toBeLessThan(strongest);
  });
});
