import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PoleSearch, poleOf } from '../../src/geometry/pole.js';
import { roomAt, starOf } from '../support/rings.js';

const box = (x0: number, y0: number, x1: number, y1: number): Float64Array =>
  Float64Array.of(x0, y0, x1, y0, x1, y1, x0, y1);

describe('pole of inaccessibility', () => {
  it('is the centre of the inscribed disc', () => {
    expect(poleOf([box(1, 2, 9, 10)], 1e-6)).toEqual({ x: 5, y: 6, room: 4 });
    const triangle = poleOf([Float64Array.of(0, 0, 4, 0, 0, 3)], 1e-9);
    // The incircle of a 3-4-5 triangle has the radius 1.
    expect(triangle.x).toBeCloseTo(1, 8);
    expect(triangle.y).toBeCloseTo(1, 8);
    expect(triangle.room).toBeCloseTo(1, 8);
  });

  it('keeps out of holes', () => {
    const pole = poleOf([box(0, 0, 30, 10), box(1, 1, 20, 9)], 1e-6);
    expect(pole.room).toBeCloseTo(5, 5);
    expect(pole.x).toBeCloseTo(25, 5);
  });

  it('has no room where there is no inside', () => {
    expect(poleOf([], 0.1)).toEqual({ x: 0, y: 0, room: 0 });
    expect(poleOf([Float64Array.of(0, 0, 5, 0)], 0.1).room).toBeLessThanOrEqual(0);
    expect(poleOf([Float64Array.of(3, 3)], 0.1).room).toBeLessThanOrEqual(0);
  });

  it('is within the precision of the best place, and its room is true', () => {
    const radii = fc.array(fc.double({ min: 5, max: 20, noNaN: true }), { minLength: 3, maxLength: 90 });
    const hole = fc.array(fc.double({ min: 0.5, max: 3, noNaN: true }), { minLength: 3, maxLength: 30 });
    fc.assert(
      fc.property(radii, hole, (outline, inner) => {
        const rings = [starOf(outline), starOf(inner)];
        const precision = 0.05;
        const { x, y, room } = poleOf(rings, precision);
        expect(room).toBeCloseTo(roomAt(rings, x, y), 9);
        for (let i = -20; i <= 20; i += 2) {
          for (let j = -20; j <= 20; j += 2)
            expect(roomAt(rings, i + 0.1, j + 0.2)).toBeLessThanOrEqual(room + precision);
        }
      }),
      { numRuns: 40 },
    );
  });

  const wave = fc.record({
    share: fc.double({ min: 0, max: 0.5, noNaN: true }),
    waves: fc.integer({ min: 2, max: 9 }),
    count: fc.integer({ min: 3, max: 200 }),
    hole: fc.double({ min: 0, max: 0.9, noNaN: true }),
  });
  type Wave = { share: number; waves: number; count: number; hole: number };
  /** On the grid of 1/1024: a wavy disc, with a hole of the same form or without. */
  const wavyRings = ({ share, waves, count, hole }: Wave): Float64Array[] => {
    const ringOf = (radius: number): Float64Array => {
      const radii = Array.from({ length: count }, (_, i) => Math.sin((2 * Math.PI * waves * i) / count));
      return starOf(radii.map((sine) => radius * (1 + share * sine))).map((v) => Math.round(v * 1024) / 1024);
    };
    return hole > 0.2 ? [ringOf(20), ringOf(20 * hole)] : [ringOf(20)];
  };

  it('is the same whatever was searched before with the same arrays', () => {
    fc.assert(
      fc.property(fc.array(wave, { minLength: 2, maxLength: 6 }), (shapes) => {
        const search = new PoleSearch();
        for (const rings of shapes.map(wavyRings))
          expect(search.find(rings, 0.4)).toEqual(poleOf(rings, 0.4));
      }),
      { numRuns: 60 },
    );
  });

  it('goes along with an area that is moved by whole steps of the grid', () => {
    const steps = fc.integer({ min: -(2 ** 18), max: 2 ** 18 });
    fc.assert(
      fc.property(wave, steps, steps, (shape, dx, dy) => {
        const rings = wavyRings(shape);
        const moved = rings.map((ring) => ring.map((v, i) => v + (i % 2 === 0 ? dx : dy) / 1024));
        const pole = poleOf(rings, 0.5);
        const other = poleOf(moved, 0.5);
        expect(other.x - dx / 1024).toBeCloseTo(pole.x, 6);
        expect(other.y - dy / 1024).toBeCloseTo(pole.y, 6);
      }),
      { numRuns: 100 },
    );
  });

  it('stays where it is among equally good places when the border moves by a hair', () => {
    const circle = (r: number): Float64Array => starOf(Array.from({ length: 90 }, () => r));
    const equals = [
      [circle(20), circle(12)],
      [box(0, 0, 60, 40), box(8, 8, 52, 32)],
      [box(0, 0, 60, 40), circle(14).map((v, i) => v + (i % 2 === 0 ? 30 : 20))],
      [box(0, 0, 90, 10)],
      [Float64Array.of(0, 0, 10, 0, 10, 20, 20, 20, 20, 0, 30, 0, 30, 30, 0, 30)],
    ];
    const hair = fc.infiniteStream(fc.double({ min: -1e-7, max: 1e-7, noNaN: true }));
    fc.assert(
      fc.property(fc.constantFrom(...equals), hair, (rings, hairs) => {
        const moved = rings.map((ring) => ring.map((v) => v + hairs.next().value!));
        const pole = poleOf(rings, 0.4);
        const other = poleOf(moved, 0.4);
        expect(Math.hypot(other.x - pole.x, other.y - pole.y)).toBeLessThan(1e-3);
      }),
      { numRuns: 200 },
    );
  });

  it('takes the first of equally good places, row by row', () => {
    const frame = [box(0, 0, 60, 40), box(8, 8, 52, 32)];
    const { x, y } = poleOf(frame, 0.3);
    expect(x).toBeLessThan(30);
    expect(y).toBeLessThan(20);
  });
});
