import type { Relief } from '../relief/relief.js';
import type { Pass, PlanPiece } from './cut-plan.js';

/** Adds to each piece the sheets that come off the saw with it and are not its own. */
export function withSpareSheets(
  relief: Relief,
  pieces: readonly PlanPiece[],
  passes: readonly Pass[],
): PlanPiece[] {
  const sawn = new Map<number, readonly string[]>();
  for (const { phase, sheets, loose, steps } of passes) {
    if (phase === 'add-ons') continue;
    for (const r of loose) sawn.set(r, sheets);
    for (const step of steps)
      if (step.frees === 'piece') for (const r of step.regions) sawn.set(r, step.sheets);
  }
  const place = new Map(relief.stack.sheets.map(({ id }, j) => [id, j]));
  return pieces.map((piece) => {
    const spare = (sawn.get(piece.region) ?? []).filter((id) => !piece.sheets.includes(id));
    if (spare.length === 0) return piece;
    return { ...piece, spare: [...spare].sort((a, b) => place.get(a)! - place.get(b)!) };
  });
}
