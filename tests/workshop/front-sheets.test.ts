import { describe, expect, it } from 'vitest';
import { checkRelief } from '../../src/checks/check-relief.js';
import { distance, type Point } from '../../src/geometry/point.js';
import type { Relief } from '../../src/relief/relief.js';
import { frontSheetsOf } from '../../src/workshop/bridge-where.js';
import type { Bridge } from '../../src/workshop/cut-plan.js';
import { finishedScenes } from '../../src/workshop/finished-scenes.js';
import { neededWidth } from '../../src/workshop/needed-width.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { recessPiece, rectangle, square } from '../support/recess-piece.js';

const KERF = planCuts(recessPiece([square(10, 10, 60, '1')], '3 mm poplar')).workshop.blade.thickness;

/** What one sheet asks for where the blade goes through so much. */
const needed = (thickness: number, heightSawn: number): number =>
  neededWidth({ material: 'poplar', thickness, heightSawn, kerf: KERF, grainAngle: null });

const bridgesOf = (relief: Relief): readonly Bridge[] => planCuts(relief).bridges;
const told = (bridges: readonly Bridge[]): [string, number][] =>
  bridges.map(({ where, width }) => [where, Number(width.toFixed(6))]);

/** A square piece of 60 mm in three sheets of poplar, 3 mm each. */
const piece = square(10, 10, 60, '3');
const STACK = '3x 3 mm poplar';

describe('a bar between two recesses', () => {
  const relief = recessPiece([piece, square(24, 30, 12, '-1'), square(38.5, 30, 12, '-1')], STACK);

  it('is as wide as they lie apart, in the front sheet alone', () => {
    const bridges = bridgesOf(relief);
    expect(told(bridges)).toEqual([['p1 s1', 2.5]]);
    expect([bridges[0].from[0], bridges[0].to[0]].sort()).toEqual([36, 38.5]);
  });

  it('needs what that sheet asks for, sawn alone', () => {
    expect(bridgesOf(relief)[0].needed).toBeCloseTo(needed(3, 3), 9);
  });

  it('is none where it is wide enough', () => {
    const wide = [square(24, 30, 12, '-1'), square(36 + needed(3, 3) + 0.001, 30, 12, '-1')];
    expect(bridgesOf(recessPiece([piece, ...wide], STACK))).toEqual([]);
  });

  it('is a note where the ring holds, and names the sheet', () => {
    for (const found of [checkRelief(relief), checkRelief(relief, planCuts(relief))]) {
      const thin = found.filter(({ rule }) => rule === 'thin-bridge');
      expect(thin.map(({ level }) => level)).toEqual(['note']);
      expect(thin[0].message).toMatch(/\((p1 )?s1\) is 2\.5 mm wide/);
      expect(thin[0].fix).not.toMatch(/fewer sheets/);
    }
  });
});

describe('a bar between a recess and the outline', () => {
  const relief = recessPiece([piece, square(13, 30, 12, '-1')], STACK);

  it('is sawn at the height of the piece on one side, and needs what that asks for', () => {
    const bridges = bridgesOf(relief);
    expect(told(bridges)).toEqual([['p1 s1', 3]]);
    expect(bridges[0].needed).toBeCloseTo(needed(3, 9), 9);
  });

  it('is none in a piece of one level, nor where the recess is an opening', () => {
    expect(bridgesOf(recessPiece([piece], STACK))).toEqual([]);
    const opening = bridgesOf(recessPiece([piece, square(13, 30, 12, '0')], STACK));
    expect(told(opening)).toEqual([['p1', 3]]);
  });

  it('lies in the sheet that the piece shows, where sheets are swapped', () => {
    const stack = '2 mm poplar, 6 mm poplar, 3 mm poplar';
    const swapped = recessPiece([piece, square(14, 30, 12, '-1')], stack, { face: 's2' });
    expect(swapped.bodies[0].order[0]).toBe('s2');
    expect(told(bridgesOf(swapped))).toEqual([['p1 s2', 4]]);
    // The thin sheet in front of the stack needs less than 4 mm.
    expect(bridgesOf(recessPiece([piece, square(14, 30, 12, '-1')], stack))).toEqual([]);
  });
});

describe('two pieces side by side', () => {
  it('have a bar each, although they are one in the stack while the recesses are sawn', () => {
    const left = { points: rectangle(10, 10, 30, 60), depth: '3' };
    const right = { points: rectangle(40, 10, 30, 60), depth: '3' };
    const relief = recessPiece([left, right, square(26, 30, 12, '-1'), square(43, 30, 12, '-1')], STACK);
    expect(told(bridgesOf(relief))).toEqual([
      ['p1 s1', 2],
      ['p2 s1', 3],
    ]);
  });
});

