import { describe, expect, it } from 'vitest';
import { type PlanReport, planReport } from '../../src/output/plan-json.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { cellRelief } from '../support/cell-relief.js';
import { simulatePlan } from './simulate-plan.js';

/** A plan as JSON that a test may spoil. */
type Loose = {
  -readonly [K in keyof PlanReport]: PlanReport[K] extends readonly (infer T)[] ? Spoilt<T>[] : PlanReport[K];
};
type Spoilt<T> = T extends object
  ? { -readonly [K in keyof T]: T[K] extends readonly (infer U)[] ? Spoilt<U>[] : Spoilt<T[K]> }
  : T;

function goodPlan(): Loose {
  const relief = cellRelief({
    rows: [
      [
        { depth: '3', inside: [{ shape: 'square', depth: '-1' }] },
        { depth: '2', inside: [{ shape: 'circle', depth: '0' }] },
        { depth: '1', inside: [{ shape: 'circle', depth: '3' }] },
      ],
    ],
    sheets: [3, 3, 3],
  });
  return JSON.parse(JSON.stringify(planReport(planCuts(relief)))) as Loose;
}

/** Problems after the plan was spoilt. */
function spoil(change: (plan: Loose) => void): string {
  const plan = goodPlan();
  change(plan);
  return simulatePlan(plan as unknown as PlanReport).problems.join('\n');
}

const steps = (plan: Loose) => plan.passes.flatMap((pass) => pass.steps);

