import type { Finding } from '../finding.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import { NO_BIT } from '../workshop/drill-start.js';
import { timeRange } from '../workshop/saw-time.js';
import type { Block, Section } from './plan-content.js';
import { lookedAt } from './plan-content-narrow.js';
import { bitWords, joinWords, millimetres, plural, rangeText } from './plan-words.js';

/** What a person reads before the saw runs: what the job is, safety, words, how to get ready, how to saw. */
export function beforeSawing(plan: CutPlan, findings: readonly Finding[], pictures: boolean): Section[] {
  const list = (items: readonly string[], ordered = false): Block[] => [{ kind: 'list', items, ordered }];
  const sections: Section[] = [
    { id: 'job', title: 'The job', blocks: jobBlocks(plan, findings) },
    { id: 'care', title: 'Before anything else', blocks: list(plan.cautions) },
    { id: 'words', title: 'Words used here', blocks: list(wordList(plan, pictures)) },
    { id: 'ready', title: 'Get ready', blocks: list(readyList(plan, pictures), true) },
    { id: 'saw', title: 'At the saw', blocks: list(sawList(plan)) },
  ];
  return sections.filter((section) => section.blocks.some((b) => b.kind !== 'list' || b.items.length > 0));
}

/** `, 0.4 m of it through the waste of the board`: no less than a tenth of a metre. */
function wayWords(length: number): string {
  return length < 50 ? '' : ` (${(length / 1000).toFixed(1)} m of it through the waste of the board)`;
}

function jobBlocks(plan: CutPlan, findings: readonly Finding[]): Block[] {
  const { relief, totals } = plan;
  const taken = plan.passes.flatMap(({ steps }) => steps).filter(({ captive }) => captive === true).length;
  const addOns = relief.addOns.length > 0 ? ` and ${plural(relief.addOns.length, 'add-on')}` : '';
  const times = timesOf(plan);
  const lines = [
    `${plural(totals.pieces, 'piece')}${addOns}, ${plural(plan.passes.length, 'setting')} of the saw, ` +
      `${(totals.cutLength / 1000).toFixed(1)} m of line${wayWords(totals.wayLength)}; ${plural(totals.drillStarts, 'hole')} to drill, ` +
      `the blade threaded ${plural(totals.threadings, 'time')} and taken out ${plural(taken, 'time')}, ${plural(totals.sheetMoves, 'sheet move')}.`,
    `Time at the saw: ${wholeTime(times)}, without printing, sanding and glue. In it: ${timeParts(plan, times)}. The time of a setting is that of its steps, with their holes and threadings, and of moving sheets. ${
      plan.workshop.knownJob === null
        ? 'The range is wide: time one of your own jobs and give it to the program, and it gets narrower.'
        : 'It goes by the job that you timed.'
    }`,
    relief.joint === 'pieces'
      ? 'A piece is as high as the sheets that it keeps. All backs lie in one plane, so pieces of more sheets stand out further in front.'
      : 'Every sheet is sawn by itself; laid on one another they make the steps of the relief.',
  ];
  const blocks: Block[] = lines.map((text) => ({ kind: 'paragraph', text }));
  blocks.push({ kind: 'pieces' });
  const problems = toTell(findings);
  if (problems.length > 0) {
    blocks.push({ kind: 'paragraph', text: 'Look at these first:' });
    blocks.push({ kind: 'list', items: problems });
  }
  return blocks;
}

/** Getting ready, and each setting: tenths of minutes, least and most, each rounded by itself as its setting tells it. */
function timesOf({ workshop, passes }: CutPlan): readonly (readonly number[])[] {
  return [workshop.setupMinutes, ...passes.map(({ minutes }) => minutes)].map((minutes) =>
    timeRange(workshop, minutes).map((end) => Math.round(10 * Number(end.toFixed(1)))),
  );
}

const sumOf = (times: readonly (readonly number[])[]): [least: number, most: number] => [
  times.reduce((sum, [least]) => sum + least, 0),
  times.reduce((sum, [, most]) => sum + most, 0),
];

