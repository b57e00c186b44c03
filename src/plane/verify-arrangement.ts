import { demandMembers } from '../arguments.js';
import { buildBoxTree, searchBoxes } from '../geometry/box-tree.js';
import { orientation } from '../geometry/crossing.js';
import { GRID_STEP } from '../geometry/grid.js';
import type { Arrangement } from './arrangement.js';

/** At most this many problems are listed: the first ones tell what is wrong. */
const MOST = 20;

/**
 * Checks everything that an arrangement promises and returns what does not hold, in words; empty is good.
 * Exact where the promise is exact. O(n log n). Independent of the code that builds arrangements.
 */
export function verifyArrangement(a: Arrangement): string[] {
  const lists = ['nodeX', 'nodeY', 'edgeFrom', 'edgeTo'];
  demandMembers(a, lists, 'verifyArrangement', 'an arrangement (from arrangeLines)');
  const problems: string[] = [];
  const report = (text: string): void => {
    if (problems.length < MOST) problems.push(text);
  };
  checkOrder(a, report);
  checkMeetings(a, report);
  checkWalks(a, report);
  checkEuler(a, report);
  checkAreas(a, report);
  checkAdjacency(a, report);
  return problems;
}

type Report = (text: string) => void;

function checkOrder({ nodeX, nodeY, edgeFrom, edgeTo }: Arrangement, report: Report): void {
  for (let v = 1; v < nodeX.length; v++) {
    if (nodeY[v] < nodeY[v - 1] || (nodeY[v] === nodeY[v - 1] && nodeX[v] <= nodeX[v - 1]))
      report(`node ${v} does not follow node ${v - 1} by y, then x`);
  }
  for (let e = 0; e < edgeFrom.length; e++) {
    if (edgeFrom[e] >= edgeTo[e] || edgeTo[e] >= nodeX.length) report(`edge ${e} has its ends out of order`);
    if (
      e > 0 &&
      (edgeFrom[e] < edgeFrom[e - 1] || (edgeFrom[e] === edgeFrom[e - 1] && edgeTo[e] <= edgeTo[e - 1]))
    )
      report(`edge ${e} does not follow edge ${e - 1}`);
  }
}

/** Edges meet at nodes only: no proper crossing, no node inside an edge, no overlap. */
function checkMeetings(a: Arrangement, report: Report): void {
  const { nodeX: x, nodeY: y, edgeFrom, edgeTo } = a;
  const boxes = new Float64Array(4 * edgeFrom.length);
  for (let e = 0; e < edgeFrom.length; e++) {
    const u = edgeFrom[e];
    const v = edgeTo[e];
    boxes.set(
      [Math.min(x[u], x[v]), Math.min(y[u], y[v]), Math.max(x[u], x[v]), Math.max(y[u], y[v])],
      4 * e,
    );
  }
  const tree = buildBoxTree(boxes);
  for (let e = 0; e < edgeFrom.length; e++) {
    searchBoxes(tree, boxes[4 * e], boxes[4 * e + 1], boxes[4 * e + 2], boxes[4 * e + 3], (f) => {
      if (f > e && meetBadly(a, e, f)) report(`edges ${e} and ${f} meet away from a node`);
      return false;
    });
  }
}

function meetBadly({ nodeX: x, nodeY: y, edgeFrom, edgeTo }: Arrangement, e: number, f: number): boolean {
  const [a, b, c, d] = [edgeFrom[e], edgeTo[e], edgeFrom[f], edgeTo[f]];
  const o1 = Math.sign(orientation(x[a], y[a], x[b], y[b], x[c], y[c]));
  const o2 = Math.sign(orientation(x[a], y[a], x[b], y[b], x[d], y[d]));
  const o3 = Math.sign(orientation(x[c], y[c], x[d], y[d], x[a], y[a]));
  const o4 = Math.sign(orientation(x[c], y[c], x[d], y[d], x[b], y[b]));
  if (o1 * o2 < 0 && o3 * o4 < 0) return true;
  const inside = (o: number, u: number, v: number, p: number): boolean =>
    o === 0 &&
    p !== u &&
    p !== v &&
    Math.min(x[u], x[v]) <= x[p] &&
    x[p] <= Math.max(x[u], x[v]) &&
    Math.min(y[u], y[v]) <= y[p] &&
    y[p] <= Math.max(y[u], y[v]);
  return inside(o1, a, b, c) || inside(o2, a, b, d) || inside(o3, c, d, a) || inside(o4, c, d, b);
}

