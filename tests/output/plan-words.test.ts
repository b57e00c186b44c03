import { describe, expect, it } from 'vitest';
import { startMark } from '../../src/output/plan-marks.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { planWords } from '../../src/output/plan-words.js';
import type { CutPlan, CutStep, Pass } from '../../src/workshop/cut-plan.js';
import { planFixture } from '../support/plan-fixture.js';

const plans = { owl: planFixture('owl'), harbour: planFixture('harbour') };
const NAMES = ['owl', 'harbour'] as const;

/** The text in one line. */
const textOf = (plan: CutPlan): string => writePlanText(plan).replace(/\s+/g, ' ');

/** `16.5 to 66.2 min`: both ends in minutes. */
function rangeOf(text: string): [number, number] {
  const [least, most = least] = text.split(' to ').map(Number.parseFloat);
  return [least, most];
}

/** `1 h 53 min` in minutes. */
function clock(text: string): number {
  const hours = /(\d+) h/.exec(text);
  const minutes = /([\d.]+) min/.exec(text);
  return 60 * Number(hours?.[1] ?? 0) + Number(minutes?.[1] ?? 0);
}

describe('times of a plan', () => {
  it.each(NAMES)('%s: getting ready and the settings add up to the whole', (name) => {
    const text = textOf(plans[name]);
    const [, from, to] = /Time at the saw: (.*?) to (.*?), without/.exec(text)!;
    const list = /squaring the saw\) (.*?)\. The time of a setting/.exec(text)![1];
    const ranges = list.split('; ').map((part) => rangeOf(part.replace(/^(setting \d+,|together) /, '')));
    const together = ranges.pop()!;
    expect(ranges).toHaveLength(1 + plans[name].passes.length);
    for (const end of [0, 1] as const) {
      expect(ranges.reduce((sum, range) => sum + range[end], 0)).toBeCloseTo(together[end], 6);
      expect(Math.round(together[end])).toBe(clock([from, to][end]));
    }
    plans[name].passes.forEach(({ minutes }, i) => {
      expect(Math.abs(ranges[i + 1][0] - minutes / 2)).toBeLessThan(0.0501);
      expect(Math.abs(ranges[i + 1][1] - minutes * 2)).toBeLessThan(0.0501);
    });
  });

  it.each(NAMES)('%s: a setting of less than ten minutes is told alike in the job and at its end', (name) => {
    const text = textOf(plans[name]);
    const job = [.../In it: .*?; together/.exec(text)![0].matchAll(/setting \d+, ([\d.]+)/g)];
    const ends = [...text.matchAll(/This setting is done after \d+ steps, (.*?)(, the sum|: its steps)/g)];
    expect(ends).toHaveLength(job.length);
    // Below a minute it is told in seconds, above ten in whole minutes.
    const short = job.flatMap(([, least], i) => {
      const told = /^([\d.]+) to [\d.]+ min$/.exec(ends[i][1]);
      return told === null || Number(least) >= 10 ? [] : [[told[1], least]];
    });
    expect(short.length).toBeGreaterThan(1);
    for (const [told, least] of short) expect(told).toBe(least);
  });

  it.each(NAMES)('%s: a setting is its steps and its sheet moves', (name) => {
    for (const { steps, moves, minutes } of plans[name].passes) {
      const sawing = steps.reduce((sum, step) => sum + step.minutes, 0);
      expect(minutes).toBeCloseTo(sawing + 2 * moves.length, 9);
    }
    const ends = textOf(plans[name]).match(
      /This setting is done after .*?(, the sum of its steps|: its steps)/g,
    );
    expect(ends).toHaveLength(plans[name].passes.length);
  });

  it.each(NAMES)('%s: the blade is taken out as often as the steps say', (name) => {
    const text = textOf(plans[name]);
    const told = /threaded (\d+) times and taken out (\d+) times/.exec(text)!;
    expect(text.match(/and take it out of the work\./g)).toHaveLength(Number(told[2]));
    expect(text.match(/Unplug the saw and thread the blade/g)).toHaveLength(Number(told[1]));
  });
});

/** Each step with what is said of it. */
function saidOf(plan: CutPlan): { pass: Pass; step: CutStep; start: string; keep: string; title: string }[] {
  const words = planWords(plan, true);
  return plan.passes.flatMap((pass) =>
    pass.steps.map((step) => ({
      pass,
      step,
      start: words.start(pass, step),
      keep: words.keep(pass, step),
      title: words.action(pass, step),
    })),
  );
}