/** The whole time in whole minutes: the sum of its parts as they are told. */
function wholeTime(times: readonly (readonly number[])[]): string {
  const [least, most] = sumOf(times);
  return rangeText([Math.round(least / 10), Math.round(most / 10)]);
}

/** What the whole time is made of, and the sum. */
function timeParts({ passes }: CutPlan, times: readonly (readonly number[])[]): string {
  const range = ([least, most]: readonly number[]): string =>
    `${least === most ? '' : `${least / 10} to `}${most / 10} min`;
  const what = [
    'getting ready (holding the sheets together, sticking the drawing on, squaring the saw)',
    ...passes.map((_, i) => `setting ${i + 1},`),
  ];
  const told = times.map((part, i) => `${what[i]} ${range(part)}`);
  return `${told.join('; ')}; together ${range(sumOf(times))}`;
}

/** Rules whose places have a section of their own. */
const ELSEWHERE = new Set(['thin-bridge', 'weak-tip']);

/** Findings in words, alike ones once. */
function toTell(findings: readonly Finding[]): string[] {
  const problems = findings.filter(
    ({ level, rule }) => level === 'error' || (level === 'warning' && !ELSEWHERE.has(rule)),
  );
  const counts = new Map<string, number>();
  for (const { message, fix } of problems) {
    const text = fix === undefined ? message : `${message} ${fix}`;
    counts.set(text, (counts.get(text) ?? 0) + 1);
  }
  return [...counts].map(([text, n]) => (n === 1 ? text : `${text} (${n} places)`));
}

/** A piece with much room on the drawing, as it is written there: `p30 r32`. */
function exampleIds({ pieces, relief: { map } }: CutPlan): string {
  const other = pieces.filter(({ id, region }) => id.slice(1) !== map.regions[region].id.slice(1));
  const from = other.length > 0 ? other : pieces;
  if (from.length === 0) return '';
  const { id, region } = from.reduce((a, b) =>
    map.regions[b.region].labelRoom > map.regions[a.region].labelRoom ? b : a,
  );
  return ` (${id} ${map.regions[region].id})`;
}

function wordList(plan: CutPlan, pictures: boolean): string[] {
  const { relief, passes } = plan;
  const has = (role: string): boolean => relief.regions.some((region) => region.role === role);
  const pieces = relief.joint === 'pieces';
  const words = [
    'Sheet (s1, s2 …): one board. s1 is the front one, with the drawing on its face.',
    pieces
      ? 'Piece (p1, p2 …): what comes off the saw whole, through all the sheets held together at that moment.'
      : 'Level: one sheet with holes, sawn by itself. Level 1 is the back.',
    pieces
      ? `r1, r2 …: an area of the drawing, a piece or a cutout. On the drawing it stands beside the id of the piece${exampleIds(plan)} where there is room; the table under Pieces has both.`
      : 'r1, r2 …: an area of the drawing, as in the overview.',
  ];
  if (pieces) {
    words.push(
      'Setting: one height of the stack. The highest pieces come first, then the back sheet comes off, and so on down; recesses may come before. Its steps are numbered through the whole job.',
    );
  }
  if (has('recess'))
    words.push('Recess: a cutout through the front sheets only; the sheets behind close it.');
  if (has('opening')) words.push('Opening: a cutout right through; “cut out the opening” says so.');
  if (has('void'))
    words.push('Void: a hole between pieces; its waste falls out by itself or is cut out first.');
  if (relief.addOns.length > 0) words.push('Add-on (a1, a2 …): a small part glued on top at the very end.');
  if (passes.some(({ steps }) => steps.some(({ kind }) => kind === 'vein')))
    words.push('Detail line: a cut that parts nothing, only for the look.');
  if (relief.map.details.some(({ mark }) => mark === 'fold'))
    words.push('Fold mark: dashed in grey on the drawing, to be seen, not sawn.');
  if (passes.some(({ steps }) => steps.some(({ wasteOff }) => wasteOff !== undefined)))
    words.push('w1, w2 …: parts of the waste of the board that come off, in the order of the job.');
  if (
    passes.some(
      ({ blocks, steps }) =>
        blocks.length > 1 ||
        steps.some(({ comesLoose, boardApart }) => comesLoose !== undefined || boardApart !== undefined),
    )
  ) {
    words.push(
      'Block (A, B …): stock that hangs together, with pieces still to be sawn out of it. A is the board; what comes loose or apart from a block is a block of its own: it takes the next letter and keeps it to the end, and the largest part keeps the letter of the whole.',
      `A block that comes loose and is sawn on in the same setting stays where it lies, taped to what stands beside it, and is sawn there; where nothing stands there until then, it is taken out and sawn by itself${pictures ? ', though the pictures show it in its place' : ''}. What is not sawn on in this setting is lifted out and laid aside; in the next one it is taken to the saw by itself like a small board.`,
    );
  }
  if (!pictures)
    words.push(
      'x, y: in mm, to the right and down, as in the drawing; its own top left corner is where its page begins.',
    );
  return words;
}

