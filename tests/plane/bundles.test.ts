import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { randomSource } from '../support/random.js';

type Lines = [number, number][][];

/** The map of some lines, verified. */
function arranged(lines: Lines, weld: number) {
  const map = arrangeLines(packLines(lines), { weld });
  expect(verifyArrangement(map)).toEqual([]);
  return map;
}

const counted = <T>(n: number, make: (i: number) => T): T[] => Array.from({ length: n }, (_, i) => make(i));

describe.each([0, 0.02])('lines crowded together, weld %f mm', (weld) => {
  it.each([300, 1000, 2000])('has no face in a fan of %i rays', (n) => {
    const rays: Lines = counted(n, (i) => {
      const angle = (Math.PI * i) / n;
      return [
        [0, 0],
        [1000 * Math.cos(angle), 1000 * Math.sin(angle)],
      ];
    });
    const map = arranged(rays, weld);
    expect(map.faceCount).toBe(0);
    expect(map.edgeFrom.length).toBe(n);
  });

  it('has two triangles more with two lines across a fan', () => {
    const rays: Lines = counted(600, (i) => [
      [0, 0],
      [1000, 5 * (i - 300) + 0.5],
    ]);
    const across: Lines = [
      [
        [500, -800],
        [500, 800],
      ],
    ];
    // 600 rays cut by one line: 599 triangles; the two outermost rays reach the line too.
    expect(arranged([...rays, ...across], weld).faceCount).toBe(599);
  });

  it('leaves a spiral open whose pitch at the start is the weld', () => {
    const spiral: Lines = [
      counted(10_001, (i) => [0.002 * i * Math.cos(0.05 * i), 0.002 * i * Math.sin(0.05 * i)]),
    ];
    expect(arranged(spiral, weld).faceCount).toBe(0);
  });

  it('has no face between pieces of one line', () => {
    const random = randomSource(7);
    const pieces: Lines = counted(120, () => {
      const [a, b] = [1000 * random(), 1000 * random()];
      return [
        [a, a * 0.375],
        [b, b * 0.375],
      ];
    });
    expect(arranged(pieces, weld).faceCount).toBe(0);
  });

  it('bounds the work on 2,000 lines along each other within a millimetre', () => {
    const lines: Lines = counted(2000, (i) => [
      [0, i / 2000],
      [300, i / 2000],
    ]);
    const map = arranged(lines, weld);
    expect(map.faceCount).toBe(0);
    // One line a grid step; or all of them in one, each being welded to the next.
    expect(map.edgeFrom.length).toBe(weld === 0 ? 1024 : 1);
  });

  it('tells 4,000 nested squares apart', () => {
    const squares: Lines = counted(4000, (i) => {
      const [a, b] = [i / 8, 1000 - i / 8];
      return [
        [a, a],
        [b, a],
        [b, b],
        [a, b],
        [a, a],
      ];
    });
    const map = arranged(squares, weld);
    expect(map.faceCount).toBe(4000);
    expect(map.faceInside.filter((face) => face < 0).length).toBe(1);
  });
});
