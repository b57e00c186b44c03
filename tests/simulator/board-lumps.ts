import type { BoardWaste, SheetState } from './board-waste.js';
import { sampleRun, type XY } from './flat-path.js';
import { OUTSIDE, type PlanWorld } from './plan-world.js';

const STEP = 1.2;
const BESIDE = 0.05;
const ON_LINE = 0.03;

/** A place at a border between two regions. */
interface Contact {
  readonly at: XY;
  readonly a: string;
  readonly b: string;
}

/** What hangs together of picture and board, worked out anew from lines sawn and regions gone. */
export class BoardLumps {
  readonly #waste: BoardWaste;
  readonly #contacts: Contact[] = [];
  readonly #state: (sheet: string) => SheetState;

  constructor(world: PlanWorld, waste: BoardWaste, state: (sheet: string) => SheetState) {
    this.#waste = waste;
    this.#state = state;
    for (const { id, runs } of world.inStack) {
      for (const run of runs) {
        for (const {
          at,
          along: [ux, uy],
        } of sampleRun([...run, run[0]], STEP)) {
          const sides: XY[] = [
            [at[0] + BESIDE * uy, at[1] - BESIDE * ux],
            [at[0] - BESIDE * uy, at[1] + BESIDE * ux],
          ];
          const other = sides.map((p) => world.at(p)).find((cell) => cell !== id && cell !== OUTSIDE);
          if (other !== undefined) this.#contacts.push({ at, a: id, b: other });
        }
      }
    }
  }

  /** The regions of every lump that has picture and waste of the board in it, in the sheets held. */
  lumps(sheets: readonly string[]): string[][] {
    const links: [string, string][] = [];
    const parts = new Set<string>();
    const seen = new Set<string>();
    for (const sheet of sheets) {
      const { sawn, gone } = this.#state(sheet);
      for (const { at, a, b } of this.#contacts) {
        const key = `${a} ${b}`;
        if (seen.has(key) || gone.has(a) || gone.has(b) || sawn.distance(at, ON_LINE) <= ON_LINE) continue;
        if (this.#waste.isAround(a, sheet) || this.#waste.isAround(b, sheet)) continue;
        seen.add(key);
        links.push([a, b]);
      }
      for (const { name, holds } of this.#waste.held(sheet)) {
        parts.add(name);
        for (const region of holds) links.push([name, region]);
      }
    }
    for (const [a, b] of this.#waste.overOneAnother(sheets)) links.push([a, b]);
    return [...joined(links).values()]
      .filter((members) => members.some((m) => parts.has(m)) && members.some((m) => !parts.has(m)))
      .map((members) => members.filter((m) => !parts.has(m)).sort());
  }
}

/** What links join, by search. */
function joined(links: readonly (readonly [string, string])[]): Map<string, string[]> {
  const beside = new Map<string, string[]>();
  for (const [a, b] of links) {
    beside.set(a, [...(beside.get(a) ?? []), b]);
    beside.set(b, [...(beside.get(b) ?? []), a]);
  }
  const lumps = new Map<string, string[]>();
  const done = new Set<string>();
  for (const first of beside.keys()) {
    if (done.has(first)) continue;
    const members: string[] = [];
    const pending = [first];
    for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
      if (done.has(next)) continue;
      done.add(next);
      members.push(next);
      pending.push(...beside.get(next)!);
    }
    lumps.set(first, members);
  }
  return lumps;
}

/** What came apart: of every lump of before all lumps but one, by what the plan tells. */
export function checkApart(
  before: readonly (readonly string[])[] | null,
  after: readonly (readonly string[])[],
  told: readonly (readonly string[])[],
): string[] {
  const wrong: string[] = [];
  const groups =
    before === null
      ? [after]
      : before.map((lump) => after.filter((part) => part.some((r) => lump.includes(r))));
  const due = groups.reduce((sum, group) => sum + Math.max(0, group.length - 1), 0);
  if (due !== told.length) wrong.push(`${due} parts of the board come apart, the plan says ${told.length}`);
  for (const lump of told) {
    if (!after.some((part) => [...part].sort().join() === [...lump].sort().join()))
      wrong.push(
        `the board with ${lump.join()} is no part by itself: ${after.map((p) => p.join()).join(' | ')}`,
      );
  }
  return wrong;
}
