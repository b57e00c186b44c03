import type { DepthMark } from './depth-mark.js';
import type { RegionClaims } from './number-claims.js';
import type { Body, Joint, ReliefRegion } from './relief.js';
import { orderPiece, type SheetOrder } from './sheet-order.js';
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
  const plain = new Map<number, SheetsOfBody>();
  marks.forEach((mark, region) => {
    if (mark?.kind !== 'piece') return;
    const count = Math.min(mark.sheets, stack.sheets.length);
    const { request } = claims[region];
    let own = request === null ? plain.get(count) : undefined;
    if (own === undefined) {
      const ordered = orderPiece(stack, count, joint, request);
      own = { ...ordered, thickness: stackHeight(stack, ordered.order) };
      if (request === null) plain.set(count, own);
    }
    bodies.push({
      id: `p${bodies.length + 1}`,
      region,
      sheets: count,
      order: own.order,
      recesses: NONE,
      openings: NONE,
      thickness: own.thickness,
      covered: NONE,
      spares: own.spares,
      refused: own.refused,
    });
  });
  return bodies;
}

interface SheetsOfBody extends SheetOrder {
  readonly thickness: number;
}

const NONE: readonly number[] = [];

/** The bodies with the recesses, openings and covered places that the regions say are theirs. */
export function withCutouts(bodies: readonly Body[], regions: readonly ReliefRegion[]): Body[] {
  const cutouts = new Map<number, { recess: number[]; opening: number[]; 'add-on': number[] }>();
  regions.forEach(({ role, body }, index) => {
    if (body === null || (role !== 'recess' && role !== 'opening' && role !== 'add-on')) return;
    let own = cutouts.get(body);
    if (own === undefined) {
      own = { recess: [], opening: [], 'add-on': [] };
      cutouts.set(body, own);
    }
    own[role].push(index);
  });
  return bodies.map((body, index) => {
    const own = cutouts.get(index);
    return own === undefined
      ? body
      : { ...body, recesses: own.recess, openings: own.opening, covered: own['add-on'] };
  });
}