function readyList(plan: CutPlan, pictures: boolean): string[] {
  const { relief, workshop, advice } = plan;
  const { sheets } = relief.stack;
  const many = relief.joint === 'pieces' && sheets.length > 1;
  const boards = sheets.map((sheet, j) => {
    const place = j === 0 ? ' (front)' : j === sheets.length - 1 ? ' (back)' : '';
    return `${sheet.id}${place}: ${sheet.material}, ${millimetres(sheet.thickness)}`;
  });
  // With one bit for the whole job it is not said beside each hole.
  const several = bitNames(plan).length > 1;
  const beside = `; ${several ? '7 · 2 mm · set 2 beside a mark: step 7, its bit, setting 2' : '7 · set 2 beside a mark: step 7, setting 2'}; a number alone: the step, look it up in the settings; a second number after a semicolon: the later step that is threaded through the same hole or place`;
  const items = [`Boards, one of each: ${boards.join('; ')}. ${boardSize(plan)}${scrapFor(plan)}`];
  items.push(
    `Drawing: print ${pictures ? 'the last pages of this plan' : 'the file drawing.svg that is written beside the sheets (it has all lines; those of the sheets have not)'} at 100 %, not fitted to the page${pictures ? ', and check the bar of 100 mm with a rule; more than one page are joined at their crosses' : ', and check a known length with a rule'}${beside}. Cover the front of ${sheets[0]?.id ?? 'the board'} with masking tape and stick the drawing on that, with glue stick or spray glue${relief.frame === 'cut' ? ', in the middle of the board' : ', its outline on the edge of the board'}.`,
  );
  if (many) {
    items.push(
      'Sheets go together with tape, so that they come apart again: masking tape on both faces that meet, double-faced tape between, in patches all over, so that every piece has its own patch (lay a copy of the drawing on to see where). To part them, slide a thin blade in between the tapes and twist; never pry at thin parts. Which sheets go together first, the first setting says.',
    );
  }
  if (relief.joint === 'pieces' && hasMoves(plan)) {
    items.push(
      relief.frame === 'cut'
        ? `Registration: with all sheets in line and clamped, drill two 3 mm holes through all of them ${pictures ? 'where the drawing has the marks R' : 'outside the drawing, at opposite corners'}. Pins or nails of that size bring sheets that go back on just to where they were; take the pins out when the tape holds.`
        : 'Registration: screw two strips to a flat board as a corner stop, for the top left corner of the drawing, seen from the front. Mark that corner on every sheet with pencil, “front” up. Always lay this corner of every sheet into the stop, no other, so that sheets which come off and go back on lie just as before.',
    );
  }
  items.push(
    `Blade: ${workshop.blade.name}, ${Number(workshop.blade.width.toFixed(2))} × ${millimetres(workshop.blade.thickness, 2)}, with plain ends (a pin does not pass the holes), and some to spare. It passes a hole of ${millimetres(holeOf(plan), 2)}. ${advice.map(({ text, reason }) => `${text} ${reason}`).join(' ')}`.trimEnd(),
  );
  const bits = bitNames(plan);
  if (bits.length > 0) {
    items.push(`Bits: ${joinWords(bits)}. Drill on a backing board, so that the back does not split.`);
  }
  items.push('Square the table to the blade, and try a cut in scrap of the same height.');
  if (relief.joint === 'pieces') {
    items.push(
      'A tray with a place for every id: pieces are small, many look alike, and some mirror each other.',
    );
  }
  return items;
}

