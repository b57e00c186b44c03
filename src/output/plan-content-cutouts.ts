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

/** The numbers of the steps in which each region comes out, ascending. */
function stepsByRegion({ passes }: CutPlan): ReadonlyMap<number, number[]> {
  const steps = new Map<number, number[]>();
  let number = 0;
  for (const { phase, steps: own } of passes) {
    for (const { regions, frees, fallsOut = [] } of own) {
      number++;
      if (phase === 'add-ons') continue;
      const out = [
        ...(frees === 'waste' || frees === 'piece' ? regions : []),
        ...fallsOut.flatMap((f) => f.regions),
      ];
      for (const r of new Set(out)) steps.set(r, [...(steps.get(r) ?? []), number]);
    }
  }
  return steps;
}