describe('recesses of several depths', () => {
  it('as deep as two sheets are one run of both', () => {
    const relief = recessPiece([piece, square(24, 30, 12, '-2'), square(38.5, 30, 12, '-2')], STACK);
    const bridges = bridgesOf(relief);
    expect(told(bridges)).toEqual([['p1 s1+s2', 2.5]]);
    expect(bridges[0].needed).toBeCloseTo(needed(3, 6), 9);
  });

  it('are named together where a place is narrow in several runs', () => {
    const pair = [square(24, 30, 12, '-2'), square(38.5, 30, 12, '-2')];
    const relief = recessPiece([piece, ...pair, square(24, 50, 12, '-1')], STACK);
    expect(finishedScenes(relief)[0].fronts.map(({ where }) => where)).toEqual(['p1 s1', 'p1 s2']);
    expect(told(bridgesOf(relief))).toEqual([['p1 s1+s2', 2.5]]);
  });

  it('beside each other are narrow in the sheets that both go through', () => {
    const relief = recessPiece([piece, square(24, 30, 12, '-1'), square(38.5, 30, 12, '-2')], STACK);
    expect(told(bridgesOf(relief))).toEqual([['p1 s1', 2.5]]);
  });

  it('one in the other are narrow where the inner ones are alone, or beside the outer one', () => {
    const inner = [square(30, 30, 6, '-1'), square(38, 30, 6, '-1')];
    const outer = { ...square(24, 24, 26, '-1'), at: [25, 25] as Point };
    const nested = recessPiece([piece, outer, ...inner], STACK);
    // In front of it the outer recess is open.
    expect(told(bridgesOf(nested))).toEqual([['p1 s2', 2]]);
    expect(bridgesOf(nested)[0].needed).toBeCloseTo(needed(3, 6), 9);
    const runs = finishedScenes(nested)[0].fronts.map(({ where, regions }) => [where, regions.length]);
    expect(runs).toEqual([
      ['p1 s1', 1],
      ['p1 s2', 2],
    ]);
    const atEdge = { ...square(12, 24, 30, '-1'), at: [13, 25] as Point };
    expect(told(bridgesOf(recessPiece([piece, atEdge, square(20, 30, 6, '-1')], STACK)))).toEqual([
      ['p1 s1', 2],
    ]);
  });

  it('leave parts of a sheet that do not hang together, each by itself', () => {
    // A pane of one sheet in the middle of four that go two sheets down.
    const ring = rectangle(24, 24, 30, 30);
    const middle = { ...square(34, 34, 10, '-1'), at: [39, 39] as Point };
    const bars = [
      { points: rectangle(34, 24, 10, 10), depth: '-2' },
      { points: rectangle(34, 44, 10, 10), depth: '-2' },
      { points: rectangle(24, 34, 10, 10), depth: '-2' },
      { points: rectangle(44, 34, 10, 10), depth: '-2' },
    ];
    const corners = [24, 44].flatMap((x) =>
      [24, 44].map((y) => ({ points: rectangle(x, y, 10, 10), depth: '-2' })),
    );
    const relief = recessPiece([piece, { points: ring, depth: '-2' }, middle, ...bars, ...corners], STACK);
    const [{ fronts }] = finishedScenes(relief);
    expect(fronts.map(({ where, regions }) => [where, regions.length])).toEqual([
      ['p1 s1', 1],
      ['p1 s2', 1],
      ['p1 s2', 1],
    ]);
    expect(bridgesOf(relief)).toEqual([]);
  });
});

describe('what is narrow in the whole piece', () => {
  // An opening leaves a wall of 3 mm at the left.
  const opening = { points: rectangle(13, 20, 20, 40), depth: '0' };

  it('is told once, of the piece', () => {
    const far = recessPiece([piece, opening, square(45, 30, 12, '-1')], STACK);
    const near = recessPiece([piece, opening, square(36, 30, 12, '-1')], STACK);
    expect(told(bridgesOf(far))).toEqual([['p1', 3]]);
    expect(told(bridgesOf(near))).toEqual([
      ['p1', 3],
      ['p1 s1', 3],
    ]);
  });

  it('keeps its name where a front sheet would lose more with it', () => {
    // The wall of 3 mm opens a ring; in the front sheet a part hangs by it and by the bar beside the recess.
    const above = { points: rectangle(13, 20, 40, 12), depth: '0' };
    const below = { points: rectangle(13, 34, 40, 12), depth: '-1' };
    const relief = recessPiece([piece, above, below], STACK);
    const wall = bridgesOf(relief).find(({ at }) => at[1] > 20 && at[1] < 32 && at[0] < 13);
    expect(wall).toMatchObject({ where: 'p1', effect: 'hangs' });
    const alone = bridgesOf(recessPiece([piece, above], STACK));
    expect(alone).toMatchObject([{ where: 'p1', effect: 'opens' }]);
  });

  it('is not told again in bits where a recess interrupts it', () => {
    const wall = { points: rectangle(13, 14, 50, 52), depth: '0' };
    const slit = { points: rectangle(11.2, 38, 0.8, 4), depth: '-1' };
    const bridges = bridgesOf(recessPiece([piece, wall, slit], STACK));
    const left = told(bridges).filter(([, width]) => width < 3.5);
    expect(left.filter(([where]) => where === 'p1')).toEqual([['p1', 3]]);
    expect(left.filter(([where]) => where !== 'p1')).toEqual([
      ['p1 s1', 1.2],
      ['p1 s1', 1],
    ]);
  });
});

describe('a hole in a recess', () => {
  it('begins the cut away from the bar beside it', () => {
    const at = (x: number): Point => {
      const relief = recessPiece([piece, square(x, 30, 5, '-1')], STACK);
      const [step] = planCuts(relief).passes.flatMap(({ steps }) => steps);
      expect(step.start.kind).toBe('drill');
      return step.start.begin!;
    };
    // The corners are alike but for the bar of 2 mm, which ends half way between two of them.
    for (const x of [12, 63]) {
      const edge = x === 12 ? 12 : 68;
      expect(distance(at(x), [edge, 32.5]), `recess at ${x}`).toBeGreaterThan(3);
    }
  });
});

describe('frontSheetsOf', () => {
  it('tells front sheets from all else that is narrow', () => {
    expect(frontSheetsOf('p12 s1+s2')).toEqual({ piece: 'p12', sheets: ['s1', 's2'] });
    for (const where of ['p12', 's1', 's1+s2', 'pass 2']) expect(frontSheetsOf(where)).toBeNull();
  });
});
