import { describe, expect, it } from 'vitest';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { textOf as docText } from '../structure/source-files.js';
import { planFixture } from '../support/plan-fixture.js';

/**
 * What a newcomer asks at the saw, with the words of the printed page that answer it (docs/plan.md has the same
 * list). Where an answer depends on the job, the pattern asks for the form of it.
 */
const QUESTIONS: readonly (readonly [string, RegExp])[] = [
  [
    'Which boards do I need?',
    /Boards, one of each: s1 \(front\): basswood plywood, 6 mm; s2: hardboard, 3 mm/,
  ],
  [
    'How large must they be?',
    /Each just 292 × 202 mm and square: the edge of the board is the edge of the pic/,
  ],
  [
    'How do sheets go together so that they come apart?',
    /masking tape on both faces that meet, double-faced/,
  ],
  ['How do I part them again?', /slide a thin blade in between the tapes/],
  [
    'Where do I get the drawing, and where does it go?',
    /print the last pages of this plan at 100 %.*Cover the/,
  ],
  ['Is it the right size?', /This bar is 100 mm long when the page is printed at 100 %/],
  ['Which blade, and why?', /No\. 5, .* with plain ends.*No\. 5 suits this job\. The highest setting is/],
  ['Which bits?', /Bits: [\d.]+ mm/],
  ['Which sheets are in the saw now, which in front?', /In the saw, front first: s1 .* and s\d/],
  ['How high is that?', /together \d+ mm high/],
  ['Which sheet do I lift off, and when?', /Lift off sheet s4: .*Lift off sheet s3, of A and C: /],
  ['What do I do with a sheet that I lifted off?', /what is left of it is offcut\. Keep it until the end/],
  ['Does a sheet that I lifted off go back on?', /Lift off sheet s2 and set it aside: it goes back on later/],
  ['How does it get back to just where it was?', /line all up in the corner stop/],
  ['Which holes do I drill, and when?', /Drill all holes of this setting now, .* before you saw/],
  [
    'Through which sheets does a hole go?',
    /Drill all holes of this setting now, through (both|all 4) sheets/,
  ],
  ['How does the blade get to this cut?', /Bring the blade to the mark through the gap beside it/],
  [
    'Do I have to thread the blade for it?',
    /Unplug the saw to thread the blade, or to take it out, only where a step says so/,
  ],
  ['Which way do I saw, and beside the line or on it?', /the way that the arrow shows.*right on the line/],
  [
    'Is the red line with white dashes sawn now?',
    /red with white dashes: sawn now too.*along the red line with white dashes, which is sawn now, to where this cut begins/,
  ],
  ['The red line is in parts: which first?', /In \d+ parts, as numbered; between them go along the kerf/],
  [
    'How do I get out of a line that ends blind?',
    /go back along the kerf to the hole\. Then unplug the saw, unclamp the blade and take it out of the work/,
  ],
  ['What do I keep, and what is waste?', /What comes free is waste\..*Keep p\d+ /s],
  ['What do I write on it, and where?', /write its id on its back at once.*such as p1 s2/],
  [
    'A whole block came loose: what now?',
    /\d blocks come loose \(blue\)\..*Write D on a bit of tape on it\. Leave it where it lies and tape it to A beside it\. It is sawn on in step/,
  ],
  ['Why so few sheets here?', /Only these sheets are sawn here\. .*the sheets behind close the recess/],
  ['When is this setting done?', /This setting is done after \d+ steps, .* to /],
  ['How long will it take me?', /Time at the saw: .* to .*, without printing/],
  [
    'What is inside these times?',
    /In it: getting ready .* min; setting 1, .* min; .*This setting is done after 34 steps, .*: its steps .*, 1 sheet move 1 to 4 min/,
  ],
  ['What if a thin part or the blade breaks?', /Should a thin part break: .*Should the blade break/],
  ['Where is it thin?', /Go slowly: 2 mm of wood stays in s1 and s2 beside this cut \(see Narrow places\)/],
  [
    'Is everything that is thin listed?',
    /their sheets in front of the floors of recesses, .* until they are glued on, .*; not what is narrow for a few steps only/,
  ],
  [
    'How do the sheets of a piece hold together in the end?',
    /Then make each piece whole: glue its own sheets together again/,
  ],
  [
    'Which pieces get their sheets in another order?',
    /p\d+ lantern roof: glue as s2 s1 s3 s4 \(sawn as s1 s2 s3 s4\)/,
  ],
  [
    'What is finished with what?',
    /choose one finish for each .*“natural”: the other \d+ pieces\..*“hardboard”: p\d+/,
  ],
  [
    'Which sheets do I leave out of a piece?',
    /Leave out: p\d+ s2 s3; p\d+ s2; .*These sheets came off with the piece and do not belong to it/,
  ],
  [
    'What of a face do I finish before I glue the sheets?',
    /Finish only within that line; all the rest of the face stays bare.*Then make each piece whole: glue/,
  ],
  [
    'How do I saw a block that is small?',
    /Too small to hold by hand: [A-Z]\. Stick it to a larger piece of scrap/,
  ],
  ['May I part the sheets where thin bars are in them?', /Mind the narrow places when you part the sheets/],
  [
    'Which pieces do I part with care?',
    /Mind the narrow places when you part these pieces: Nos\. 1 to 6 in the list/,
  ],
  ['Where are the tightest curves?', /Go slowly in the tightest curves: steps \d+, /],
  ['How do I finish the add-ons?', /Add-ons are sanded and finished in the same way.*Their seats stay bare/],
  [
    'What of the sides do I finish, where a piece stands out?',
    /above the pencil line sand and finish the side like the face, below it the side stays bare/,
  ],
  [
    'How does the blade get to the add-ons in the scrap?',
    /saw straight in from the nearest edge to the mark.*All add-ons are small\. Hold them down with a stick/,
  ],
  [
    'What is left when the frame is off, and what holds it?',
    /A is the rest of the board; p1 no longer holds it: keep it flat on the table/,
  ],
  ['Which block do I saw now?', /157 Block C: Saw out p89 .* 160 Block D: .* 164 Block A: /],
  [
    'Another block is on the table: how do I change?',
    /Bring the blade out of C, through gaps and kerfs that lead to its edge, take C off the table and put D, with what it is taped to, on\. Bring the blade in from outside/,
  ],
  [
    'The setting is done and the blade still in: what now?',
    /If the blade is still in the work, bring it out to the edge, through gaps and kerfs; then take the work off/,
  ],
  ['What is small, and what do I do with it?', /Small is what has less than 40 × 40 mm/],
  ['How do I glue it up so that the back is flush?', /all backs down, so that they come out flush/],
  ['In which order?', /The numbers are those of the list: the order of the glue-up/],
  ['Where do the lanterns go?', /a1 lantern-cottage \(\d+ × \d+ mm\) on p64 cottage/],
  [
    'What are add-ons sawn from?',
    /scrap for the add-ons: basswood plywood, 6 mm.*out of scrap of the same kind, not out of the stack/,
  ],
  ['What can hurt me?', /Switch the saw off and unplug it before you change, thread or free a blade/],
];

