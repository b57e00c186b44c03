import { OUTSIDE, type RegionMap } from '../plane/region-map.js';
import { DisjointSets } from './disjoint-sets.js';
import { type WasteBorder, wayLine } from './waste-border.js';
import { partArea, type WastePart } from './waste-parts.js';

/** When a line or a way parts what lies beside it, in one setting: a step from 0 on, or one of these. */
export const BEFORE = -1;
export const NEVER = -2;

/** One setting, at its end. */
export interface PartedBoard {
  readonly map: RegionMap;
  readonly border: WasteBorder;
  /** The parts of the waste; those of one layer lie side by side, those of several one behind the other. */
  readonly parts: readonly { readonly part: WastePart; readonly layer: number }[];
  /** By edge: the step that parts its sides in the sheets held. */
  readonly partedAt: Int32Array;
  /** By number of the way: the step that saws it. Absent: before. */
  readonly wayAt: ReadonlyMap<number, number>;
  readonly steps: number;
}

/** Picture that hangs on parts of the waste, apart from the rest. */
export interface BoardLump {
  /** Ascending. */
  readonly regions: readonly number[];
  readonly parts: readonly WastePart[];
}

/**
 * What comes apart where the waste of the board is cut by ways: the picture holds its parts together until lines
 * between them are sawn. Told are all but the largest of what hung together before, by step, and in the end, under
 * `start`, what was apart from the beginning.
 *
 * Puts the setting together again backwards, so each line is looked at once.
 */
export function boardLumps(board: PartedBoard): {
  readonly start: readonly BoardLump[];
  readonly bySteps: readonly (readonly BoardLump[])[];
} {
  const hold = new Holding(board);
  const byStep: [number, number][][] = Array.from({ length: board.steps }, () => []);
  for (const [at, a, b] of hold.links()) {
    if (at === NEVER) hold.join(a, b);
    else if (at >= 0) byStep[at].push([a, b]);
  }
  const bySteps: (readonly BoardLump[])[] = byStep.map(() => []);
  for (let step = board.steps - 1; step >= 0; step--) bySteps[step] = hold.rejoin(byStep[step]);
  return { start: hold.apart(hold.all()), bySteps };
}

/** What is known of a set. */
interface Lump {
  /** Regions by their index, parts counted on from there. */
  readonly members: number[];
  regions: number;
  parts: number;
  /** mm² */
  area: number;
}

/** Regions and parts that hang together. */
class Holding {
  readonly #board: PartedBoard;
  readonly #sets: DisjointSets;
  /** By the set's name. */
  readonly #lumps: Lump[];

  constructor(board: PartedBoard) {
    const { map, parts } = board;
    this.#board = board;
    this.#sets = new DisjointSets(map.regions.length + parts.length);
    this.#lumps = [
      ...map.regions.map(({ area }, r) => ({ members: [r], regions: 1, parts: 0, area })),
      ...parts.map(({ part }, p) => ({
        members: [map.regions.length + p],
        regions: 0,
        parts: 1,
        area: partArea(part),
      })),
    ];
  }

  all(): number[] {
    return [...new Set(this.#lumps.map((_, i) => this.#sets.find(i)))];
  }

  /** All that hangs together at some time, with the step that parts it. */
  links(): [at: number, a: number, b: number][] {
    const { map, border, parts, partedAt, wayAt } = this.#board;
    const first = map.regions.length;
    const links: [number, number, number][] = [];
    const isBorder = new Set(border.lines);
    map.edges.forEach(({ left, right, kind }, e) => {
      const inPicture = left !== OUTSIDE && right !== OUTSIDE && !border.isWaste(left);
      if (kind === 'border' && inPicture && !isBorder.has(e)) {
        links.push([partedAt[e], left, right]);
      }
    });
    const byLine = new Map<number, number[]>();
    parts.forEach(({ part }, p) => {
      for (const line of new Set(part.loops.flat().map((corner) => corner.line))) {
        byLine.set(line, [...(byLine.get(line) ?? []), p]);
      }
    });
    for (const e of border.lines) {
      const beside = byLine.get(e) ?? [];
      for (const p of beside) links.push([partedAt[e], first + p, border.inner(e)]);
      // One behind the other at one line.
      for (const p of beside.slice(1)) {
        if (parts[p].layer !== parts[beside[0]].layer) links.push([NEVER, first + beside[0], first + p]);
      }
    }
    for (const [way, at] of wayAt) {
      const beside = byLine.get(wayLine(way)) ?? [];
      for (const p of beside) {
        for (const q of beside) {
          if (p < q && parts[p].layer === parts[q].layer) links.push([at, first + p, first + q]);
        }
      }
    }
    return links;
  }

  join(a: number, b: number): void {
    const [x, y] = [this.#sets.find(a), this.#sets.find(b)];
    if (x === y) return;
    this.#sets.join(x, y);
    const [one, two] = [this.#lumps[x], this.#lumps[y]];
    const [long, short] = one.members.length < two.members.length ? [two, one] : [one, two];
    for (const member of short.members) long.members.push(member);
    long.regions += short.regions;
    long.parts += short.parts;
    long.area += short.area;
    this.#lumps[this.#sets.find(x)] = long;
  }

  /** Joins, and tells what was apart before of what becomes one: all but the largest. */
  rejoin(pairs: readonly (readonly [number, number])[]): BoardLump[] {
    const before = this.#mixed(new Set(pairs.flat().map((node) => this.#sets.find(node))));
    const lumps = before.length < 2 ? [] : before.map((set) => this.#told(set));
    for (const [a, b] of pairs) this.join(a, b);
    const groups = new Map<number, TakenLump[]>();
    for (const lump of lumps) {
      const whole = this.#sets.find(lump.regions[0]);
      groups.set(whole, [...(groups.get(whole) ?? []), lump]);
    }
    return [...groups.values()].flatMap(allButLargest);
  }

  /** Of these sets all but the largest that has picture and waste. */
  apart(sets: readonly number[]): BoardLump[] {
    return allButLargest(this.#mixed(new Set(sets)).map((set) => this.#told(set)));
  }

  /** Sets that have picture and waste. */
  #mixed(sets: ReadonlySet<number>): number[] {
    return [...sets].filter((set) => this.#lumps[set].regions > 0 && this.#lumps[set].parts > 0);
  }

  #told(set: number): TakenLump {
    const { members, area } = this.#lumps[set];
    const first = this.#board.map.regions.length;
    return {
      regions: members.filter((node) => node < first).sort((a, b) => a - b),
      parts: members.flatMap((node) => (node < first ? [] : [this.#board.parts[node - first].part])),
      area,
    };
  }
}

interface TakenLump extends BoardLump {
  readonly area: number;
}

function allButLargest(lumps: readonly TakenLump[]): BoardLump[] {
  if (lumps.length < 2) return [];
  const largest = lumps.reduce((a, b) => (b.area > a.area ? b : a));
  return lumps
    .filter((lump) => lump !== largest)
    .map(({ regions, parts }) => ({ regions, parts }))
    .sort((a, b) => a.regions[0] - b.regions[0]);
}
