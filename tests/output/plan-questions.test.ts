import { describe, expect, it } from 'vitest';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { planFixture } from '../support/plan-fixture.js';

/**
 * What a newcomer asks at the saw, with the words of the printed page that answer it (docs/plan.md has the
 * list). Where an answer depends on the job, the pattern asks for the form of it.
 */
const QUESTIONS: readonly (readonly [string, RegExp])[] = [
  [
    'Which boards do I need, and how large?',
    /Sheet s1: basswood plywood, 6 mm, showing natural; at least \d+ × \d+ mm/,
  ],
  ['How do I hold them together so that they come apart again?', /double-faced tape over masking tape/],
  [
    'Where does the drawing go, and is it the right size?',
    /Cover the front with masking tape and stick the drawing on it at true size; check a known length/,
  ],
  [
    'Which blade do I take, and why?',
    /No\. 5 suits this job\. The highest setting is .* mm, and the tightest curve/,
  ],
  ['Which bits do I need?', /Bits: [\d.]+ mm/],
  ['Which sheets are in the saw now, and which is in front?', /In the saw, front first: s1 .* and s\d/],
  ['How high is that?', /together \d+ mm high/],
  ['Which sheet do I lift off, and when?', /Lift off sheet s4\./],
  [
    'What do I do with a sheet that I lifted off?',
    /What is lifted off now is an offcut: keep it until the end/,
  ],
  ['How do I get sheets back to just where they were?', /line all up on the registration pins|corner stop/],
  [
    'Which holes do I drill, and when?',
    /Drill all holes of this setting first, while the stock is whole: [\d.]+ mm for steps/,
  ],
  [
    'Through which sheets does a hole go?',
    /Drill [\d.]+ mm .*?, through (both sheets|all \d sheets|1 sheet)/,
  ],
  [
    'Where do I start this cut?',
    /Come in from the edge at the mark|Go on through what is open, from the mark/,
  ],
  ['Do I have to thread the blade for it?', /Unplug the saw, thread the blade/],
  ['Which way do I saw?', /the triangle shows the way/],
  [
    'What do I keep, and what is waste?',
    /Keep p\d+ .*What comes free is waste|What comes free is waste.*Keep p\d+/s,
  ],
  ['What do I write on it?', /the id and its place from the face, such as p12 2\/3/],
  ['A whole lump came loose: what now?', /Block: stock that has come loose in one lump.*is sawn on later/],
  [
    'Why do I saw the windows with so few sheets?',
    /Only these sheets are cut through here\. .*the sheets behind close the recess/,
  ],
  ['When is this setting done, and what comes next?', /This setting is done after \d+ steps/],
  ['How long will it take me?', /Time: .* to .*; nothing is known of your pace yet/],
  ['How do I glue it up so that the back is flush?', /all backs down, so that they come out flush/],
  ['Which pieces get their sheets in another order?', /change the order of the sheets of these pieces/],
  ['Where do the lanterns go?', /At the very end the add-ons/],
  ['What can hurt me?', /Switch the saw off and unplug it before you change, thread or free a blade/],
];

describe('the printed plan of the harbour answers', () => {
  const page = textOf(writePlanHtml(planFixture('harbour'), { title: 'Harbour' }));

  it.each(QUESTIONS)('%s', (_, answer) => {
    expect(page).toMatch(answer);
  });

  it('twenty questions and more', () => {
    expect(QUESTIONS.length).toBeGreaterThanOrEqual(20);
  });
});

/** What a reader sees: no markup, no pictures. */
function textOf(html: string): string {
  return html
    .replace(/<(svg|style|head)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)))
    .replace(/\s+/g, ' ');
}
