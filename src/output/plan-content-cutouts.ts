import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block } from './plan-content.js';
import { joinNumbers } from './plan-words.js';

/** The regions of a relief where something is cut out of the picture, in their order: recesses, openings, voids. */
export function cutoutRegions({ relief: { map, regions } }: CutPlan): number[] {
  return regions.flatMap(({ role }, r) => {
    const { addOn, outsideLength } = map.regions[r];
    const isInner = role === 'void' && outsideLength === 0;
    return !addOn && (role === 'recess' || role === 'opening' || isInner) ? [r] : [];
  });
}

/** A table of all cutouts by the names that the steps and the drawing give them. Empty where there are none. */
export function cutoutBlocks(plan: CutPlan): Block[] {
  const cutouts = cutoutRegions(plan);
  if (cutouts.length === 0) return [];
  const { map, regions, bodies } = plan.relief;
  const steps = stepsByRegion(plan);
  const rows = cutouts.map((r) => {
    const { role, body, name, down } = regions[r];
    const host = body === null ? null : bodies[body];
    const through =
      role === 'recess' && host !== null ? host.order.slice(0, down).join(' ') : 'all: open to the back';
    return [map.regions[r].id, name ?? '', host?.id ?? '', through, joinNumbers(steps.get(r) ?? [])];
  });
  return [
    { kind: 'paragraph', text: 'Cutouts, by the names that the steps and the drawing give them:' },
    { kind: 'table', head: ['Cutout', 'Name', 'In', 'Taken out of', 'Step'], numbers: [], rows },
  ];
}

/** The numbers of the steps in which the waste of each region comes out, ascending; else those of its piece. */
function stepsByRegion({ passes }: CutPlan): ReadonlyMap<number, number[]> {
  const waste = new Map<number, number[]>();
  const pieces = new Map<number, number[]>();
  const add = (to: Map<number, number[]>, regions: readonly number[], number: number): void => {
    for (const r of new Set(regions)) to.set(r, [...(to.get(r) ?? []), number]);
  };
  let number = 0;
  for (const { phase, steps } of passes) {
    for (const { regions, frees, fallsOut = [] } of steps) {
      number++;
      if (phase === 'add-ons') continue;
      const out = [...(frees === 'waste' ? regions : []), ...fallsOut.flatMap((fallen) => fallen.regions)];
      add(waste, out, number);
      if (frees === 'piece') add(pieces, regions, number);
    }
  }
  return new Map([...pieces, ...waste]);
}
