import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Contact, findLooseParts } from '../../src/checks/loose-parts.js';

const NODES = 7;

const graphs = fc
  .array(fc.tuple(fc.nat(NODES - 1), fc.nat(NODES - 1), fc.integer({ min: 1, max: 12 })), { maxLength: 14 })
  .map((contacts): Contact[] => contacts.filter(([a, b]) => a !== b));

/** Contact between a set of nodes, as bits, and all others. */
function cutOf(contacts: readonly Contact[], set: number): number {
  const apart = contacts.filter(([a, b]) => ((set >> a) & 1) !== ((set >> b) & 1));
  return apart.reduce((cut, [, , area]) => cut + area, 0);
}

describe('findLooseParts', () => {
  it('agrees with trying out every set of nodes', () => {
    const size = new Map([...Array(NODES).keys()].map((node) => [node, node === 0 ? 1000 : 1]));
    fc.assert(
      fc.property(graphs, fc.integer({ min: 1, max: 20 }), (contacts, least) => {
        const parts = findLooseParts(contacts, size, least);
        const loose = new Set(parts.flatMap(({ nodes }) => nodes));
        for (const { nodes, held } of parts) {
          const bits = nodes.reduce((set, node) => set | (1 << node), 0);
          expect(held).toBe(cutOf(contacts, bits));
          expect(held).toBeLessThan(least);
        }
        for (let node = 1; node < NODES; node++) {
          let smallest = Number.POSITIVE_INFINITY;
          for (let set = 0; set < 1 << NODES; set += 2) {
            if ((set >> node) & 1) smallest = Math.min(smallest, cutOf(contacts, set));
          }
          expect(loose.has(node)).toBe(smallest < least);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('lets two weak parts hold each other', () => {
    const contacts: Contact[] = [
      [0, 1, 20],
      [0, 2, 20],
      [1, 2, 20],
    ];
    const size = new Map([
      [0, 9],
      [1, 1],
      [2, 1],
    ]);
    expect(findLooseParts(contacts, size, 40)).toEqual([]);
    expect(findLooseParts(contacts, size, 41)).not.toEqual([]);
  });
});
