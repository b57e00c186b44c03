import { describe, expect, it } from 'vitest';
import { arrangeLines } from '../../src/plane/arrange-lines.js';
import { packLines } from '../../src/plane/line-set.js';
import { scene } from '../bench/generate/scene.js';

describe('so many lines that they are arranged in an order of their own', () => {
  // More than a quarter of a million vertices; and what draws nothing, among them.
  const { lines } = scene(280_000);
  const few = Math.floor(lines.length / 3);
  const odd: (typeof lines)[number][] = [
    [[5, 5]],
    [],
    [
      [7, 7],
      [7, 7],
    ],
  ];
  const given = [...lines.slice(0, few), ...odd, ...lines.slice(few)];
  const set = packLines(given);
  const map = arrangeLines(set);
  const { pieceEdge, pieceSegment, segmentVertex, segmentT } = map.provenance;

  it('are told in the order in which they were given', () => {
    let before = -1;
    for (const k of pieceSegment) {
      expect(k).toBeGreaterThanOrEqual(before);
      before = k;
    }
    let vertex = -1;
    for (const v of segmentVertex) {
      if (v < vertex) throw new Error(`vertex ${v} after ${vertex}`);
      vertex = v;
    }
    expect(vertex).toBe(set.coords.length / 2 - 1);
  });

  it('have their pieces where they were drawn', () => {
    const STEPS = 1024;
    for (let i = 0; i < pieceEdge.length; i += 37) {
      const edge = pieceEdge[i] >> 1;
      const v = segmentVertex[pieceSegment[i]];
      const [ax, ay, bx, by] = Array.from(set.coords.subarray(2 * v, 2 * v + 4), (c) => c * STEPS);
      for (const node of [map.edgeFrom[edge], map.edgeTo[edge]]) {
        const x = map.nodeX[node] - ax;
        const y = map.nodeY[node] - ay;
        const length = Math.hypot(bx - ax, by - ay);
        const along = (x * (bx - ax) + y * (by - ay)) / length;
        const across = (x * (by - ay) - y * (bx - ax)) / length;
        // An end may be welded by 0.02 mm, which takes its segment along.
        expect(Math.abs(across)).toBeLessThan(22);
        expect(along).toBeGreaterThan(-22);
        expect(along).toBeLessThan(length + 22);
      }
    }
    expect(segmentT).not.toBeNull();
  });

  it('give the faces that they give in any other order', () => {
    const other = arrangeLines(packLines([...given].reverse()));
    expect(other.faceCount).toBe(map.faceCount);
    expect(other.nodeX).toEqual(map.nodeX);
    expect(other.edgeTo).toEqual(map.edgeTo);
    expect(other.edgeLeft).toEqual(map.edgeLeft);
  });
});
