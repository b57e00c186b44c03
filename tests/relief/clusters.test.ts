import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Relief } from '../../src/relief/relief.js';
import { stackHeight } from '../../src/relief/stack-height.js';
import { cellRelief } from '../support/cells.js';

const SIDE = 6;
const NUMBERS: Readonly<Record<string, string>> = { a: '3', b: '2', c: '1', d: '-1', e: '-2', f: '0' };

/** Grids of letters in which cutouts are frequent enough to form groups, rings and islands. */
const grids = fc
  .array(fc.array(fc.constantFrom(...'aaabcddef'), { minLength: SIDE, maxLength: SIDE }), {
    minLength: SIDE,
    maxLength: SIDE,
  })
  .map((rows) => rows.map((row) => row.join('')));

const isRelative = (relief: Relief, region: number): boolean => {
  const kind = relief.regions[region].mark?.kind;
  return kind === 'opening' || kind === 'recess';
};

/** Regions that can be reached from the outside without passing a group. */
function outsideOf(relief: Relief, group: readonly number[]): Set<number> {
  const { regions } = relief.map;
  const reached = new Set<number>();
  regions.forEach((region, index) => {
    if (region.outsideLength > 0 && !group.includes(index)) reached.add(index);
  });
  for (const at of reached) {
    for (const { region } of regions[at].neighbours) if (!group.includes(region)) reached.add(region);
  }
  return reached;
}

describe('findClusters on random grids', () => {
  it('groups what shares border, and finds what lies along the outer boundary', () => {
    fc.assert(
      fc.property(grids, (rows) => {
        const { relief } = cellRelief(rows, NUMBERS, '6 mm oak, 3x 3 mm birch');
        const { regions } = relief.map;
        const grouped = relief.clusters.flatMap((cluster) => cluster.regions);
        expect([...grouped].sort((a, b) => a - b)).toEqual(
          [...regions.keys()].filter((region) => isRelative(relief, region)),
        );
        for (const { regions: group, host, around, touchesOutside } of relief.clusters) {
          const beside = new Set(group.flatMap((r) => regions[r].neighbours.map((n) => n.region)));
          for (const other of beside) expect(group.includes(other)).toBe(isRelative(relief, other));
          const outside = outsideOf(relief, group);
          const pieces = [...beside].filter((r) => !isRelative(relief, r) && outside.has(r));
          expect([...around]).toEqual(pieces.sort((a, b) => a - b));
          expect(touchesOutside).toBe(group.some((r) => regions[r].outsideLength > 0));
          const openAtEdge = touchesOutside && group.every((r) => relief.regions[r].mark?.kind === 'opening');
          expect(host).toBe(pieces.length === 1 && !openAtEdge ? pieces[0] : null);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('gives every region with a body the height of the sheets that it keeps', () => {
    fc.assert(
      fc.property(grids, fc.constantFrom('pieces', 'continuous'), (rows, joint) => {
        const { relief } = cellRelief(rows, NUMBERS, '6 mm oak, 3x 3 mm birch', { joint });
        relief.regions.forEach(({ body, down, height, depth, role }, region) => {
          if (body === null) return;
          const own = relief.bodies[body];
          expect(height).toBeCloseTo(stackHeight(relief.stack, own.order.slice(down)), 9);
          expect(depth).toBe(own.order.length - down);
          const listed = role === 'recess' ? own.recesses : role === 'opening' ? own.openings : [own.region];
          expect(listed).toContain(region);
        });
      }),
      { numRuns: 30 },
    );
  });
});