describe('words of steps', () => {
  const harbour = saidOf(plans.harbour);
  const owl = saidOf(plans.owl);

  it('does not send the blade back along a line from whose end the next step goes on', () => {
    for (const number of [72, 108]) {
      expect(harbour[number - 1].keep).toMatch(/stop at the end; the next step goes on from there\.$/);
      expect(harbour[number].start).toMatch(
        /^The blade stands at the mark already: saw on along the red line with white dashes, which is sawn now,/,
      );
    }
    expect(harbour[101 - 1].keep).toBe('Nothing comes free: go back along the kerf.');
  });

  it('a block that comes loose is either taped where it lies or taken out and stuck to scrap, never both', () => {
    for (const { keep } of [...harbour, ...owl]) {
      for (const sentence of keep.split(/(?<=\.) /)) {
        expect(/tape it to/.test(sentence) && /scrap/.test(sentence)).toBe(false);
      }
    }
    expect(owl[43].keep).toMatch(
      /E from now on: p20 .* Nothing stands beside it any more: take it out and stick it to scrap/,
    );
  });

  it('goes through the gap where the way from an open place is open, and saws where it is not', () => {
    expect(harbour[117].start).toMatch(/go through the gap to the line; nothing is sawn on that way\.$/);
    expect(harbour[30].start).toMatch(/Saw from there to the line\.$/);
    const marks = [118, 31].map((number) => startMark(harbour[number - 1].step, 0.1));
    expect(marks[0]).toMatch(/class="back"/);
    expect(marks[1]).toMatch(/class="on"/);
  });

  it('has the blade clamped where that takes time', () => {
    for (const { step, start } of [...harbour, ...owl]) {
      expect(/^(Take . off .*? on\. )?Clamp the blade again/.test(start)).toBe(step.start.released === true);
    }
  });

  it('numbers the waste of the board that comes off, each part once', () => {
    const all = owl.flatMap(({ keep }) => keep.match(/\bw\d+ \(/g) ?? []);
    expect(all).toEqual(all.map((_, i) => `w${i + 1} (`));
    expect(all).toHaveLength(9);
  });

  it('cuts the tape across a way that is gone in by again', () => {
    const again = owl.filter(({ step }) =>
      step.waysIn?.some(({ from, run }) => run === 0 && from === 'open'),
    );
    expect(again.length).toBeGreaterThan(2);
    for (const { start } of again) expect(start).toMatch(/with the tape across it cut/);
  });

  it('names the large pieces among small ones, by the sizes of the table', () => {
    const text = textOf(plans.harbour);
    expect(text).toContain('All pieces that come free here are small, but for p1 frame (step 156).');
    const told = [...text.matchAll(/All pieces that come free here are small, but for (.*?)\. Hold/g)];
    const named = told.flatMap(([, list]) => list.match(/\bp\d+(?= )/g) ?? []);
    const large = plans.harbour.pieces.filter(({ area }) => area >= 1600).map(({ id }) => id);
    expect([...named].sort()).toEqual([...large].sort());
    expect(large).toContain('p26');
  });

  it('writes an example of ids that the drawing has', () => {
    for (const name of NAMES) {
      const [, id, region] = /the id of the piece \((p\d+) (r\d+)\)/.exec(textOf(plans[name]))!;
      const piece = plans[name].pieces.find((p) => p.id === id)!;
      expect(plans[name].relief.map.regions[piece.region].id).toBe(region);
    }
  });

  it('brings the blade out before a way that is sawn in from the edge', () => {
    for (const number of [15, 20]) {
      expect(owl[number - 1].start).toMatch(
        /^Bring the blade out to the edge by a way that is open, with the tape across it cut\. Then bring it/,
      );
    }
    expect(owl[11].start).not.toMatch(/^Bring the blade out/);
    expect(owl[33].start).toMatch(
      /in from outside, by a way in and gaps that are open, with the tape across/,
    );
    expect(owl[24].start).toMatch(/through the gap beside it, cutting the tape that lies across/);
  });

  it('takes a block off before another one is sawn, threaded or not', () => {
    expect(owl[45].start).toMatch(
      /^Bring the blade out of A, .* its edge, with the tape across them cut, take A off the table and put E on\. /,
    );
    expect(owl[46].start).toMatch(/^Bring the blade out of E, .* from the edge of the board/);
    expect(harbour[171].start).toMatch(/^Bring the blade out of C, .* put A on\. Unplug the saw and thread/);
    expect(harbour[156].start).toMatch(/^Take A off the table and put C on\. Clamp the blade again/);
    const text = textOf(plans.owl);
    expect(text).toMatch(
      /after 28 steps, .*? If the blade is still in the work, .* tape across them cut; then/,
    );
    for (const at of [159, 164, 166]) {
      expect(startMark(harbour[at].step, 0.1, true)).toMatch(/^<rect/);
      expect(startMark(harbour[at].step, 0.1)).toMatch(/^<circle/);
    }
  });

  it('warns of narrow places only where they are still in the stock that is parted', () => {
    const [, second] = textOf(plans.harbour).split('Setting 2 of 7');
    expect(second).toMatch(/Mind the narrow places when you part the sheets/);
    const [, sixth] = textOf(plans.harbour).split('Setting 6 of 7');
    expect(sixth).not.toMatch(/Mind the narrow places when you part the sheets/);
  });
});
