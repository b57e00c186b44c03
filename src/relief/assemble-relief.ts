import type { RegionMap } from '../plane/region-map.js';
import { makeAddOns, seatGround } from './add-ons.js';
import { findBases, mergedNeighbours } from './bases.js';
import { makeBodies, withCutouts } from './bodies.js';
import { findClusters } from './clusters.js';
import { cutoutDepths } from './cutout-depths.js';
import type { DepthMark } from './depth-mark.js';
import { type Ground, groundOf } from './ground.js';
import { type CollectedClaims, chosenClaim } from './number-claims.js';
import type { AddOn, Frame, Joint, Relief, ReliefRegion } from './relief.js';
import type { Stack } from './stack.js';

/** A valid stack and how to build from it. */
export interface ReliefSettings {
  readonly stack: Stack;
  readonly joint: Joint;
  readonly frame: Frame;
}

/** Builds the relief from numbers that are already with their regions: steps 2 to 5 of `buildRelief`. */
export function assembleRelief(map: RegionMap, collected: CollectedClaims, settings: ReliefSettings): Relief {
  const { stack, joint } = settings;
  const chosen = collected.regions.map(({ claims }) => chosenClaim(claims));
  const marks = chosen.map((claim, index) =>
    map.regions[index].addOn ? asAddOn(claim?.mark) : (claim?.mark ?? null),
  );
  const base = findBases(map, marks);
  const neighbours = mergedNeighbours(map, base);
  const clusters = findClusters(map, marks, base, neighbours);
  const down = cutoutDepths(marks, clusters, neighbours);
  const bodies = makeBodies(stack, joint, marks, collected.regions);
  const ground = groundOf(marks, clusters, down, bodies, stack);
  const addOns = makeAddOns(map, stack, marks, collected.regions, base);
  const addOnAt = new Map(addOns.map((addOn) => [addOn.region, addOn]));
  const regions = collected.regions.map(({ claims, name, request }, index): ReliefRegion => {
    const addOn = addOnAt.get(index);
    const { role, body, down, asked, depth, height } =
      addOn === undefined ? ground[index] : addOnGround(addOn, ground);
    const label = chosen[index]?.text ?? claims[0]?.text ?? null;
    // Written out, since spreading objects takes most of the time of renumbering.
    return { label, mark: marks[index], role, claims, depth, body, down, asked, height, name, request };
  });
  return {
    map,
    stack,
    joint,
    frame: settings.frame,
    regions,
    clusters,
    bodies: withCutouts(bodies, regions),
    addOns,
    unplaced: collected.unplaced,
    findings: [],
  };
}

/** An add-on has the ground of its seat; one of its own shape belongs to no piece. */
function addOnGround(addOn: AddOn, ground: readonly Ground[]): Ground {
  const seat = seatGround(ground, addOn.seats);
  const height = seat === null || seat.height === null ? null : seat.height + addOn.thickness;
  return {
    role: 'add-on',
    body: addOn.shared ? (seat?.body ?? null) : null,
    down: addOn.shared ? (seat?.down ?? 0) : 0,
    asked: null,
    depth: seat?.depth ?? null,
    height,
  };
}

/** An add-on that was mapped on its own stays one, whatever number it gets; a check reports another number. */
function asAddOn(mark: DepthMark | null | undefined): DepthMark {
  return mark?.kind === 'add-on' ? mark : { kind: 'add-on', sheets: 1 };
}
