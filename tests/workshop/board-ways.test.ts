import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.js';
import type { CutPlan, CutStep } from '../../src/workshop/cut-plan.js';
import { CLEARANCE_TOLERANCE } from '../../src/workshop/line-shapes.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { sawMinutes } from '../../src/workshop/saw-time.js';
import { cellRelief } from '../support/cell-relief.js';
import { planFixture } from '../support/plan-fixture.js';

const plain = (depth: string) => ({ depth, inside: [] });

/** One square of 20 mm, from (10, 10) to (30, 30) or moved with the page. */
const single = planCuts(cellRelief({ rows: [[plain('1')]], sheets: [3] }));

const stepsOf = (plan: CutPlan): CutStep[] => plan.passes.flatMap((pass) => pass.steps);
const lengthOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - points[i][0], y - points[i][1]), 0);

describe('ways in through the waste of the board', () => {
  it('come straight from the edge, and are counted in length and time', () => {
    const [step] = stepsOf(single);
    const [way] = step.waysIn!;
    // The corner of the square lies 15 mm inside two edges of the board: none is shorter.
    expect(way).toMatchObject({ run: 0, from: 'edge', parts: [1] });
    expect(way.length).toBeCloseTo(15, 6);
    expect(lengthOf(way.points)).toBeCloseTo(way.length, 9);
    expect(step.length).toBeCloseTo(80 + 15, 6);
    expect(single.totals.cutLength).toBeCloseTo(95, 6);
    expect(single.totals.wayLength).toBeCloseTo(15, 6);
    const work = { height: 3, corners: step.corners, threaded: false, drilled: false };
    expect(step.minutes).toBeCloseTo(sawMinutes(single.workshop, { ...work, length: 95 }), 9);
    expect(single.passes[0].minutes).toBeCloseTo(step.minutes, 9);
  });

  it('leave a ring in one part, that comes off all round with the last line', () => {
    const [step] = stepsOf(single);
    expect(step.heldBy).toBe(0);
    expect(step.wasteOff).toHaveLength(1);
    // The board of 50 mm without the square.
    expect(step.wasteOff![0]).toMatchObject({ sheets: ['s1'], place: 'all round' });
    expect(step.wasteOff![0].area).toBeCloseTo(50 * 50 - 20 * 20, 6);
  });

  it('are taken again where a kerf is there: two squares side by side need one', () => {
    const plan = planCuts(cellRelief({ rows: [[plain('1'), plain('1')]], sheets: [3] }));
    const ways = stepsOf(plan).flatMap(({ waysIn = [] }) => waysIn);
    expect(ways.filter(({ from }) => from === 'edge')).toHaveLength(1);
    expect(plan.totals.wayLength).toBeCloseTo(15, 6);
  });

  it('are none where the outline is the edge of the board', () => {
    const plan = planFixture('harbour');
    expect(plan.relief.frame).toBe('board-edge');
    expect(stepsOf(plan).some(({ waysIn, wasteOff }) => waysIn !== undefined || wasteOff !== undefined)).toBe(
      false,
    );
    expect(plan.totals.wayLength).toBe(0);
  });

  it('keep the waste of the owl in a few parts, and tell when each comes off', () => {
    const plan = planFixture('owl');
    const steps = stepsOf(plan);
    const most = Math.max(...steps.flatMap(({ waysIn = [] }) => waysIn.flatMap(({ parts }) => parts)));
    expect(most).toBe(9);
    // In the front sheet all of them come off in the end.
    const off = steps.flatMap(({ wasteOff = [] }) => wasteOff.filter(({ sheets }) => sheets.includes('s1')));
    expect(off).toHaveLength(most);
    const { width, height } = plan.board;
    const picture = plan.relief.map.regions.reduce((sum, { area }) => sum + area, 0);
    const sum = off.reduce((total, { area }) => total + area, 0);
    const outline = plan.relief.map.regions.reduce((total, { outsideLength }) => total + outsideLength, 0);
    expect(Math.abs(sum - (width * height - picture))).toBeLessThan(CLEARANCE_TOLERANCE * outline);
    expect(steps[steps.length - 1].heldBy).toBe(0);
    expect(plan.totals.wayLength).toBeLessThan(270);
  });

  it('tell where the board comes apart: the owl at its head, since both sides of the moon hang on other parts', () => {
    const plan = planFixture('owl');
    const first = stepsOf(plan).find(({ boardApart }) => boardApart !== undefined)!;
    const ownerOf = new Map(plan.pieces.map(({ id, region }) => [region, id]));
    expect(first.regions.map((r) => ownerOf.get(r))).toEqual(['p3']);
    expect(first.boardApart!.map(({ place }) => place)).toEqual(['top left', 'top right']);
    expect(first.boardApart![1].regions.map((r) => ownerOf.get(r))).toEqual(['p8']);
    // What is apart stays so in the settings that follow, as far as it still stands.
    const settings = plan.passes.filter(({ boardApart }) => boardApart !== undefined);
    expect(settings.map(({ sheets }) => sheets.join())).toEqual(['s1,s2', 's1']);
  });
});
