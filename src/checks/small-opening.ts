import type { CutPlan, CutStart } from '../workshop/cut-plan.js';
import { threadingHole } from '../workshop/default-workshop.js';
import { ROOM_PRECISION, roomIn } from './room-in.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { enough, nameOf, placeOf, round2 } from './words.js';

/** A cutout with no room for the hole through which the blade is threaded. Page: docs/checks/small-opening.md. */
export const smallOpening = defineRule<'small-opening', NoOptions>({
  id: 'small-opening',
  group: 'strength',
  level: 'error',
  summary: 'a cutout is too small for the smallest bit that passes the blade',
  model:
    'diameter of the largest circle in the cutout, against the smallest bit that passes the diagonal of the blade with its clearance',
  defaults: {},
  find: ({ relief, plan, workshop }) => {
    const hole = threadingHole(workshop);
    const bit = workshop.bits.find(({ diameter }) => diameter >= hole);
    const needed = bit?.diameter ?? hole;
    const tool = bit === undefined ? `a hole of ${round2(hole)} mm for the blade` : `the bit ${bit.name}`;
    const found: RuleFinding[] = [];
    relief.regions.forEach(({ role }, region) => {
      if (role !== 'opening' && role !== 'recess') return;
      const room = roomIn(relief.map, region, needed);
      const start = plan === null ? null : startOf(plan, region);
      if (
        room >= needed - ROOM_PRECISION ||
        (start !== null && start.kind !== 'drill') ||
        opensSideways(relief, region)
      )
        return;
      found.push({
        message: `${nameOf(relief, region)} has room for a circle of ${round2(room)} mm; ${tool} (${round2(needed)} mm) does not fit.`,
        at: placeOf(relief, region),
        regions: [region],
        measured: { value: room, needed, unit: 'mm' },
        fix: `Widen it till a circle of ${enough(needed)} mm fits in, use a smaller blade and bit, or draw it as a vein line.`,
      });
    });
    return found;
  },
});

function startOf(plan: CutPlan, region: number): CutStart | null {
  for (const pass of plan.passes) {
    for (const step of pass.steps) if (step.regions.includes(region)) return step.start;
  }
  return null;
}

/** The blade can come in from the outside. */
function opensSideways(
  relief: { map: { regions: readonly { outsideLength: number }[] } },
  region: number,
): boolean {
  return relief.map.regions[region].outsideLength > 0;
}