describe('the printed plan of the harbour answers', () => {
  const page = textOf(writePlanHtml(planFixture('harbour'), { title: 'Harbour' }));

  it.each(QUESTIONS)('%s', (_, answer) => {
    expect(answer.test(page)).toBe(true);
  });

  it('twenty questions and more', () => {
    expect(QUESTIONS.length).toBeGreaterThanOrEqual(20);
  });
});

const OWL_QUESTIONS: readonly (readonly [string, RegExp])[] = [
  ['How large must the boards be?', /Each at least 163 × 204 mm: the drawing and room to hold it by/],
  ['How do I get to the first line?', /from the edge of the board through the waste around the drawing/],
  [
    'Does the board around the picture fall apart, and when?',
    /Keep p29 left wing\. Waste of the board comes off: w1 \(left, 0\.8 cm²\)\./,
  ],
  [
    'What do I hold the work by when the board is gone?',
    /comes off: w8 \(top (left|right), .*?\)\. One part of it is left to hold the work by\..* comes off: w9 \(top (left|right), .*?\)\. That was the last of it/,
  ],
  ['Where do the pins go?', /drill two 3 mm holes through all of them where the drawing has the marks R/],
  ['Which sheets do I leave off at first?', /Leave sheets s2 and s3 off for now: they are put on later/],
  [
    'Which part of the board is which?',
    /The board comes apart: B \(top left, with .*Nothing is sawn in B and C now.*A \(bottom left, with p\d+ left tail feather\); B \(top left, with p\d+ moon and p\d+ moon\)/,
  ],
  [
    'A way that I go in by is taped: what now?',
    /Where the blade goes in again by a way that is open, cut the tape across it/,
  ],
  [
    'What do I hold the board by when tape holds its parts?',
    /holds A, B, C and F together, each to what lies beside it\. Hold the work by B, the largest of them now/,
  ],
  [
    'The tape on the back comes off with the sheet: what now?',
    /cut the tape on the back along the ways in; tape them over again on the new back before you saw/,
  ],
  [
    'What is the floor of the eyes finished with?',
    /s2 \(cherry plywood\), with the finish .* “oiled”: in p5 left eye and p4 right eye/,
  ],
];

describe('the printed plan of the owl answers', () => {
  const page = textOf(writePlanHtml(planFixture('owl'), { title: 'Owl' }));

  it.each(OWL_QUESTIONS)('%s', (_, answer) => {
    expect(answer.test(page)).toBe(true);
  });
});

it('the list in the documentation is this one', () => {
  const doc = docText('docs/plan.md');
  const from = doc.indexOf('| question | where the page answers it |');
  const rows = doc.slice(from).split('\n\n')[0].split('\n').slice(2);
  const cells = rows.map((row) => row.split('|').map((cell) => cell.trim()));
  expect(cells.map(([, question]) => question)).toEqual([...QUESTIONS, ...OWL_QUESTIONS].map(([q]) => q));
  for (const [, question, place] of cells) expect(place, question).not.toBe('');
});

/** What a reader sees: no markup, no pictures. */
function textOf(html: string): string {
  return html
    .replace(/<(svg|style|head)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)))
    .replace(/\s+/g, ' ');
}