/** Half-edges turn around their nodes in order, `next` follows them, and the faces are constant along walks. */
function checkWalks(a: Arrangement, report: Report): void {
  const { nodeX, nodeY, edgeFrom, edgeTo, outStart, out, next, edgeLeft, edgeRight } = a;
  const from = (h: number): number => ((h & 1) === 0 ? edgeFrom[h >> 1] : edgeTo[h >> 1]);
  const face = (h: number): number => ((h & 1) === 0 ? edgeLeft[h >> 1] : edgeRight[h >> 1]);
  if (out.length !== 2 * edgeFrom.length) report('not every half-edge leaves a node');
  for (let v = 0; v < nodeX.length; v++) {
    if (outStart[v] === outStart[v + 1]) report(`node ${v} has no edge`);
    let before = Number.NEGATIVE_INFINITY;
    for (let i = outStart[v]; i < outStart[v + 1]; i++) {
      const h = out[i];
      if (from(h) !== v) report(`half-edge ${h} does not leave node ${v}`);
      const w = from(h ^ 1);
      let angle = Math.atan2(nodeY[w] - nodeY[v], nodeX[w] - nodeX[v]);
      if (angle < 0) angle += 2 * Math.PI;
      // Directions between grid points that differ by less than this are left to the crossing test.
      if (angle < before - 1e-12) report(`the edges around node ${v} are not in order`);
      before = angle;
      const follower = out[i + 1 < outStart[v + 1] ? i + 1 : outStart[v]];
      if (next[h ^ 1] !== follower) report(`half-edge ${h ^ 1} is followed by the wrong one`);
      if (face(h ^ 1) !== face(follower)) report(`the face changes along half-edge ${h ^ 1}`);
    }
  }
}

/** V − E + F = 1 + C, F counting the outside. */
function checkEuler(a: Arrangement, report: Report): void {
  const { nodeX, edgeFrom, faceCount, componentCount } = a;
  if (nodeX.length - edgeFrom.length + faceCount + 1 !== 1 + componentCount)
    report(
      `Euler: ${nodeX.length} nodes − ${edgeFrom.length} edges + ${faceCount} faces + 1 is not 1 + ${componentCount}`,
    );
}

/** Every face has positive area; the areas add up to what the outermost walks enclose. */
function checkAreas(a: Arrangement, report: Report): void {
  const { faceArea, faceCount, faceFirst, componentFace, componentFirst } = a;
  const least = 0.5 * GRID_STEP * GRID_STEP;
  let sum = 0;
  for (let f = 0; f < faceCount; f++) {
    sum += faceArea[f];
    const outline = walkArea(a, faceFirst[f]);
    // Twice the outline's area is a positive integer of grid steps.
    if (!(outline > 0.999 * least)) report(`the outline of face ${f} has the area ${outline} mm²`);
    if (!(faceArea[f] > -1e-9 * Math.max(1, outline))) report(`face ${f} has the area ${faceArea[f]} mm²`);
  }
  let enclosed = 0;
  let all = 0;
  for (let p = 0; p < componentFace.length; p++) {
    const area = -walkArea(a, componentFirst[p]);
    all += area;
    if (componentFace[p] < 0) enclosed += area;
  }
  if (Math.abs(sum - enclosed) > 1e-9 * Math.max(all, least))
    report(`the faces add up to ${sum} mm², the outermost walks enclose ${enclosed} mm²`);
}

function walkArea({ nodeX, nodeY, edgeFrom, edgeTo, next }: Arrangement, first: number): number {
  const x0 = nodeX[edgeFrom[first >> 1]];
  const y0 = nodeY[edgeFrom[first >> 1]];
  let twice = 0;
  let h = first;
  do {
    const [u, v] = (h & 1) === 0 ? [edgeFrom[h >> 1], edgeTo[h >> 1]] : [edgeTo[h >> 1], edgeFrom[h >> 1]];
    twice += (nodeX[v] - x0) * (nodeY[u] - y0) - (nodeX[u] - x0) * (nodeY[v] - y0);
    h = next[h];
  } while (h !== first);
  return (twice / 2) * GRID_STEP * GRID_STEP;
}

/** Adjacency is symmetric, ascending, positive, and each face's border adds up to its perimeter. */
function checkAdjacency(a: Arrangement, report: Report): void {
  const { adjacencyStart: start, adjacencyFace: face, adjacencyLength: length, faceCount } = a;
  const border = new Float64Array(faceCount);
  for (let e = 0; e < a.edgeFrom.length; e++) {
    const f = a.edgeLeft[e];
    const g = a.edgeRight[e];
    if (f === g) continue;
    const long =
      Math.hypot(
        a.nodeX[a.edgeTo[e]] - a.nodeX[a.edgeFrom[e]],
        a.nodeY[a.edgeTo[e]] - a.nodeY[a.edgeFrom[e]],
      ) * GRID_STEP;
    if (f >= 0) border[f] += long;
    if (g >= 0) border[g] += long;
  }
  for (let f = 0; f < faceCount; f++) {
    let sum = a.faceOutsideLength[f];
    for (let i = start[f]; i < start[f + 1]; i++) {
      const g = face[i];
      sum += length[i];
      if (!(length[i] > 0)) report(`faces ${f} and ${g} share a border of no length`);
      if (g === f) report(`face ${f} borders on itself`);
      if (i > start[f] && face[i - 1] >= g) report(`the neighbours of face ${f} are not in order`);
      let back = start[g];
      while (back < start[g + 1] && face[back] !== f) back++;
      if (back === start[g + 1] || Math.abs(length[back] - length[i]) > 1e-9 * length[i])
        report(`faces ${f} and ${g} do not agree on their border`);
    }
    if (Math.abs(sum - border[f]) > 1e-9 * Math.max(1, border[f]))
      report(`the borders of face ${f} do not add up`);
  }
}
