import { THROUGH } from './cutout-depths.js';
import type { DepthMark } from './depth-mark.js';
import type { Body, Cluster, Role } from './relief.js';
import type { Stack } from './stack.js';
import { stackHeight } from './stack-height.js';

/** What a region is made of, add-ons left aside. */
export interface Ground {
  readonly role: Role | null;
  /** Index of the body. */
  readonly body: number | null;
  /** Sheets cut away from the face of the body. */
  readonly down: number;
  /** Sheets that a recess asks for; null for others, and for a recess in an opening. */
  readonly asked: number | null;
  /** Sheets kept. */
  readonly depth: number | null;
  /** mm above the back */
  readonly height: number | null;
}

const UNKNOWN: Ground = { role: null, body: null, down: 0, asked: null, depth: null, height: null };

/**
 * The ground of every region. A cutout as deep as its host, or deeper, goes right through; one without a
 * single host has a role, but neither body nor height.
 */
export function groundOf(
  marks: readonly (DepthMark | null)[],
  clusters: readonly Cluster[],
  down: Float64Array,
  bodies: readonly Body[],
  stack: Stack,
): Ground[] {
  const ground: Ground[] = marks.map(() => UNKNOWN);
  const bodyOf = new Map<number, number>();
  bodies.forEach(({ region, sheets, thickness }, body) => {
    bodyOf.set(region, body);
    ground[region] = { role: 'piece', body, down: 0, asked: null, depth: sheets, height: thickness };
  });
  for (const cluster of clusters) {
    const body = cluster.host === null ? null : bodyOf.get(cluster.host)!;
    for (const region of cluster.regions) {
      ground[region] = cutoutGround(down[region], body, bodies, stack);
    }
  }
  return ground;
}

function cutoutGround(depth: number, body: number | null, bodies: readonly Body[], stack: Stack): Ground {
  const asked = depth === THROUGH ? null : depth;
  if (body === null) {
    if (asked === null) return { role: 'void', body, down: 0, asked, depth: 0, height: 0 };
    return { ...UNKNOWN, role: 'recess', asked };
  }
  const host = bodies[body];
  if (depth >= host.order.length) {
    return { role: 'opening', body, down: host.order.length, asked, depth: 0, height: 0 };
  }
  const height = stackHeight(stack, host.order.slice(depth));
  return { role: 'recess', body, down: depth, asked, depth: Math.max(0, host.sheets - depth), height };
}
