import type { BoardLump, CutPlan, CutStep, LooseWaste, Pass } from '../workshop/cut-plan.js';
import { boardAround } from '../workshop/waste-border.js';
import { joinWords } from './join-words.js';
import type { PlanNames } from './plan-names.js';
import type { Progress } from './plan-progress.js';
import { element } from './svg-markup.js';
import { wastePath } from './waste-path.js';

/** Digits of the border of waste in a picture. */
const DIGITS = 2;

/** The waste of the board as it is before a step: its edge, what is gone of it, and what comes off with these steps. */
export function boardWaste(
  { relief }: CutPlan,
  pass: Pass,
  steps: readonly CutStep[],
  progress: Progress,
): string[] {
  if (relief.frame !== 'cut' || pass.phase === 'add-ons') return [];
  const [x0, y0, x1, y1] = boardAround(relief.map);
  const before = progress.wasteOff(pass.sheets).map(({ waste, standing }) => wasteArea(waste, standing));
  const now = steps.flatMap(({ wasteOff = [] }) =>
    wasteOff.map((waste) =>
      wasteArea(waste, pass.sheets.every((id) => waste.sheets.includes(id)) ? 'waste' : 'partly'),
    ),
  );
  return [
    ...before,
    ...now,
    element('rect', { x: x0, y: y0, width: x1 - x0, height: y1 - y0, class: 'board' }),
  ];
}

function wasteArea({ loops }: LooseWaste, tone: string): string {
  return element('path', { d: wastePath(loops, DIGITS), class: `off ${tone}` });
}

/** Parts of the board by place and pieces: `top left with p8, and bottom with p50 and p51`. */
function lumpWords(lumps: readonly BoardLump[], names: PlanNames): string {
  return lumps
    .map(({ place, regions }) => {
      const owners = names.owners(regions);
      const what = owners.length === 0 ? '' : ` with ${joinWords(owners)}`;
      return `${place}${what}`;
    })
    .join('; ');
}

/** Where the board around the picture comes apart with a step, or is apart before a setting. */
export function apartSentences(
  { boardApart = [] }: Pick<CutStep, 'boardApart'>,
  names: PlanNames,
  isBefore: boolean,
): string[] {
  if (boardApart.length === 0) return [];
  const parts = lumpWords(boardApart, names);
  return isBefore
    ? [
        `The board is in ${boardApart.length + 1} parts by now, that only tape across the ways in holds together: ${parts}; and the rest. Where the tape lets go, saw each as a block of its own.`,
      ]
    : [
        `The board comes apart: ${parts}. Only tape across the ways in holds ${boardApart.length === 1 ? 'that' : 'them'} to the rest.`,
      ];
}

/** What is said of the waste of the board that comes off with a step. @param sheetNames sheets by their ids, in short */
export function wasteSentences(
  { passes, relief }: CutPlan,
  pass: Pass,
  { wasteOff = [], heldBy, sheets }: CutStep,
  sheetNames: (ids: readonly string[]) => string,
): string[] {
  if (wasteOff.length === 0) return [];
  const byPlace = new Map<string, number>();
  for (const waste of wasteOff) {
    const only = waste.sheets.length === sheets.length ? '' : ` (${sheetNames(waste.sheets)} alone)`;
    const place = waste.place === 'all round' ? 'all round the picture' : `${waste.place}`;
    byPlace.set(place + only, (byPlace.get(place + only) ?? 0) + 1);
  }
  const places = [...byPlace].map(([place, count]) => (count === 1 ? place : `${place} (${count} parts)`));
  const said = [`Waste of the board comes off: ${joinWords(places)}.`];
  const goesOn = passes.slice(passes.indexOf(pass)).some(({ phase, steps, blocks }, i) => {
    const later =
      i === 0
        ? pass.steps.length - 1 > pass.steps.findIndex((s) => s.wasteOff === wasteOff)
        : steps.length > 0;
    return (
      phase !== 'add-ons' &&
      relief.joint === 'pieces' &&
      later &&
      (i === 0 || blocks.some(({ board }) => board))
    );
  });
  if (heldBy === 0) {
    said.push(
      goesOn
        ? 'Nothing is left of it to hold the work by: from here on hold the work itself.'
        : 'That was the last of it.',
    );
  } else if (heldBy === 1 && goesOn) said.push('One part of it is left to hold the work by.');
  return said;
}
