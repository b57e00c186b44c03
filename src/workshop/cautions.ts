import type { Relief } from '../relief/relief.js';
import type { Pass } from './cut-plan.js';

/**
 * Smaller than this is small, mm²: a piece is not held by hand near the blade, and a block is stuck to scrap to be sawn by
 * itself. One size for all that is held. Common practice, no source: two fingers on each side of the blade.
 */
const SMALL_PIECE = 40 * 40;

/** Whether the piece of a region is so small that hands keep off while it is sawn. */
export function isSmallPiece({ map }: Relief, region: number): boolean {
  return isSmallArea(map.regions[region].area);
}

/** Whether stock of this area, mm², is too small to be held by hand near the blade. */
export function isSmallArea(area: number): boolean {
  return area < SMALL_PIECE;
}

const FIBRE = /\b(mdf|hdf|fibre ?board|fiber ?board|hardboard|particle ?board)\b/i;

/**
 * The usual cautions that apply to a job, in the order in which a person comes to them. They are common
 * practice, no source, and take the place of nothing: the tool's manual, local rules and qualified instruction
 * go before them.
 */
export function cautionsFor(relief: Relief, passes: readonly Pass[]): string[] {
  const steps = passes.flatMap((pass) => pass.steps);
  const drilled = steps.some((step) => step.start.kind === 'drill');
  const small = relief.bodies.some(({ region }) => isSmallPiece(relief, region));
  const fibre = relief.stack.sheets.some((sheet) => FIBRE.test(sheet.material));
  const list = [
    'These notes are general. The manuals of your tools, your local rules and qualified instruction go before them.',
    'Wear eye protection, and a dust mask that fits the dust you make; no gloves, loose sleeves or long loose hair at the saw or drill.',
    'Switch the saw off and unplug it before you change, thread or free a blade.',
  ];
  if (drilled) {
    list.push(
      'Drill on a backing board with the work clamped, not held by hand; keep hands clear of the bit.',
    );
  }
  if (small || relief.addOns.length > 0) {
    list.push(
      'Never hold a small piece by hand near the blade: leave it in its surround as long as you can, or stick it to a larger scrap.',
    );
  }
  if (fibre) {
    list.push(
      'Fibreboard and hardboard make very fine dust: extract it at the blade and wear a fitting respirator, also when sanding.',
    );
  }
  list.push(
    'Spray glue, solvents and finishes: fresh air, no flame, no spark, no hot tool near; rags can catch fire by themselves, so dry them flat outside.',
    'Keep the blade guard and hold-down in use, and your fingers out of the line of the blade.',
  );
  return list;
}
