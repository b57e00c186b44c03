import type { CutPlan, CutStep, LooseWaste, Pass } from '../workshop/cut-plan.js';
import { boardAround } from '../workshop/waste-border.js';
import { joinWords } from './join-words.js';
import type { StepBlocks } from './plan-blocks.js';
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

/** Where the board around the picture comes apart with a step. */
export function apartSentences(
  { boardApart = [] }: CutStep,
  { apart, rest }: StepBlocks,
  names: PlanNames,
): string[] {
  if (boardApart.length === 0) return [];
  const parts = boardApart.map(({ place, regions }, i) => {
    const owners = names.owners(regions);
    return `${apart[i]} (${place}${owners.length === 0 ? '' : `, with ${joinWords(owners)}`})`;
  });
  const one = parts.length === 1;
  return [
    `The board comes apart: ${joinWords(parts)}. Only tape across the ways in holds ${one ? 'that' : 'them'} to what lies beside; the rest is still ${rest}. Write ${joinWords(apart)} on a bit of tape on ${one ? 'it' : 'them'}.`,
  ];
}

/** Numbers of the parts of the waste of the board that come off, in the order of the job: w1, w2 … */
export function wasteNumbers({ passes }: CutPlan): ReadonlyMap<LooseWaste, number> {
  const all = passes.flatMap(({ steps }) => steps.flatMap(({ wasteOff = [] }) => wasteOff));
  return new Map(all.map((waste, i) => [waste, i + 1]));
}

/** What is said of the waste of the board that comes off with a step. @param sheetNames sheets by their ids, in short */
export function wasteSentences(
  { passes, relief }: CutPlan,
  pass: Pass,
  { wasteOff = [], heldBy, sheets }: CutStep,
  sheetNames: (ids: readonly string[]) => string,
  numbers: ReadonlyMap<LooseWaste, number>,
): string[] {
  if (wasteOff.length === 0) return [];
  const places = wasteOff.map((waste) => {
    const only = waste.sheets.length === sheets.length ? '' : `, ${sheetNames(waste.sheets)} alone`;
    const place = waste.place === 'all round' ? 'all round the picture' : waste.place;
    return `w${numbers.get(waste)} (${place}, ${areaText(waste.area)}${only})`;
  });
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

/** `4 cm²`, `0.3 cm²`. */
function areaText(area: number): string {
  return `${area < 100 ? (area / 100).toFixed(1) : (area / 100).toFixed(0)} cm²`;
}
