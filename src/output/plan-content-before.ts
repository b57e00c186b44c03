import type { CutPlan } from '../workshop/cut-plan.js';
import { NO_BIT } from '../workshop/drill-start.js';
import type { Block, Section } from './plan-content.js';
import { joinWords, millimetres, minutesText, plural } from './plan-words.js';

/** What a person reads before the saw runs: safety, what the job is, how to hold the sheets together. */
export function beforeSawing(plan: CutPlan): Section[] {
  const sections: Section[] = [
    { id: 'job', title: 'The job', blocks: jobBlocks(plan) },
    { id: 'care', title: 'Before anything else', blocks: [{ kind: 'list', items: plan.cautions }] },
    { id: 'words', title: 'Words used here', blocks: [{ kind: 'list', items: wordList(plan) }] },
    { id: 'ready', title: 'Get ready', blocks: [{ kind: 'list', items: readyList(plan) }] },
  ];
  return sections.filter((section) => section.blocks.length > 0);
}

function jobBlocks(plan: CutPlan): Block[] {
  const { relief, totals } = plan;
  const [least, most] = totals.minutesRange;
  const settings = plan.passes.length;
  const lines = [
    `${plural(totals.pieces, 'piece')}${relief.addOns.length > 0 ? ` and ${plural(relief.addOns.length, 'add-on')}` : ''}, ` +
      `${plural(settings, 'setting')} of the saw, ${(totals.cutLength / 1000).toFixed(1)} m of line.`,
    `${plural(totals.drillStarts, 'hole')} to drill, the blade threaded ${plural(totals.threadings, 'time')}, ${plural(totals.sheetMoves, 'sheet move')}.`,
    `Time: ${minutesText(least)} to ${minutesText(most)}${
      plan.workshop.knownJob === null
        ? '; nothing is known of your pace yet, so the range is wide. Give one job that you have timed to narrow it.'
        : ', by the job that you timed.'
    }`,
  ];
  const blocks: Block[] = lines.map((text) => ({ kind: 'paragraph', text }));
  const problems = plan.findings.filter((finding) => finding.level !== 'note');
  if (problems.length > 0) {
    blocks.push({ kind: 'paragraph', text: 'Look at these first:' });
    blocks.push({
      kind: 'list',
      items: problems.map(({ message, fix }) => (fix === undefined ? message : `${message} ${fix}`)),
    });
  }
  return blocks;
}

function wordList({ relief, passes }: CutPlan): string[] {
  const has = (role: string): boolean => relief.regions.some((region) => region.role === role);
  const words = [
    'Sheet: one board. The front sheet is the one with the drawing on its face; s1, s2 … count from there.',
  ];
  if (relief.joint === 'pieces') {
    words.push(
      'Piece: what comes off the saw whole, through all the sheets held together at that moment; p1, p2 …',
      'Pass: one height of the stack. The highest pieces come first; then the back sheet is lifted off, and so on down.',
    );
  } else {
    words.push('Level: one sheet with holes, sawn by itself. Level 1 is the back.');
  }
  if (has('recess'))
    words.push('Recess: a cutout through the front sheets only; the sheets behind close it.');
  if (has('opening')) words.push('Opening: a cutout right through.');
  if (has('void'))
    words.push('Void: a hole between pieces; its waste falls out by itself or is cut out first.');
  if (relief.addOns.length > 0) words.push('Add-on: a small part glued on top at the very end; a1, a2 …');
  if (passes.some((pass) => pass.blocks.length > 1)) {
    words.push('Block: stock that has come loose in one lump, with all its sheets, and is sawn on later.');
  }
  return words;
}

function readyList(plan: CutPlan): string[] {
  const { relief, workshop, advice } = plan;
  const first = plan.passes[0];
  const items = relief.stack.sheets.map((sheet) => {
    const face = sheet.face === undefined ? '' : `, showing ${sheet.face}`;
    return `Sheet ${sheet.id}: ${sheet.material}, ${millimetres(sheet.thickness)}${face}; at least ${boardSize(plan)}.`;
  });
  if (relief.joint === 'pieces' && relief.stack.sheets.length > 1) {
    items.push(
      'Hold the sheets together so that they come apart again: double-faced tape over masking tape, spread over the whole area, so that every part that comes free holds by itself. Where small blocks come free, give each its own piece of tape.',
    );
  }
  if (relief.joint === 'pieces' && hasMoves(plan)) {
    items.push(
      relief.frame === 'cut'
        ? 'Drill two registration holes through all sheets outside the drawing and fit pins: sheets that come off and go back on then lie exactly as before.'
        : 'Make a corner stop that two edges of the boards lie against, or fit pins where waste falls out: sheets that come off and go back on must lie exactly as before.',
    );
  }
  items.push(
    'Cover the front with masking tape and stick the drawing on it at true size; check a known length with a rule.',
  );
  if (relief.joint === 'pieces') {
    items.push(
      'When a piece comes free, take its sheets apart only after writing on the back of each what it is: the id and its place from the face, such as p12 2/3.',
    );
  }
  items.push(
    `Blade: ${workshop.blade.name}, ${millimetres(workshop.blade.width, 2)} × ${millimetres(workshop.blade.thickness, 2)}. It needs a hole of ${millimetres(holeOf(plan), 2)} or more.`,
  );
  for (const { text, reason } of advice) items.push(`${text} ${reason}`);
  const bits = bitNames(plan);
  if (bits.length > 0)
    items.push(`Bits: ${joinWords(bits)}. Drill on a backing board, so that the back does not split.`);
  if (first !== undefined)
    items.push('Square the table to the blade, and try a cut in scrap of the same height.');
  return items;
}

function hasMoves(plan: CutPlan): boolean {
  return plan.passes.some((pass) => pass.moves.some((move) => move.action === 'put-back'));
}

function holeOf({ workshop }: CutPlan): number {
  return Math.hypot(workshop.blade.width, workshop.blade.thickness) + workshop.bladeClearance;
}

function bitNames(plan: CutPlan): string[] {
  const bits = new Map<string, number>();
  for (const { start } of plan.passes.flatMap((pass) => pass.steps)) {
    if (start.bit !== undefined && start.bit !== NO_BIT && start.diameter !== null)
      bits.set(start.bit, start.diameter);
  }
  return [...bits]
    .sort((a, b) => a[1] - b[1])
    .map(([name, diameter]) => (name.endsWith('mm') ? name : `${name} (${millimetres(diameter, 2)})`));
}

function boardSize({ board }: CutPlan): string {
  return `${Math.ceil(board.width)} × ${millimetres(Math.ceil(board.height), 0)}`;
}
