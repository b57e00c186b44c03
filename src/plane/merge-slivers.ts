/**
 * Merges slivers (faces in which no disc of the sliver tolerance fits) into a neighbour, without losing a line.
 *
 * One at a time, the smallest first (ties by place). Each gives up **one** run of its outline: the longest one
 * between two nodes that every point of the sliver's other lines is near, that is: every dropped point, of this run
 * and of earlier ones, lies within the tolerance of a line that stays. So k merges drop k runs, none of which had
 * one face on both sides; what else was drawn stays, at worst as a vein. A run that folds back on itself (both sides
 * of a closed strip) is dropped on one side only.
 *
 * A face that took in a sliver is looked at again. A sliver that can give up nothing stays, and is told.
 */
import { GRID_STEP, STEPS_PER_MM } from '../geometry/grid.js';
import type { Point } from '../geometry/point.js';
import { type Pole, poleOf } from '../geometry/pole.js';
import { eachNear, isCovered } from './covered-edges.js';
import type { FacedNet } from './net.js';
import { lengthOf, type OutlineRun, outlineRuns, ringsOf } from './outline-runs.js';
import { inBlocks, isTurnEnd, mapInTurns, within } from './steps.js';

/** A region narrower than the sliver tolerance, and where it lay. */
export interface Sliver {
  readonly at: Point;
  /** mm */
  readonly width: number;
  /** mm² */
  readonly area: number;
}

/** Slivers that were merged, those that could not be, and the edges to drop (1). */
export interface SliverMerge {
  readonly slivers: readonly Sliver[];
  readonly kept: readonly Sliver[];
  readonly drop: Uint8Array;
}

/** A face that may be a sliver: its outline (edges with another face on the other side). */
interface Candidate {
  readonly face: number;
  readonly border: readonly number[];
  readonly area: number;
  readonly pole: Pole;
}

/** What changes while slivers are merged. */
interface Merging {
  readonly faced: FacedNet;
  /** Grid steps: how far a dropped line may lie from one that stays. */
  readonly reach: number;
  readonly drop: Uint8Array;
  /** Edges left at each node. */
  readonly degree: Uint32Array;
  /** The face that each face went into, plus 1 for the outside at 0. */
  readonly into: Int32Array;
}

/** Finds the slivers narrower than `narrowest` mm, and the edges whose removal merges them. */
export function* findSlivers(faced: FacedNet, narrowest: number): Generator<number, SliverMerge> {
  const { net, faceCount } = faced;
  const slivers: Sliver[] = [];
  const kept: Sliver[] = [];
  const merging: Merging = {
    faced,
    // The pole is found to a step, a width to two.
    reach: narrowest * STEPS_PER_MM + 2,
    drop: new Uint8Array(net.edgeFrom.length),
    degree: degrees(faced),
    into: Int32Array.from({ length: faceCount + 1 }, (_, f) => f),
  };
  const waiting = (yield* within(narrowFaces(faced, narrowest), 0, 0.5)).sort(bySize);
  const candidates = new Map(waiting.map((one) => [one.face, one]));
  for (let next = 0; next < waiting.length; next++) {
    const one = waiting[next];
    if (isTurnEnd(next)) yield 0.5 + 0.5 * (next / waiting.length);
    if (candidates.get(one.face) !== one) continue;
    candidates.delete(one.face);
    const { pole, area, border, face } = one;
    const told: Sliver = { at: [pole.x, pole.y], width: 2 * pole.room, area };
    const run = runToDrop(merging, border);
    if (run === null) {
      kept.push(told);
      continue;
    }
    slivers.push(told);
    const other = dropRun(merging, face, run);
    const host = candidates.get(other);
    if (host === undefined) continue;
    candidates.delete(other);
    const outline = [...border, ...host.border].filter((e) => isBorder(merging, e));
    const joined = candidateOf(faced, other, outline, area + host.area, narrowest);
    if (joined === null) continue;
    candidates.set(other, joined);
    waiting.splice(placeIn(waiting, next + 1, joined), 0, joined);
  }
  return { slivers, kept, drop: merging.drop };
}

function bySize(a: Candidate, b: Candidate): number {
  return a.area - b.area || a.pole.y - b.pole.y || a.pole.x - b.pole.x;
}

