import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';

/** The letter of each block of a setting, where there are several. */
export function blockLetter(place: number): string {
  const letter = String.fromCharCode(65 + (place % 26));
  return place < 26 ? letter : `${letter}${Math.floor(place / 26) + 1}`;
}

/** The place of the block that a step saws among those of its setting; undefined where that has only one. */
export function blockOfStep({ relief }: CutPlan, { blocks }: Pass, step: CutStep): number | undefined {
  if (blocks.length < 2) return undefined;
  const { left, right } = relief.map.edges[step.edges[step.edges.length - 1]];
  for (const region of [left, right]) {
    const b = blocks.findIndex(({ regions }) => regions.includes(region));
    if (b >= 0) return b;
  }
  return undefined;
}

/** What becomes of a lump that comes loose with a step. */
export interface LumpFate {
  readonly regions: readonly number[];
  /** How many steps on it is sawn, in the same setting; empty: not in this setting. */
  readonly sawnBy: readonly number[];
  /** Its letter from the next setting on; undefined: it has none. */
  readonly letter: string | undefined;
}

export function lumpFates(plan: CutPlan, pass: Pass, step: CutStep): LumpFate[] {
  const { edges } = plan.relief.map;
  const at = pass.steps.indexOf(step);
  const next = plan.passes[plan.passes.indexOf(pass) + 1];
  return (step.comesLoose ?? []).map((regions): LumpFate => {
    const own = new Set(regions);
    const sawnBy = pass.steps.flatMap((later, i) => {
      if (i <= at) return [];
      const last = edges[later.edges[later.edges.length - 1]];
      return own.has(last.left) || own.has(last.right) ? [i - at] : [];
    });
    const blocks = next?.phase === 'pass' ? next.blocks : [];
    const place = blocks.length < 2 ? -1 : blocks.findIndex((b) => b.regions.some((r) => own.has(r)));
    return { regions, sawnBy, letter: place < 0 ? undefined : blockLetter(place) };
  });
}
