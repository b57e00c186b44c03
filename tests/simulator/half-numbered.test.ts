import { describe, expect, it } from 'vitest';
import { type PlanReport, planReport } from '../../src/output/plan-json.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { type Cell, type CellPicture, cellRelief } from '../support/cell-relief.js';
import { simulatePlan } from './simulate-plan.js';

/** Found by random search, shrunk: pictures in which one half of a shape has a number and the other has none. */

const planned = (picture: CellPicture): PlanReport =>
  JSON.parse(JSON.stringify(planReport(planCuts(cellRelief(picture)))));

const circles = (depth: string, ...inside: readonly [depth: string, right?: string][]): Cell => ({
  depth,
  inside: inside.map(([own, right]) => ({ shape: 'circle', depth: own, right })),
});

describe('an opening that hangs on a half without a number', () => {
  const report = planned({
    rows: [[circles('2', ['0'], ['?', '1'])]],
    sheets: [6, 3],
    frame: 'board-edge',
  });

  it('stands around the blade, which has to be taken out', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const [last] = report.passes[report.passes.length - 1].steps.slice(-1);
    expect(last.captive).toBe(true);
  });

  it('is noticed where the plan does not say so', () => {
    const passes = report.passes.map((pass) => ({
      ...pass,
      steps: pass.steps.map(({ captive: _, ...step }) => step),
    }));
    expect(simulatePlan({ ...report, passes }).problems).toContain('at the end: the blade is caught');
  });
});

describe('an open line between a recess and a half without a number', () => {
  const report = planned({
    rows: [[circles('4', ['-1'], ['-1', '?'])]],
    sheets: [6, 3, 4, 3],
    frame: 'cut',
  });

  it('frees nothing while what it goes around hangs on the recess', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const [first] = report.passes[0].steps;
    expect([first.kind, first.frees]).toEqual(['outline', 'nothing']);
  });

  it('frees a block where it is closed', () => {
    const whole = planned({ rows: [[circles('4', ['-1'], ['3', '2'])]], sheets: [6, 3, 4, 3], frame: 'cut' });
    expect(simulatePlan(whole).problems).toEqual([]);
    const blocks = whole.passes.flatMap(({ steps }) => steps).filter(({ frees }) => frees === 'block');
    expect(blocks).toHaveLength(1);
  });
});

describe('a body whose parts meet in a point', () => {
  const rows = [
    [circles('?'), circles('0'), circles('+', ['-1'])],
    [circles('1'), circles('3'), circles('0')],
  ];
  const report = planned({ rows, sheets: [6, 3, 4, 3], frame: 'board-edge' });

  it('is sawn from the block that each line is in, without a hole', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const steps = report.passes.filter(({ phase }) => phase === 'pass').flatMap((pass) => pass.steps);
    expect(steps.filter(({ start }) => start.kind === 'drill')).toEqual([]);
  });
});

describe('an opening at the outline, beside halves of the picture without a number', () => {
  const row = [circles('1'), circles('1'), circles('?')];
  const rows = [row, [circles('4'), circles('3'), circles('0', ['-1'])], row];
  const report = planned({ rows, sheets: [6, 3, 4, 3], frame: 'cut' });

  it('has its way in through the board, not through the picture', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const [way] = report.passes.flatMap(({ steps }) => steps.flatMap(({ waysIn = [] }) => waysIn)).slice(1);
    // From the right edge of the board: its outline is at x = 70.
    expect(way.from).toBe('edge');
    expect(way.points[0][0]).toBeGreaterThan(70);
  });
});

describe('an island in a void that only a later line leads to', () => {
  const row = [circles('1'), circles('1'), circles('1')];
  const rows = [row, [circles('1'), circles('0', ['4']), circles('1')], [...row.slice(1), circles('4')]];
  const report = planned({ rows, sheets: [6, 3, 4, 3], frame: 'board-edge' });

  it('is reached along that line and through the void', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const [first] = report.passes[0].steps;
    // In at the edge of the board, 20 mm along the side of the corner piece.
    expect([first.start.kind, first.start.at[0]]).toEqual(['line', expect.closeTo(70, 9)]);
    expect(first.leadIn).toBeCloseTo(20, 6);
  });
});

describe('an opening at the outline between two parts of a body', () => {
  const rows = [[circles('4'), circles('0'), circles('+', ['-1'])]];
  const report = planned({ rows, sheets: [6, 3, 4, 3], frame: 'cut' });

  it('hangs on the board, and is no block', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    expect(report.passes.flatMap(({ steps }) => steps).filter(({ frees }) => frees === 'block')).toEqual([]);
  });
});

describe('a gap that was sawn from a hole, in waste that still stands', () => {
  const rows = [
    [circles('?'), circles('1'), circles('1')],
    [circles('0', ['-1'], ['2', '3']), circles('2', ['3', '-1']), circles('1')],
  ];
  const report = planned({ rows, sheets: [6, 3, 4, 3], frame: 'cut' });

  it('is come to by a way through that waste', () => {
    expect(simulatePlan(report).problems).toEqual([]);
    const [hole] = report.passes[0].steps;
    expect([hole.start.kind, hole.frees]).toEqual(['drill', 'piece']);
    const pass = report.passes.find(({ phase, number }) => phase === 'pass' && number === 2)!;
    const next = pass.steps.find(({ start }) => start.kind === 'edge')!;
    expect(next.waysIn?.map(({ from }) => from)).toEqual(['edge']);
  });
});
