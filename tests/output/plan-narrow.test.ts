import { describe, expect, it } from 'vitest';
import { narrowBySteps, narrowRows } from '../../src/output/plan-narrow.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { frontSheetsOf } from '../../src/workshop/bridge-where.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { planFixture } from '../support/plan-fixture.js';
import { recessPiece, square } from '../support/recess-piece.js';

const harbour = planFixture('harbour');

describe('the rows of narrow places', () => {
  const rows = narrowRows(harbour);

  it('hold each place once, with the narrowest in front', () => {
    expect(rows.flatMap(({ places }) => places)).toHaveLength(harbour.bridges.length);
    expect(new Set(rows.flatMap(({ places }) => places))).toEqual(new Set(harbour.bridges));
    for (const { bridge, places } of rows)
      expect(bridge.width).toBe(Math.min(...places.map(({ width }) => width)));
  });

  it('are one for the front sheets of a piece, and one for each other place', () => {
    const many = rows.filter(({ places }) => places.length > 1);
    expect(many.length).toBeGreaterThan(1);
    const named = rows.filter(({ bridge }) => frontSheetsOf(bridge.where) !== null);
    expect(new Set(named.map(({ bridge }) => bridge.where)).size).toBe(named.length);
    for (const row of many) expect(named).toContain(row);
  });

  it('say in which sheets, until when, and at which steps', () => {
    const text = writePlanText(harbour);
    const [, railing] = /\n( *1 {2}in s1 and s2, until they are glued on .*)\n/.exec(text)!;
    const [{ places }] = rows;
    const steps = [...narrowBySteps(harbour)].flatMap(([step, list]) =>
      list.some((bridge) => places.includes(bridge)) ? [step] : [],
    );
    expect(railing).toContain(`${Math.min(...steps)} … ${Math.max(...steps)} `);
    expect(railing.trim().split(/ {2,}/).pop()).toBe(String(places.length));
  });
});

describe('a bar of a front sheet in the words of a plan', () => {
  const piece = square(10, 10, 60, '3');
  const recesses = [square(24, 30, 12, '-2'), square(38.5, 30, 12, '-2'), square(24, 50, 12, '-1')];
  const plan = planCuts(recessPiece([piece, ...recesses], '3x 3 mm poplar'));
  const text = writePlanText(plan).replace(/\s+/g, ' ');

  it('is warned of at the step that leaves it, with its sheets', () => {
    expect(text).toMatch(/Go slowly: 2\.5 mm of wood stays in s1 and s2 beside this cut/);
  });

  it('is minded where its sheets are parted, at the saw and at the end', () => {
    const [first, second] = plan.passes;
    expect([first.sheets, second.moves]).toEqual([['s1', 's2'], [{ sheet: 's2', action: 'lift' }]]);
    const [, ...settings] = text.split(/ Setting \d of \d: /);
    expect(settings[0]).not.toMatch(/Mind the narrow places/);
    expect(settings[1]).toMatch(/Mind the narrow places when you part the sheets: No\. 1 in the list/);
    expect(text).toMatch(/Mind the narrow places when you part these pieces: No\. 1 in the list/);
  });

  it('is not minded where it is sawn later than the sheets are parted', () => {
    // Between the recess and the outline, which is sawn last.
    const near = planCuts(
      recessPiece([piece, square(13, 30, 12, '-2'), square(40, 30, 12, '-1')], '3x 3 mm poplar', {
        frame: 'cut',
      }),
    );
    expect(near.bridges.map(({ where }) => where)).toEqual(['p1 s1+s2']);
    expect(near.passes[1].moves).toEqual([{ sheet: 's2', action: 'lift' }]);
    const said = writePlanText(near).replace(/\s+/g, ' ');
    expect(said).not.toMatch(/when you part the sheets/);
    expect(said).toMatch(/when you part these pieces: No\. 1 in the list/);
  });
});
