import { GRID_STEP } from '../../src/geometry/grid.js';
import type { Point } from '../../src/geometry/point.js';
import type { Arrangement } from '../../src/plane/arrangement.js';

/** Pairs of faces that share border of positive length. */
export function adjacentPairs(a: Arrangement): number {
  return a.adjacencyFace.length / 2;
}

/** All faces together, mm². */
export function totalArea(a: Arrangement): number {
  let sum = 0;
  for (const area of a.faceArea) sum += area;
  return sum;
}

/** Length of all edges, mm. */
export function totalLength(a: Arrangement): number {
  let sum = 0;
  for (let e = 0; e < a.edgeFrom.length; e++) sum += edgeLength(a, e);
  return sum;
}

function edgeLength(a: Arrangement, e: number): number {
  const [u, v] = [a.edgeFrom[e], a.edgeTo[e]];
  return Math.hypot(a.nodeX[v] - a.nodeX[u], a.nodeY[v] - a.nodeY[u]) * GRID_STEP;
}

/** How deep each face lies in other line work: 0 for faces of the outermost parts. */
export function nestingDepths(a: Arrangement): number[] {
  const depths: number[] = [];
  const depth = (f: number): number => {
    const known = depths[f];
    if (known !== undefined) return known;
    const inside = a.faceInside[f];
    depths[f] = inside < 0 ? 0 : 1 + depth(inside);
    return depths[f];
  };
  for (let f = 0; f < a.faceCount; f++) depth(f);
  return depths;
}

/** Everything that must not change when lines are redrawn; identical input gives an equal object. */
export function identity(a: Arrangement): unknown {
  return {
    nodeX: [...a.nodeX],
    nodeY: [...a.nodeY],
    edgeFrom: [...a.edgeFrom],
    edgeTo: [...a.edgeTo],
    edgeLeft: [...a.edgeLeft],
    edgeRight: [...a.edgeRight],
    faceArea: [...a.faceArea],
    faceInside: [...a.faceInside],
    adjacencyStart: [...a.adjacencyStart],
    adjacencyFace: [...a.adjacencyFace],
    adjacencyLength: [...a.adjacencyLength],
    faceOutsideLength: [...a.faceOutsideLength],
    componentCount: a.componentCount,
  };
}

/**
 * What motions of the page keep: counts, and a sorted list of one word a face that tells its nesting, whether
 * it borders on the outside, and the same of its neighbours, three steps around.
 */
export function shape(a: Arrangement): { faces: number; parts: number; words: string[] } {
  const depths = nestingDepths(a);
  let words = depths.map((d, f) => `${d}${a.faceOutsideLength[f] > 0 ? 'o' : ''}`);
  for (let round = 0; round < 3; round++) {
    const names = new Map([...new Set(words)].sort().map((word, i) => [word, i]));
    words = words.map((word, f) => {
      const around: (number | undefined)[] = [];
      for (let i = a.adjacencyStart[f]; i < a.adjacencyStart[f + 1]; i++)
        around.push(names.get(words[a.adjacencyFace[i]]));
      around.sort();
      const inside = a.faceInside[f];
      return `${word}(${around.join(',')})[${inside < 0 ? '' : names.get(words[inside])}]`;
    });
  }
  return { faces: a.faceCount, parts: a.componentCount, words: words.sort() };
}

/** A point inside each face, mm: the middle of the widest gap on a horizontal line between two nodes. */
export function facePoints(a: Arrangement): Point[] {
  const edges: number[][] = Array.from({ length: a.faceCount }, () => []);
  for (let e = 0; e < a.edgeFrom.length; e++) {
    const [f, g] = [a.edgeLeft[e], a.edgeRight[e]];
    if (f === g) continue;
    if (f >= 0) edges[f].push(e);
    if (g >= 0) edges[g].push(e);
  }
  return edges.map((own) => facePoint(a, own));
}

function facePoint(a: Arrangement, own: readonly number[]): Point {
  const levels = [...new Set(own.flatMap((e) => [a.nodeY[a.edgeFrom[e]], a.nodeY[a.edgeTo[e]]]))].sort(
    (p, q) => p - q,
  );
  let best: Point = [0, 0];
  let room = -1;
  const stride = Math.max(1, Math.floor(levels.length / 24));
  for (let i = 0; i + 1 < levels.length; i += stride) {
    const y = (levels[i] + levels[i + 1]) / 2;
    const hits = own.flatMap((e) => crossingAt(a, e, y)).sort((p, q) => p - q);
    for (let k = 0; k + 1 < hits.length; k += 2) {
      const wide = Math.min(hits[k + 1] - hits[k], levels[i + 1] - levels[i]);
      if (wide <= room) continue;
      room = wide;
      best = [((hits[k] + hits[k + 1]) / 2) * GRID_STEP, y * GRID_STEP];
    }
  }
  return best;
}

function crossingAt(a: Arrangement, e: number, y: number): number[] {
  const [u, v] = [a.edgeFrom[e], a.edgeTo[e]];
  const [y0, y1] = [a.nodeY[u], a.nodeY[v]];
  if (y0 < y === y1 < y) return [];
  return [a.nodeX[u] + ((y - y0) / (y1 - y0)) * (a.nodeX[v] - a.nodeX[u])];
}

/** Whether a point lies in the area of closed rings by the even–odd rule. */
export function insideRings(rings: readonly (readonly Point[])[], [px, py]: Point): boolean {
  let odd = false;
  for (const ring of rings) {
    for (let i = 0; i + 1 < ring.length; i++) {
      const [[ax, ay], [bx, by]] = [ring[i], ring[i + 1]];
      if (ay < py !== by < py && px < ax + ((py - ay) / (by - ay)) * (bx - ax)) odd = !odd;
    }
  }
  return odd;
}
