import type { CutPlan, CutStep, LooseWaste, Pass } from '../workshop/cut-plan.js';

/** How a region stands in the sheets that are in the saw: whole, sawn away in some of them, or open. */
export type Standing = 'stays' | 'partly' | 'open';

/** The job at the moment before a step, or before a setting. */
export interface Progress {
  /** By region index. */
  standing(region: number, sheets: readonly string[]): Standing;
  /** Waste of the board that is off: open, or partly, in some of the sheets. */
  wasteOff(sheets: readonly string[]): { readonly waste: LooseWaste; readonly standing: Standing }[];
}

/** Walks through a plan, telling what is gone before each step. */
export function walkPlan(
  plan: CutPlan,
  visit: (progress: Progress, pass: Pass, step: CutStep | null, number: number) => void,
): void {
  const gone: Set<string>[] = plan.relief.map.regions.map(() => new Set());
  const standing = (region: number, sheets: readonly string[]): Standing => {
    const out = sheets.filter((sheet) => gone[region].has(sheet)).length;
    if (out === 0) return 'stays';
    return out === sheets.length ? 'open' : 'partly';
  };
  const off: LooseWaste[] = [];
  const wasteOff: Progress['wasteOff'] = (sheets) =>
    off.flatMap((waste) => {
      const out = sheets.filter((sheet) => waste.sheets.includes(sheet)).length;
      return out === 0 ? [] : [{ waste, standing: out === sheets.length ? 'open' : 'partly' }];
    });
  const progress = { standing, wasteOff };
  let number = 0;
  for (const pass of plan.passes) {
    visit(progress, pass, null, number);
    for (const r of pass.loose) for (const sheet of pass.sheets) gone[r].add(sheet);
    for (const step of pass.steps) {
      number++;
      visit(progress, pass, step, number);
      off.push(...(step.wasteOff ?? []));
      for (const { regions, sheets } of step.fallsOut ?? []) {
        for (const r of regions) for (const sheet of sheets) gone[r].add(sheet);
      }
      if (pass.phase === 'add-ons' || step.frees === 'block' || step.frees === 'nothing') continue;
      for (const r of step.regions) for (const sheet of step.sheets) gone[r].add(sheet);
    }
  }
}
