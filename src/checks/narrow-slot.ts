import { areaBoundary } from '../geometry/narrow/area-boundary.js';
import { narrowPlaces } from '../geometry/narrow-places.js';
import type { Point } from '../geometry/point.js';
import { loopCurves } from '../plane/edge-curves.js';
import type { Relief } from '../relief/relief.js';
import { ROOM_PRECISION, roomIn } from './room-in.js';
import { type CheckInput, defineRule, type NoOptions, type RuleFinding, type RuleUnit } from './rule.js';
import { enough, nameOf, placeOf, round2 } from './words.js';

/** A cutout narrower than the blade is thick, wholly or in one place. Page: docs/checks/narrow-slot.md. */
export const narrowSlot = defineRule<'narrow-slot', NoOptions>({
  id: 'narrow-slot',
  group: 'strength',
  level: 'warning',
  summary: 'a cutout is narrower than the kerf',
  model:
    'width of the cutout at its narrowest place, or of its widest disc where all of it is narrow, against the thickness of the blade',
  defaults: {},
  find: (input) => slotUnits(input).flatMap((unit) => unit.find()),
  units: slotUnits,
});

/** One unit for each cutout: its width does not change with the numbers. */
function slotUnits({ relief, workshop }: CheckInput): RuleUnit[] {
  const kerf = workshop.blade.thickness;
  const units: RuleUnit[] = [];
  relief.regions.forEach(({ role }, region) => {
    if (role !== 'opening' && role !== 'recess' && role !== 'void') return;
    const name = nameOf(relief, region);
    units.push({ key: `${name} ${region} ${kerf}`, find: () => findSlots(relief, region, name, kerf) });
  });
  return units;
}

function findSlots(relief: Relief, region: number, name: string, kerf: number): RuleFinding[] {
  const { loops } = relief.map.regions[region];
  const room = roomIn(relief.map, region, kerf);
  const describe = (width: number, at: Point, what: string): RuleFinding => ({
    message: `${name} is ${round2(width)} mm wide${what}, and the blade takes ${round2(kerf)} mm.`,
    at,
    regions: [region],
    measured: { value: width, needed: kerf, unit: 'mm' },
    fix: `Draw it as one vein line, widen it to ${enough(kerf)} mm, or use a thinner blade.`,
  });
  if (room < kerf - ROOM_PRECISION) return [describe(room, placeOf(relief, region), '')];
  const boundary = areaBoundary(loops.map((loop) => loopCurves(relief.map, loop)));
  return narrowPlaces(boundary, kerf).map(({ width, at }) => describe(width, at, ' in one place'));
}
