import { describe, expect, it } from 'vitest';
import { chainEdges } from '../../src/output/edge-chains.js';
import { materialEdges, sheetMaterial } from '../../src/output/sheet-material.js';
import { JOBS, reliefOf } from './jobs.js';

describe.each(JOBS)('%s', (path) => {
  const relief = reliefOf(path, 'pieces');
  const { map } = relief;
  const edges = materialEdges(map, sheetMaterial(relief, 0));
  const chains = chainEdges(map, edges);

  it('draws each edge once, in runs that hang together', () => {
    expect(chains.flatMap((chain) => chain.steps.map((step) => step.edge)).sort((a, b) => a - b)).toEqual(
      edges,
    );
    for (const { steps, closed } of chains) {
      const ends = steps.map(({ edge, forward }) => {
        const { from, to } = map.edges[edge];
        return forward ? [from, to] : [to, from];
      });
      for (let i = 1; i < ends.length; i++) expect(ends[i][0]).toBe(ends[i - 1][1]);
      expect(ends[0][0] === ends[ends.length - 1][1]).toBe(closed);
    }
  });

  it('lifts the pen only where lines branch', () => {
    const degree = new Map<number, number>();
    for (const edge of edges) {
      for (const node of [map.edges[edge].from, map.edges[edge].to])
        degree.set(node, (degree.get(node) ?? 0) + 1);
    }
    const branching = [...degree.values()]
      .filter((count) => count !== 2)
      .reduce((sum, count) => sum + count, 0);
    const open = chains.filter((chain) => !chain.closed).length;
    expect(2 * open).toBeLessThanOrEqual(branching);
  });
});
