import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { randomSource, shuffled } from '../support/random.js';

type Place = [number, number];

/** Teeth whose two ends lie on two slanted lines, to within the rounding of doubles, in an order of `seed`. */
function ladder(rungs: number, seed: number): Place[][] {
  const random = randomSource(seed);
  const at = (x: number, top: boolean): Place => [x, (top ? 10 : 20) + x / 7];
  const teeth = Array.from({ length: rungs }, (_, i): Place[] => {
    const tooth = [at(0.25 * (i + 1), true), at(0.25 * (i + 1), false)];
    return random() < 0.5 ? tooth : tooth.reverse();
  });
  const width = 0.25 * (rungs + 1);
  const rails = [true, false].map((top): Place[] => [at(0, top), at(width, top)]);
  if (seed % 2 === 1) for (const rail of rails) rail.reverse();
  return [...rails, ...shuffled(teeth, random)];
}

const shapeOf = ({ nodeX, nodeY, edgeFrom, edgeTo, faceArea }: ReturnType<typeof arrangeLines>) => ({
  nodeX,
  nodeY,
  edgeFrom,
  edgeTo,
  faceArea,
});

describe('many ends on one line', () => {
  it('are all nodes of it, in whatever order and direction they come', () => {
    const maps = [1, 2, 3, 4].map((seed) => arrangeLines(packLines(ladder(3000, seed))));
    expect(verifyArrangement(maps[0])).toEqual([]);
    for (const map of maps) {
      // Two rails of 3,001 spans with an open end on either side, 3,000 rungs.
      expect([map.nodeX.length, map.edgeFrom.length, map.faceCount]).toEqual([6004, 9002, 2999]);
      expect(shapeOf(map)).toEqual(shapeOf(maps[0]));
    }
  });

  it('are nodes by the ten thousand in no time', () => {
    // One by one into a sorted list they would take 10⁹ steps.
    expect(arrangeLines(packLines(ladder(60_000, 1))).faceCount).toBe(59_999);
  });
});
