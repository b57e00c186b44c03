import { type CopiesTable, copiesAtOnce } from '../workshop/copies-at-once.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import type { Block, Section } from './plan-content.js';
import { joinWords, millimetres, minutesText, plural } from './plan-words.js';

/** How many copies to saw at once, with the table behind it. */
export function copiesSection(plan: CutPlan, copies: number): Section {
  const table = copiesAtOnce(plan, copies);
  return {
    id: 'copies',
    title: `${plural(copies, 'copy', 'copies')}`,
    blocks: [...advice(table), ...trades(table)],
  };
}

function advice({ best, rows, copies }: CopiesTable): Block[] {
  if (best === null) {
    return [{ kind: 'paragraph', text: 'The saw does not take even one copy at this height.' }];
  }
  return [
    {
      kind: 'paragraph',
      text:
        `Saw ${best.together === 1 ? 'one copy' : `${best.together} copies`} at a time: ` +
        `${plural(best.runs, 'run')} for ${plural(copies, 'copy', 'copies')}, about ${minutesText(best.minutesPerCopy)} for each. ` +
        'Each sheet then lies in the stack as many times, one on the other. Set-up, holes, threading and corners come once a run; the feed falls as the stack gets higher.',
    },
    {
      kind: 'table',
      head: ['Together', 'Highest setting', 'Runs', 'Time for a copy', 'From', 'To'],
      numbers: [0, 1, 2, 3, 4, 5],
      rows: rows.map((row) => [
        String(row.together),
        millimetres(row.height),
        String(row.runs),
        minutesText(row.minutesPerCopy),
        minutesText(row.minutesPerCopyRange[0]),
        minutesText(row.minutesPerCopyRange[1]),
      ]),
    },
  ];
}

/** Pieces of a set are named up to so many. */
const MOST_PIECES = 12;

function trades({ trades: sets, best }: CopiesTable): Block[] {
  if (sets.length === 0 || best === null) return [];
  return [
    {
      kind: 'paragraph',
      text: 'Parts that were sawn together have one outline. These sets are of one thickness and different looks, so copies can trade their parts:',
    },
    {
      kind: 'list',
      items: sets.map(
        ({ sheets, thickness, pieces }) =>
          `${joinWords([...sheets])} (${millimetres(thickness)}) in ${pieces.length > MOST_PIECES ? plural(pieces.length, 'piece') : joinWords([...pieces])}.`,
      ),
    },
  ];
}
