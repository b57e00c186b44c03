import { demandStage, shown } from '../arguments.js';
import { PlystepError } from '../error.js';
import type { Sheet } from '../relief/stack.js';
import type { CutPlan } from './cut-plan.js';
import { paceOf, sawMinutes, timeRange } from './saw-time.js';

/** What it takes to saw so many copies together. */
export interface CopiesRow {
  /** Copies in one stack. */
  readonly together: number;
  /** The highest setting, mm. */
  readonly height: number;
  /** How often the job is done. */
  readonly runs: number;
  /** Minutes for all copies, and for each. */
  readonly minutes: number;
  readonly minutesPerCopy: number;
  readonly minutesPerCopyRange: readonly [least: number, most: number];
}

/**
 * Sheets of one thickness and different looks, and the pieces whose parts in them have one outline: with copies sawn
 * together, any part of the set can take the place of any other, in its own piece or in that of another copy.
 */
export interface TradeSet {
  /** mm */
  readonly thickness: number;
  readonly sheets: readonly string[];
  /** Ids of the pieces that have a part of one outline in each of these sheets. */
  readonly pieces: readonly string[];
}

/** How many copies to saw at once, and the table behind it. */
export interface CopiesTable {
  readonly copies: number;
  /** The row that takes least time for a copy; null where the saw takes not even one. */
  readonly best: CopiesRow | null;
  /** Ascending by copies together. */
  readonly rows: readonly CopiesRow[];
  readonly trades: readonly TradeSet[];
}

/** Rows of the table at most. */
const MOST_TOGETHER = 64;

/**
 * For `copies` copies of a job: the time for each, by how many are sawn in one stack (every sheet of the stack
 * as many times), up to the height that the saw takes. Set-up, threading, holes and corners come once a run;
 * sawing by the feed model of `sawMinutes`, so that a stack above the easy height loses what it saves. Of equal
 * times the lower stack counts as better. Throws `bad-option` unless `copies` is a whole number of 1 or more.
 */
export function copiesAtOnce(plan: CutPlan, copies: number): CopiesTable {
  demandStage(plan, ['plan'], 'copiesAtOnce');
  if (!Number.isInteger(copies) || copies < 1) {
    throw new PlystepError('bad-option', `Copies: ${shown(copies)}; it must be a whole number, 1 or more.`);
  }
  const highest = Math.max(0, ...plan.passes.map((pass) => pass.height));
  const rows: CopiesRow[] = [];
  for (let together = 1; together <= Math.min(copies, MOST_TOGETHER); together++) {
    const height = highest * together;
    if (height > plan.workshop.maxHeight) break;
    const full = Math.floor(copies / together);
    const rest = copies % together;
    const minutes = full * runMinutes(plan, together) + (rest > 0 ? runMinutes(plan, rest) : 0);
    const minutesPerCopy = minutes / copies;
    const minutesPerCopyRange = timeRange(plan.workshop, minutesPerCopy);
    rows.push({
      together,
      height,
      runs: full + (rest > 0 ? 1 : 0),
      minutes,
      minutesPerCopy,
      minutesPerCopyRange,
    });
  }
  const best = rows.reduce<CopiesRow | null>(
    (a, b) => (a === null || b.minutesPerCopy < a.minutesPerCopy ? b : a),
    null,
  );
  return { copies, best, rows, trades: tradeSets(plan) };
}

/** Minutes for one run with so many copies in the stack. */
function runMinutes(plan: CutPlan, together: number): number {
  const { workshop, passes } = plan;
  const pace = paceOf(workshop);
  let minutes = workshop.setupMinutes;
  for (const pass of passes) {
    minutes += pace * pass.moves.length * together * workshop.moveMinutes;
    for (const { length, corners, start } of pass.steps) {
      const height = pass.height * together;
      const threaded = start.threaded || start.released === true;
      const work = { length, height, corners, threaded, drilled: start.kind === 'drill' };
      minutes += sawMinutes(workshop, work, pace);
    }
  }
  return minutes;
}

/** Thicknesses nearer than this count as one, mm: less than a sheet of paper. */
const SAME_THICKNESS = 0.05;

function tradeSets({ relief }: CutPlan): TradeSet[] {
  const { sheets } = relief.stack;
  const sheetAt = new Map(sheets.map((sheet) => [sheet.id, sheet]));
  const sets = new Map<string, { thickness: number; sheets: string[]; pieces: string[] }>();
  relief.bodies.forEach(({ id, order }, b) => {
    // A recess takes the first sheets of a piece: a part above its floor has another outline than one below.
    const cuts = relief.regions.flatMap(({ body, down }) => (body === b && down > 0 ? [down] : []));
    const groups = new Map<string, string[]>();
    order.forEach((sheet, j) => {
      const { thickness } = sheetAt.get(sheet)!;
      const key = `${Math.round(thickness / SAME_THICKNESS)} ${cuts.filter((down) => down > j).length}`;
      groups.set(key, [...(groups.get(key) ?? []), sheet]);
    });
    for (const own of groups.values()) {
      if (new Set(own.map((sheet) => looksOf(sheetAt.get(sheet)!))).size < 2) continue;
      const ids = sheets.map((sheet) => sheet.id).filter((sheet) => own.includes(sheet));
      const set = sets.get(ids.join(' '));
      if (set !== undefined) set.pieces.push(id);
      else sets.set(ids.join(' '), { thickness: sheetAt.get(ids[0])!.thickness, sheets: ids, pieces: [id] });
    }
  });
  return [...sets.values()];
}

function looksOf({ material, face, color }: Sheet): string {
  return `${material} ${face ?? ''} ${color ?? ''}`;
}
