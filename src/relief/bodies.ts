import type { DepthMark } from './depth-mark.js';
import type { RegionClaims } from './number-claims.js';
import type { Body, Joint, ReliefRegion } from './relief.js';
import { orderPiece } from './sheet-order.js';
import type { Stack } from './stack.js';
import { stackHeight } from './stack-height.js';

/**
 * One body for each region numbered as a piece, in the order of the regions, still without its cutouts. A
 * number above the stack counts as the whole stack, so that the rest can be worked out; a check reports it.
 */
export function makeBodies(
  stack: Stack,
  joint: Joint,
  marks: readonly (DepthMark | null)[],
  claims: readonly RegionClaims[],
): Body[] {
  const bodies: Body[] = [];
  marks.forEach((mark, region) => {
    if (mark?.kind !== 'piece') return;
    const count = Math.min(mark.sheets, stack.sheets.length);
    const { order, spares, refused } = orderPiece(stack, count, joint, claims[region].request);
    bodies.push({
      id: `p${bodies.length + 1}`,
      region,
      sheets: count,
      order,
      recesses: [],
      openings: [],
      thickness: stackHeight(stack, order),
      covered: [],
      spares,
      refused,
    });
  });
  return bodies;
}

/** The bodies with the recesses, openings and covered places that the regions say are theirs. */
export function withCutouts(bodies: readonly Body[], regions: readonly ReliefRegion[]): Body[] {
  const lists = bodies.map(() => ({
    recess: [] as number[],
    opening: [] as number[],
    'add-on': [] as number[],
  }));
  regions.forEach(({ role, body }, index) => {
    if (body === null) return;
    if (role === 'recess' || role === 'opening' || role === 'add-on') lists[body][role].push(index);
  });
  return bodies.map((body, index) => {
    const own = lists[index];
    return { ...body, recesses: own.recess, openings: own.opening, covered: own['add-on'] };
  });
}