function sawList(plan: CutPlan): string[] {
  const { relief, passes, pieces, bridges } = plan;
  const steps = passes.flatMap((pass) => pass.steps);
  if (steps.length === 0) return [];
  const hasWays = steps.some(({ waysIn }) => waysIn !== undefined);
  const items = [
    'Take the steps in their order. Each shows all that is sawn in it; every line is sawn once, right on the line.',
    'Unplug the saw to thread the blade, or to take it out, only where a step says so. Else it comes in from outside or is still in: stop the saw, let go what is free, and move the work so that the blade goes through gaps, or back along its kerf, to the next mark.',
    `“Through the gap beside it” tells where the blade comes onto the line. It gets there from the end of the last cut through gaps and kerfs; where none leads there, it goes out to the edge and in again by another.${hasWays ? ' Tape that lies across is cut for the blade, and taped over again behind it.' : ''}`,
  ];
  if (hasWays)
    items.push(
      'A way in from the edge of the board parts its waste. Tape it over behind the blade, front and back, so that the board stays in one; before you saw a line that joins two ways, tape across both. Where the blade goes in again by a way that is open, cut the tape across it with a knife, and tape it over again when the blade is out. Where a step says that waste of the board comes off, take the tape off that part and lay it aside. A part that comes away all the same with pieces still in it: lay it aside and go on with it as a block of its own.',
    );
  if (steps.some(({ kind }) => kind === 'vein'))
    items.push(
      'A detail line ends blind: stop at its end, go back along the kerf, gently, to where it began, unless the step says that the next one goes on from its end. If that is a hole, unplug there, unclamp the blade and take it out; the step says so.',
    );
  if (relief.joint === 'pieces') {
    items.push(
      `A piece that comes free: write its id on its back at once. When its sheets are taken apart, the back of each gets the id and the sheet${exampleMark(pieces)}. What is too small to write on goes into the tray.`,
      'Small is what has less than 40 × 40 mm, 16 cm². As long as it lies in the stack, tape holds a small block to what stands beside it, and a stick holds it down, not a finger; it is not stuck to scrap there. Taken out to be sawn by itself, it is stuck to a larger piece of scrap.',
      'Keep all that is not called waste, blocks and offcuts too, until the picture is done.',
    );
  }
  if (bridges.length === 0)
    items.push(`No place is narrower than the material and the height ask for.${lookedAt(plan)}`);
  items.push(
    'Should a thin part break: keep both halves, glue them in place with wood glue and go on when it is dry. Should the blade break: unplug, thread a new one through the kerf.',
  );
  return items;
}

/** An example of what is written on the sheets of a piece: `, such as p12 s2`. */
function exampleMark(pieces: CutPlan['pieces']): string {
  const piece = pieces.find(({ sheets }) => sheets.length > 1);
  return piece === undefined ? '' : `, such as ${piece.id} ${piece.sheets[1]}`;
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
  return [...bits].sort((a, b) => a[1] - b[1]).map(([name, diameter]) => bitWords(name, diameter));
}

/** What the add-ons need beside the stack. */
function scrapFor({ relief, passes }: CutPlan): string {
  const ids = new Set(passes.filter(({ phase }) => phase === 'add-ons').flatMap(({ sheets }) => sheets));
  const sheets = relief.stack.sheets.filter(({ id }) => ids.has(id));
  if (sheets.length === 0) return '';
  const kinds = sheets.map(({ material, thickness }) => `${material}, ${millimetres(thickness)}`);
  return ` And scrap for the add-ons: ${joinWords(kinds)}; with a second copy of the drawing.`;
}

function boardSize({ board, relief }: CutPlan): string {
  const [width, height] = [board.width, board.height].map((v) => Number(v.toFixed(1)));
  return relief.frame === 'cut'
    ? `Each at least ${Math.ceil(width)} × ${Math.ceil(height)} mm: the drawing and room to hold it by.`
    : `Each just ${width} × ${height} mm and square: the edge of the board is the edge of the picture and is not sawn.`;
}
