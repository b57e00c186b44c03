import type { Relief } from '../relief/relief.js';
import { forEachPair, woodHeights } from './material.js';
import { defineRule, type RuleFinding } from './rule.js';
import { namesOf, placeOf, round2 } from './words.js';

export interface FallsOutOptions {
  /** Least area by which a part must be held, mm². */
  readonly contact?: number;
  /** All pieces are glued to a board behind the picture, so nothing falls out. */
  readonly backing?: boolean;
}

/** Parts that nothing holds, or too little. Page: docs/checks/falls-out.md. */
export const fallsOut = defineRule<'falls-out', FallsOutOptions>({
  id: 'falls-out',
  group: 'build',
  level: 'error',
  summary: 'a part is not held by what surrounds it',
  model: 'length of the common border times the common height, summed over all borders with the rest',
  // A border of 8 mm between sheets of 3 mm; common practice, no source.
  defaults: { contact: 25, backing: false },
  find: ({ relief }, { contact, backing }) => {
    if (backing) return [];
    return looseParts(relief, contact).map(({ regions, held }): RuleFinding => {
      const names = namesOf(relief, regions);
      const apart = held === 0 && regions.some((region) => relief.map.regions[region].outsideLength > 0);
      return {
        message: apart
          ? `${names} stands apart: it touches no other piece and is a part of its own.`
          : held === 0
            ? `${names} touches nothing and falls out.`
            : `${names} is held by ${round2(held)} mm² only; ${contact} mm² are needed.`,
        at: placeOf(relief, regions[0]),
        regions,
        ...(held > 0 || apart ? { level: 'warning' } : {}),
        measured: { value: held, needed: contact, unit: 'mm²' },
        fix: 'Let it border on its neighbours over a greater length, tie it in with a bridge, or plan a board behind the picture.',
      };
    });
  },
});

interface LoosePart {
  /** Regions of pieces in it. */
  readonly regions: readonly number[];
  /** mm² */
  readonly held: number;
}

/**
 * What does not hold together with the largest part. Pieces (as continuous sheets: regions) with enough common
 * area are one part; a part joins the rest when all its contacts with it together are enough.
 */
function looseParts(relief: Relief, least: number): LoosePart[] {
  const heights = woodHeights(relief);
  const nodeOf = Int32Array.from(relief.regions, ({ body }, region) => {
    if (heights[region] <= 0 || relief.map.regions[region].addOn) return -1;
    return relief.joint === 'pieces' ? (body ?? -1) : region;
  });
  const count = Math.max(relief.regions.length, relief.bodies.length);
  const contacts = new Map<number, number>();
  forEachPair(relief, ({ a, b, length }) => {
    const [p, q] = [Math.min(nodeOf[a], nodeOf[b]), Math.max(nodeOf[a], nodeOf[b])];
    if (p < 0 || p === q) return;
    const key = p * count + q;
    contacts.set(key, (contacts.get(key) ?? 0) + length * Math.min(heights[a], heights[b]));
  });
  const part = Int32Array.from({ length: count }, (_, node) => node);
  for (const [key, area] of contacts) if (area >= least) join(part, Math.floor(key / count), key % count);
  const size = new Float64Array(count);
  nodeOf.forEach((node, region) => {
    if (node >= 0) size[root(part, node)] += relief.map.regions[region].area;
  });
  const main = size.indexOf(Math.max(...size));
  const held = joinToMain(part, main, contacts, count, least);
  const loose = new Map<number, number[]>();
  nodeOf.forEach((node, region) => {
    if (node < 0 || root(part, node) === root(part, main)) return;
    const own = loose.get(root(part, node)) ?? [];
    loose.set(root(part, node), [...own, region]);
  });
  return [...loose].map(([node, regions]) => ({ regions, held: held.get(node) ?? 0 }));
}

/** Joins parts to the main one while their contacts with it are enough; gives what holds each of the others. */
function joinToMain(
  part: Int32Array,
  main: number,
  contacts: ReadonlyMap<number, number>,
  count: number,
  least: number,
): Map<number, number> {
  for (;;) {
    const held = new Map<number, number>();
    for (const [key, area] of contacts) {
      const p = root(part, Math.floor(key / count));
      const q = root(part, key % count);
      if (p === q) continue;
      if (p === root(part, main)) held.set(q, (held.get(q) ?? 0) + area);
      else if (q === root(part, main)) held.set(p, (held.get(p) ?? 0) + area);
    }
    const enough = [...held].filter(([, area]) => area >= least);
    if (enough.length === 0) return held;
    for (const [node] of enough) join(part, node, main);
  }
}

function root(part: Int32Array, node: number): number {
  let at = node;
  while (part[at] !== at) {
    part[at] = part[part[at]];
    at = part[at];
  }
  return at;
}

function join(part: Int32Array, a: number, b: number): void {
  part[root(part, a)] = root(part, b);
}
