import { describe, expect, it } from 'vitest';
import { regionAt } from '../../src/plane/region-at.js';
import { mapSvg } from './map-svg.js';

const WALL = '<path d="M10 10H90V90H10Z"/><path d="M50 10V90"/>';

describe('add-ons that are closed shapes of their own', () => {
  it('by data-depth: neither cut nor hide what lies under them, and know their seats', () => {
    const map = mapSvg(`${WALL}<circle cx="50" cy="50" r="8" fill="#fc0" data-depth="+"/>`);
    const addOns = map.regions.filter(({ addOn }) => addOn);
    expect(addOns).toHaveLength(1);
    expect(addOns[0].area).toBeCloseTo(Math.PI * 64, 8);
    expect(addOns[0].seats.map((r) => map.regions[r].area)).toEqual([3200, 3200]);
    expect(addOns[0].neighbours).toEqual([]);
    expect(map.regions.filter(({ addOn }) => !addOn).map(({ area }) => area)).toEqual([3200, 3200]);
    expect(map.regions[regionAt(map, [50, 50])].addOn).toBe(true);
  });

  it('by the label that lies in them', () => {
    const map = mapSvg(`${WALL}<circle cx="30" cy="50" r="8"/><text x="28" y="52" font-size="4">+2</text>`);
    const addOn = map.regions.findIndex(({ addOn }) => addOn);
    expect(map.regions[addOn].area).toBeCloseTo(Math.PI * 64, 8);
    expect(map.labels[0].region).toBe(addOn);
    expect(map.regions[addOn].seats).toHaveLength(1);
  });

  it('a shape that holds another number is the surround, not the add-on', () => {
    const map = mapSvg(
      '<path d="M10 10H90V90H10Z"/><text x="28" y="52" font-size="4">+</text><text x="60" y="52" font-size="4">3</text>',
    );
    expect(map.regions.some(({ addOn }) => addOn)).toBe(false);
  });
});
