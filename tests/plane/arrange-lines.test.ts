import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';

type Line = [number, number][];

function arrange(lines: Line[], weld = 0.02) {
  const a = arrangeLines(packLines(lines), { weld });
  expect(verifyArrangement(a)).toEqual([]);
  return a;
}

describe('arrangeLines', () => {
  it('nodes a crossing', () => {
    const a = arrange([
      [
        [0, 0],
        [10, 10],
      ],
      [
        [0, 10],
        [10, 0],
      ],
    ]);
    expect([a.nodeX.length, a.edgeFrom.length, a.faceCount]).toEqual([5, 4, 0]);
  });

  it('places crossings of lines with ends far outside the grid steps at the nearest grid point', () => {
    const a = arrange([
      [
        [-16000, 1 / 3],
        [16000, 1 / 3],
      ],
      [
        [1 / 7, -16000],
        [1 / 7, 16000],
      ],
    ]);
    const v = a.nodeX.findIndex((x, i) => x === Math.round(1024 / 7) && a.nodeY[i] === Math.round(1024 / 3));
    expect(v).toBeGreaterThanOrEqual(0);
  });

  it('keeps a single face where many lines cross in one point', () => {
    const lines: Line[] = Array.from({ length: 64 }, (_, i) => {
      const a = (Math.PI * (i + 0.25)) / 64;
      const [x, y] = [300 * Math.cos(a), 300 * Math.sin(a)];
      return [
        [1000.3 - x, 700.7 - y],
        [1000.3 + x, 700.7 + y],
      ];
    });
    const ring: Line = Array.from({ length: 97 }, (_, i) => [
      1000.3 + 200 * Math.cos((2 * Math.PI * i) / 96),
      700.7 + 200 * Math.sin((2 * Math.PI * i) / 96),
    ]);
    expect(arrange([...lines, ring]).faceCount).toBe(128);
  });

  it.each([0, 0.02])('bounds the work on a crowd of lines through one small place, weld %f', (weld) => {
    const star = (x: number, n: number): Line[] =>
      Array.from({ length: n }, (_, i) => [
        [x, 0],
        [x + 100 * Math.cos(i), 100 * Math.sin(i)],
      ]);
    const start = performance.now();
    const a = arrange([...star(0, 1000), ...star(0.003, 1000)], weld);
    expect(a.edgeFrom.length).toBeGreaterThan(2000);
    // Pair by pair it would be minutes.
    expect(performance.now() - start).toBeLessThan(20_000);
  });

  it('doubled lines change nothing', () => {
    const lines: Line[] = [
      [
        [0, 0],
        [30, 3],
        [27, 31],
        [0, 0],
      ],
      [
        [5, -4],
        [11, 40],
      ],
    ];
    const strip = ({ provenance, counts, ...rest }: ReturnType<typeof arrange>) => rest;
    expect(strip(arrange([...lines, ...lines]))).toEqual(strip(arrange(lines)));
  });

  it('drops lines of no length, and says where coordinates are no numbers or too large', () => {
    expect(
      arrange([
        [
          [1, 1],
          [1, 1],
        ],
        [[2, 2]],
      ]).nodeX.length,
    ).toBe(0);
    expect(() =>
      arrange([
        [
          [0, 0],
          [Number.NaN, 1],
        ],
      ]),
    ).toThrowError(/vertex 1/);
    expect(() =>
      arrange([
        [
          [0, 0],
          [17000, 1],
        ],
      ]),
    ).toThrowError(/16383/);
  });
});