describe('the simulator', () => {
  it('has nothing to say about a good plan', () => {
    expect(spoil(() => {})).toBe('');
  });

  it('notices a line that is not sawn', () => {
    const said = spoil((plan) => {
      const step = steps(plan).find((s) => s.frees === 'piece' && !s.path.includes('A'))!;
      step.path = step.path.replace(/ [\d.]+ [\d.]+Z?$/, '');
    });
    expect(said).toContain('held');
  });

  it('notices a recess that is sawn through a sheet that should close it', () => {
    const said = spoil((plan) => {
      const pass = plan.passes.find((p) => p.phase === 'recesses')!;
      pass.sheets = ['s1', 's2'];
      pass.height = 6;
      for (const step of pass.steps) step.sheets = ['s1', 's2'];
      plan.passes[1].moves = [{ sheet: 's3', action: 'put-back' }];
    });
    expect(said).toContain('in two in s2');
  });

  it('notices a blade that is caught, and one that is taken out without need', () => {
    const forget = spoil((plan) => {
      for (const step of steps(plan)) delete (step as { captive?: true }).captive;
    });
    expect(forget).toContain('whether the blade is caught');
    const loose = spoil((plan) => {
      for (const step of steps(plan)) delete (step.start as { released?: true }).released;
    });
    expect(loose).toContain('whether the blade had to be taken out');
    const idle = spoil((plan) => {
      const last = steps(plan).findLast((step) => step.captive !== true)!;
      (last as { captive?: true }).captive = true;
    });
    expect(idle).toContain('not caught');
  });

  it('notices sheets that are not there', () => {
    expect(
      spoil((plan) => {
        plan.passes[1].moves = [];
      }),
    ).toContain('held');
    expect(
      spoil((plan) => {
        plan.passes[1].height = 4;
      }),
    ).toContain('height');
  });

  it('notices a hole outside the waste, one that is too small, and one too near the line', () => {
    const drilled = (plan: Loose) => steps(plan).find((s) => s.start.where === 'waste')!.start;
    expect(
      spoil((plan) => {
        drilled(plan).at = [24, 24];
      }),
    ).toContain('reaches');
    expect(
      spoil((plan) => {
        drilled(plan).diameter = 0.5;
      }),
    ).toContain('does not pass the blade');
    expect(
      spoil((plan) => {
        drilled(plan).clearance = 0.1;
      }),
    ).toContain('clear of the line');
  });

  it('notices a start that the blade does not get to', () => {
    const said = spoil((plan) => {
      const start = steps(plan).find((s) => s.start.kind === 'drill' && s.frees === 'piece')!.start;
      start.kind = 'edge';
    });
    expect(said).toContain("can't be reached");
  });

  it('notices a way in that is missing, leads elsewhere, leaves the waste or is measured wrongly', () => {
    const first = (plan: Loose) => steps(plan).find((s) => s.waysIn?.[0]?.from === 'edge')!;
    const missing = spoil((plan) => {
      delete (first(plan) as { waysIn?: unknown }).waysIn;
    });
    expect(missing).toContain("can't be reached");
    const elsewhere = spoil((plan) => {
      first(plan).waysIn![0].points = [...first(plan).waysIn![0].points].reverse();
    });
    expect(elsewhere).toContain('does not lead to the start');
    expect(elsewhere).toContain('does not begin at the edge');
    const through = spoil((plan) => {
      const way = first(plan).waysIn![0];
      way.points = [way.points[0], [35, 25], way.points[way.points.length - 1]];
    });
    expect(through).toContain('leaves the waste');
    const longer = spoil((plan) => {
      first(plan).waysIn![0].length += 1;
    });
    expect(longer).toContain('mm of the way in are new');
  });

  it('notices waste of the board that falls into other parts, or comes off at another step', () => {
    const parts = spoil((plan) => {
      const way = steps(plan).flatMap(({ waysIn = [] }) => waysIn)[0];
      way.parts = way.parts.map((n) => n + 1);
    });
    expect(parts).toContain('parts, the plan says');
    const off = (plan: Loose) => steps(plan).find((s) => s.wasteOff !== undefined)!;
    const silent = spoil((plan) => {
      delete (off(plan) as { wasteOff?: unknown }).wasteOff;
    });
    expect(silent).toContain('waste comes off');
    const early = spoil((plan) => {
      const own = off(plan);
      const before = steps(plan)[steps(plan).indexOf(own) - 1];
      Object.assign(before, { wasteOff: own.wasteOff });
    });
    expect(early).toContain('waste comes off');
    const held = spoil((plan) => {
      const own = steps(plan).find((s) => s.heldBy !== undefined)!;
      own.heldBy = own.heldBy! + 1;
    });
    expect(held).toContain('parts of the waste hold');
  });

  it('notices a board that comes apart, or does not', () => {
    // Squares around a void: those that are sawn out first leave two that hang on parts of the board.
    const square = (depth: string) => ({ depth, inside: [] });
    const nested = { depth: '1', inside: [{ shape: 'circle', depth: '2', right: '-1' }] } as const;
    const seat = { depth: '1', inside: [{ shape: 'circle', depth: '+' }] } as const;
    const rows = [
      [square('0'), square('1'), seat],
      [nested, square('1'), square('1')],
    ];
    const relief = cellRelief({ rows, sheets: [6, 3] });
    const spoilOther = (change: (plan: Loose) => void): string => {
      const plan = JSON.parse(JSON.stringify(planReport(planCuts(relief)))) as Loose;
      change(plan);
      return simulatePlan(plan as unknown as PlanReport).problems.join('\n');
    };
    expect(spoilOther(() => {})).toBe('');
    const apart = (plan: Loose) => steps(plan).filter((s) => s.boardApart !== undefined);
    const silent = spoilOther((plan) => {
      for (const step of apart(plan)) delete (step as { boardApart?: unknown }).boardApart;
    });
    expect(silent).toContain('parts of the board come apart');
    const other = spoilOther((plan) => {
      const [lump] = apart(plan)[0].boardApart!;
      lump.regions = lump.regions.slice(1);
    });
    expect(other).toContain('is no part by itself');
    const idle = spoil((plan) => {
      const step = steps(plan).find((s) => s.boardApart === undefined)!;
      Object.assign(step, { boardApart: [{ regions: [...step.regions], place: 'top' }] });
    });
    expect(idle).toContain('parts of the board come apart');
  });

  it('notices a step that comes too early', () => {
    const said = spoil((plan) => {
      const pass = plan.passes.find((p) => p.number === 3 && p.phase === 'pass')!;
      const step = plan.passes.at(-1)!.steps.pop()!;
      step.sheets = [...pass.sheets];
      pass.steps.unshift(step);
    });
    expect(said).not.toBe('');
  });

  it('notices a piece that is taken for waste', () => {
    const said = spoil((plan) => {
      const step = steps(plan).find((s) => s.frees === 'piece')!;
      step.frees = 'waste';
      step.pieces = [];
    });
    expect(said).toContain('takes');
  });
});