/** Where a candidate goes among those that wait, from `first` on: after those of its size. */
function placeIn(waiting: readonly Candidate[], first: number, one: Candidate): number {
  let low = first;
  let high = waiting.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (bySize(one, waiting[middle]) < 0) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** A face that holds no disc of diameter `narrowest` mm; null for others. */
function candidateOf(
  { net }: FacedNet,
  face: number,
  border: readonly number[],
  area: number,
  narrowest: number,
): Candidate | null {
  // A face holds a disc of diameter 2·area/perimeter (area ≤ inradius · perimeter), so most pass at once.
  if (2 * area > narrowest * lengthOf(net, border) * GRID_STEP) return null;
  const pole = poleOf(ringsOf(net, border), GRID_STEP);
  return 2 * pole.room < narrowest ? { face, border, area, pole } : null;
}

function* narrowFaces(faced: FacedNet, narrowest: number): Generator<number, Candidate[]> {
  const { net, left, right, faceCount } = faced;
  const { area, perimeter } = yield* within(measure(faced), 0, 0.3);
  yield 0.3;
  const borders = new Map<number, number[]>();
  for (let f = 0; f < faceCount; f++) if (2 * area[f] <= narrowest * perimeter[f]) borders.set(f, []);
  if (borders.size === 0) return [];
  for (let e = 0; e < net.edgeFrom.length; e++) {
    if (left[e] === right[e]) continue;
    borders.get(left[e])?.push(e);
    borders.get(right[e])?.push(e);
  }
  const found = yield* mapInTurns([...borders], ([f, border]) =>
    candidateOf(faced, f, border, area[f], narrowest),
  );
  return found.filter((one) => one !== null);
}

/** The longest stretch of one run that can go; null where none can. */
function runToDrop(merging: Merging, border: readonly number[]): readonly number[] | null {
  const { net } = merging.faced;
  let best: readonly number[] | null = null;
  let longest = 0;
  for (const run of outlineRuns(net, border, merging.degree)) {
    if (Math.round(run.length) <= longest) break;
    const stretch = longestStretch(merging, run);
    const length = Math.round(lengthOf(net, stretch));
    if (length <= longest) continue;
    best = stretch;
    longest = length;
  }
  return best;
}

/** Of a run the longest stretch without which every dropped point still lies near a line: most often all of it. */
function longestStretch(merging: Merging, { edges, closed }: OutlineRun): readonly number[] {
  const { net, tree } = merging.faced;
  const gone = new Set<number>();
  const isLeft = (e: number): boolean => merging.drop[e] === 0 && !gone.has(e);
  const holdsAround = (e: number): boolean => {
    let holds = true;
    eachNear(net, tree, e, merging.reach, (f) => {
      if (holds && !isLeft(f)) holds = isCovered(net, tree, f, merging.reach, isLeft);
    });
    return holds;
  };
  const round = closed ? [...edges, ...edges] : edges;
  const lengths = round.map((e) => lengthOf(net, [e]));
  let best: readonly [number, number] = [0, 0];
  let longest = 0;
  let length = 0;
  let from = 0;
  const giveBack = (): void => {
    gone.delete(round[from]);
    length -= lengths[from++];
  };
  for (let to = 0; to < round.length; to++) {
    // Round a ring once at most.
    if (closed && to - from === edges.length) giveBack();
    gone.add(round[to]);
    length += lengths[to];
    while (from <= to && !holdsAround(round[to])) giveBack();
    if (from > to || Math.round(length) <= longest) continue;
    best = [from, to + 1];
    longest = Math.round(length);
  }
  return round.slice(...best);
}

/** Drops a run and joins the face with the one across, which is returned. */
function dropRun({ faced, drop, degree, into }: Merging, face: number, run: readonly number[]): number {
  const { net, left, right } = faced;
  const [one, other] = [rootOf(into, left[run[0]]), rootOf(into, right[run[0]])];
  const across = one === face ? other : one;
  for (const e of run) {
    drop[e] = 1;
    degree[net.edgeFrom[e]]--;
    degree[net.edgeTo[e]]--;
  }
  into[face + 1] = across + 1;
  return across;
}

function isBorder({ faced, drop, into }: Merging, e: number): boolean {
  return drop[e] === 0 && rootOf(into, faced.left[e]) !== rootOf(into, faced.right[e]);
}

function rootOf(into: Int32Array, face: number): number {
  let at = face + 1;
  while (into[at] !== at) {
    into[at] = into[into[at]];
    at = into[at];
  }
  return at - 1;
}

function degrees({ net }: FacedNet): Uint32Array {
  const degree = new Uint32Array(net.nodeX.length);
  for (let e = 0; e < net.edgeFrom.length; e++) {
    degree[net.edgeFrom[e]]++;
    degree[net.edgeTo[e]]++;
  }
  return degree;
}

/** Areas by face, mm², and what their perimeters (both sides of holes counted) are at most, mm. */
interface FaceSizes {
  readonly area: Float64Array;
  readonly perimeter: Float64Array;
}

function* measure(faced: FacedNet): Generator<number, FaceSizes> {
  const sizes: FaceSizes = {
    area: new Float64Array(faced.faceCount),
    perimeter: new Float64Array(faced.faceCount),
  };
  yield* inBlocks(faced.left.length, (from, to) => addEdges(faced, sizes, from, to));
  return sizes;
}

function addEdges(
  { net, left, right }: FacedNet,
  { area, perimeter }: FaceSizes,
  from: number,
  to: number,
): void {
  const { nodeX, nodeY, edgeFrom, edgeTo } = net;
  const x0 = nodeX[0];
  const y0 = nodeY[0];
  for (let e = from; e < to; e++) {
    if (left[e] === right[e]) continue;
    const ax = nodeX[edgeFrom[e]] - x0;
    const ay = nodeY[edgeFrom[e]] - y0;
    const bx = nodeX[edgeTo[e]] - x0;
    const by = nodeY[edgeTo[e]] - y0;
    const twice = (bx * ay - ax * by) * GRID_STEP * GRID_STEP;
    const length = (Math.abs(bx - ax) + Math.abs(by - ay)) * GRID_STEP;
    if (left[e] >= 0) {
      area[left[e]] += twice / 2;
      perimeter[left[e]] += length;
    }
    if (right[e] >= 0) {
      area[right[e]] -= twice / 2;
      perimeter[right[e]] += length;
    }
  }
}
