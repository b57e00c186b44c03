import type { CutStep } from '../workshop/cut-plan.js';
import { partsOf } from './kerf-routes.js';
import { goesByWay } from './open-ways.js';
import type { PlanCanvas } from './plan-canvas.js';
import { beginsApart, comesFromOutside, eyeMark, goesThroughGap } from './plan-marks.js';
import { textElement } from './svg-markup.js';

/** What the pictures of a plan show, as far as this plan has it. */
export function legendHtml({ plan: { passes, relief }, blocks }: PlanCanvas): string {
  const steps = passes.flatMap((pass) => pass.steps);
  const isOther = (step: CutStep): boolean => blocks.step(step).change !== undefined;
  const some = (test: (step: (typeof steps)[number]) => boolean): boolean => steps.some(test);
  const entries: readonly (readonly [has: boolean, swatch: string, text: string])[] = [
    [true, LINE, 'sawn in this step, the way that the arrow shows'],
    [true, END, 'a part of the cut ends here'],
    [
      some((s) => partsOf(s, relief.map.edges).length > 1),
      BACK,
      'the way back, along kerfs and gaps, to where the next part begins: nothing to saw; where there are several, each has the number of the part that it leads to, in black',
    ],
    [
      some((s) => (s.waysIn ?? []).some(({ from }) => from !== 'open')),
      WAY_IN,
      'the way in through the waste of the board, still to be sawn',
    ],
    [
      some((s) => (s.waysIn ?? []).some(({ from }) => from === 'open')) || hasOpenWays(steps),
      WAY_OPEN,
      'a way in that is open already: nothing to saw',
    ],
    [
      some((s) => s.leadIn > 0),
      LEAD,
      'red with white dashes: sawn now too, on the way in; it is a line of a later step, which leaves it out',
    ],
    [
      some((s) => beginsApart(s) && !goesThroughGap(s)),
      ON,
      'red dashes: sawn now too, through waste, from the mark to the line',
    ],
    [some((s) => s.start.kind === 'drill'), DRILL, 'the blade is threaded through this hole'],
    [
      some((s) => s.start.kind !== 'drill' && s.start.threaded),
      EYE,
      'the blade is threaded here, through a place that is open: no hole',
    ],
    [
      some((s) => comesFromOutside(s, isOther(s))),
      EDGE,
      'the blade comes in here from outside, or through gaps that are open to it',
    ],
    [true, word('7'), 'a number alone: the step'],
    [passes.length > 1, word('set 2'), 'setting 2 of the saw (s2 is sheet 2)'],
    [
      some((s) => !s.start.threaded && !comesFromOutside(s, isOther(s))),
      RING,
      'the blade, still in, comes to here first',
    ],
    [some((s) => s.frees === 'piece'), area('piece'), 'comes free: a piece to keep'],
    [some((s) => s.frees === 'waste' || s.wasteOff !== undefined), area('waste'), 'comes free: waste'],
    [
      some((s) => s.comesLoose !== undefined),
      area('block'),
      'comes loose as a block of its own, sawn on later',
    ],
    [true, area('stays'), 'stays in the stock'],
    [true, area('open'), 'gone already: a gap right through what is in the saw'],
    [relief.regions.some(({ role }) => role === 'recess'), area('partly'), 'gone in the front sheets only'],
    [
      true,
      area('paper'),
      relief.frame === 'cut' ? 'white: waste of the board around the drawing' : 'white: outside the board',
    ],
  ];
  const shown = entries.filter(([has]) => has);
  return `<ul class="legend">${shown.map(([, swatch, text]) => `<li>${swatch}${text}</li>`).join('')}</ul>`;
}

/** A way in is sawn before a step that may go by it. */
function hasOpenWays(steps: readonly CutStep[]): boolean {
  const first = steps.findIndex(({ waysIn = [] }) => waysIn.length > 0);
  return first >= 0 && steps.slice(first + 1).some(goesByWay);
}

const swatch = (body: string): string => `<svg class="key" viewBox="0 0 16 8">${body}</svg>`;

const LINE = swatch(
  '<path class="now" stroke-width="1.1" d="M0 4H16"/><path class="way" stroke-width="0.4" d="M11 4L6 1.8V6.2Z"/>',
);
const END = swatch(
  '<path class="now" stroke-width="1.1" d="M0 4H9"/><circle class="end" cx="9" cy="4" r="1.3"/>',
);
const BACK = swatch('<path class="back" stroke-width="1.3" stroke-dasharray="0 2.6" d="M1 4H16"/>');
const WAY_IN = swatch('<path class="way-in" stroke-width="0.9" d="M0 4H16"/>');
const WAY_OPEN = swatch('<path class="way-open" stroke-width="0.6" d="M0 4H16"/>');
const LEAD = swatch(
  '<path class="now" stroke-width="1.9" d="M0 4H16"/><path class="lead" stroke-width="1" d="M0 4H16"/>',
);
const ON = swatch('<path class="on" stroke-width="0.9" d="M0 4H16"/>');
const DRILL = swatch(
  '<circle class="hole" stroke-width="0.7" cx="8" cy="4" r="2"/><path class="cross" stroke-width="0.7" d="M4.4 4h7.2M8 0.4v7.2"/>',
);
const EYE = swatch(eyeMark([8, 4], 3.4, 0.7));
const EDGE = swatch('<rect class="begin" x="5.5" y="1.5" width="5" height="5"/>');
const RING = swatch('<circle class="begin" stroke-width="1.1" cx="8" cy="4" r="2.6"/>');
const word = (text: string): string =>
  swatch(textElement(8, 6.4, text, { 'font-size': '6.4', class: 'key-word' }));
const area = (name: string): string =>
  swatch(`<rect class="${name} key-area" x="0.3" y="0.3" width="15.4" height="7.4"/>`);
