import type { Relief } from '../relief/relief.js';
import { type Contact, findLooseParts } from './loose-parts.js';
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
  model:
    'length of the common border times the common height, summed over all borders between the part and the rest',
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
        fix: `Let it border on its neighbours over more length, ${Math.ceil(contact - held)} mm² more by the common height, tie it in with a bridge, or plan a board behind the picture.`,
      };
    });
  },
});

/** The parts as sets of regions. Pieces are nodes as a whole; as continuous sheets every region is one. */
function looseParts(relief: Relief, least: number): { regions: number[]; held: number }[] {
  const heights = woodHeights(relief);
  const nodeOf = Int32Array.from(relief.regions, ({ body }, region) => {
    if (heights[region] <= 0 || relief.map.regions[region].addOn) return -1;
    return relief.joint === 'pieces' ? (body ?? -1) : region;
  });
  const contacts: Contact[] = [];
  forEachPair(relief, ({ a, b, length }) => {
    if (nodeOf[a] < 0 || nodeOf[b] < 0 || nodeOf[a] === nodeOf[b]) return;
    contacts.push([nodeOf[a], nodeOf[b], length * Math.min(heights[a], heights[b])]);
  });
  const size = new Map<number, number>();
  const regionsOf = new Map<number, number[]>();
  nodeOf.forEach((node, region) => {
    if (node < 0) return;
    size.set(node, (size.get(node) ?? 0) + relief.map.regions[region].area);
    const own = regionsOf.get(node);
    if (own === undefined) regionsOf.set(node, [region]);
    else own.push(region);
  });
  if (size.size === 0) return [];
  return findLooseParts(contacts, size, least).map(({ nodes, held }) => ({
    regions: nodes.flatMap((node) => regionsOf.get(node)!).sort((a, b) => a - b),
    held,
  }));
}
