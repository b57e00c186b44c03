import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { identity } from '../support/arrangement-facts.js';
import type { LineWork } from '../support/line-work.js';

/**
 * Segments that run on in one quadrant are searched together. Cut into one line a segment, the same drawing has no
 * such chains, so every pair is compared: the maps must be identical.
 */
const cutUp = (lines: LineWork): LineWork =>
  lines.flatMap((line) => line.slice(1).map((to, i) => [line[i], to]));

/** Walks that turn by up to `bend` at steps of `least` to `most` mm, several within `size` mm. */
function walks(least: number, most: number, bend: number, size: number): fc.Arbitrary<LineWork> {
  const share = fc.integer({ min: 0, max: 4096 }).map((n) => n / 4096);
  const step = fc.tuple(share, share);
  const walk = fc.tuple(share, share, share, fc.array(step, { minLength: 1, maxLength: 40 }));
  const points = walk.map(([startX, startY, way, steps]) => {
    let [x, y, angle] = [startX * size, startY * size, way * 2 * Math.PI];
    const line: [number, number][] = [[x, y]];
    for (const [turn, length] of steps) {
      angle += (turn - 0.5) * 2 * bend;
      const by = least + length * (most - least);
      x += by * Math.cos(angle);
      y += by * Math.sin(angle);
      line.push([x, y]);
    }
    return line;
  });
  return fc.array(points, { minLength: 1, maxLength: 12 });
}

/** The arrangements of lines as they are and cut up, every vertex being a corner. */
function bothWays(lines: LineWork, weld: number) {
  return [lines, cutUp(lines)].map((work) => {
    const packed = packLines(work);
    const corners = new Uint8Array(packed.coords.length / 2).fill(1);
    const arrangement = arrangeLines({ ...packed, corners }, { weld });
    expect(verifyArrangement(arrangement)).toEqual([]);
    return identity(arrangement);
  });
}

describe('chains of segments', () => {
  it.each([
    ['curves of chords', 0.2, 1.5, 0.4, 6],
    ['chords of a few grid steps', 0.001, 0.012, 0.5, 0.05],
    ['chords below a grid step', 0.0001, 0.004, 0.6, 0.01],
    ['long and short', 0.002, 8, 1.5, 8],
  ])('do not change the map: %s', (_, least, most, bend, size) => {
    fc.assert(
      fc.property(walks(least, most, bend, size), (lines) => {
        const [chained, single] = bothWays(lines, 0);
        expect(chained).toEqual(single);
      }),
      { numRuns: 150 },
    );
  });

  it.each([
    ['curves of chords', 0.2, 1.5, 0.4, 3],
    ['chords not much longer than the weld', 0.05, 0.2, 0.8, 0.3],
  ])('do not change what is welded: %s', (_, least, most, bend, size) => {
    fc.assert(
      fc.property(walks(least, most, bend, size), (lines) => {
        const [chained, single] = bothWays(lines, 0.02);
        expect(chained).toEqual(single);
      }),
      { numRuns: 150 },
    );
  });
});
