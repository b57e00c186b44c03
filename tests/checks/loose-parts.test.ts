import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addContact, type ContactGraph, findLooseParts } from '../../src/checks/loose-parts.js';

const NODES = 7;

const graphs = fc.array(fc.tuple(fc.nat(NODES - 1), fc.nat(NODES - 1), fc.integer({ min: 1, max: 12 })), {
  maxLength: 14,
});

function graphOf(contacts: readonly (readonly [number, number, number])[]): ContactGraph {
  const graph: ContactGraph = new Map();
  for (const [a, b, area] of contacts) if (a !== b) addContact(graph, a, b, area);
  return graph;
}

/** Contact between a set of nodes, as bits, and all others. */
function cutOf(graph: ContactGraph, set: number): number {
  let cut = 0;
  for (const [a, contacts] of graph) {
    for (const [b, area] of contacts) if ((set >> a) & 1 && !((set >> b) & 1)) cut += area;
  }
  return cut;
}

describe('findLooseParts', () => {
  it('agrees with trying out every set of nodes', () => {
    const size = new Map([...Array(NODES).keys()].map((node) => [node, node === 0 ? 1000 : 1]));
    fc.assert(
      fc.property(graphs, fc.integer({ min: 1, max: 20 }), (contacts, least) => {
        const graph = graphOf(contacts);
        const parts = findLooseParts(graph, size, least);
        const loose = new Set(parts.flatMap(({ nodes }) => nodes));
        for (const { nodes, held } of parts) {
          const bits = nodes.reduce((set, node) => set | (1 << node), 0);
          expect(held).toBe(cutOf(graph, bits));
          expect(held).toBeLessThan(least);
        }
        for (let node = 1; node < NODES; node++) {
          let smallest = Number.POSITIVE_INFINITY;
          for (let set = 0; set < 1 << NODES; set += 2) {
            if ((set >> node) & 1) smallest = Math.min(smallest, cutOf(graph, set));
          }
          expect(loose.has(node)).toBe(smallest < least);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('lets two weak parts hold each other', () => {
    const graph = graphOf([
      [0, 1, 20],
      [0, 2, 20],
      [1, 2, 20],
    ]);
    const size = new Map([
      [0, 9],
      [1, 1],
      [2, 1],
    ]);
    expect(findLooseParts(graph, size, 40)).toEqual([]);
    expect(findLooseParts(graph, size, 41)).not.toEqual([]);
  });
});
