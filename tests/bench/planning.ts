import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import type { RegionNumber } from '../../src/relief/relief.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { randomInteger, randomSource } from '../support/random.js';

/** Side of a cell, mm. */
const CELL = 12;

/** Runs of which the median counts. */
const RUNS = 3;

/** CPU milliseconds of mapping, building and planning a seeded picture of about so many regions. */
export interface PlanningRow {
  readonly regions: number;
  readonly map: number;
  readonly relief: number;
  readonly plan: number;
  readonly ratio: number;
  readonly steps: number;
}

/**
 * Measures planning on a board of square cells with wavy sides, each with a curved shape in it, and half of
 * those with another one inside: numbers 1 to 4, recesses and openings by a seeded generator.
 */
export function measurePlanning(wanted: number): PlanningRow {
  const { svg, numbers } = boardOfCells(wanted);
  const drawing = readDrawing(svg);
  const stack = {
    sheets: [6, 3, 3, 3].map((thickness, j) => ({ id: `s${j + 1}`, thickness, material: 'poplar' })),
  };
  const runs = Array.from({ length: RUNS }, () => {
    const [map, mapTime] = timed(() => mapRegions(drawing));
    const [relief, reliefTime] = timed(() => buildRelief(map, { stack, numbers }));
    const [plan, planTime] = timed(() => planCuts(relief));
    return { map, plan, mapTime, reliefTime, planTime };
  });
  const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[RUNS >> 1];
  const map = median(runs.map((run) => run.mapTime));
  const plan = median(runs.map((run) => run.planTime));
  const relief = median(runs.map((run) => run.reliefTime));
  const steps = runs[0].plan.passes.reduce((sum, pass) => sum + pass.steps.length, 0);
  return { regions: runs[0].map.regions.length, map, relief, plan, ratio: plan / map, steps };
}

function timed<T>(run: () => T): [T, number] {
  const before = process.cpuUsage();
  const result = run();
  const { user, system } = process.cpuUsage(before);
  return [result, Math.round((user + system) / 1000)];
}

/** A drawing of about so many regions, and their numbers. */
export function boardOfCells(wanted: number): { svg: string; numbers: RegionNumber[] } {
  const side = Math.max(2, Math.round(Math.sqrt(wanted / 2.5)));
  const random = randomSource(11);
  const pick = <T>(list: readonly T[]): T => list[randomInteger(random, list.length)];
  const size = side * CELL;
  const lines: string[] = [];
  const numbers: RegionNumber[] = [];
  const wave = (t: number): string => `c4 ${t} 8 ${-t} 12 0`;
  const upright = (t: number): string => `c${t} 4 ${-t} 8 0 12`;
  for (let i = 0; i <= side; i++) {
    const t = i === 0 || i === side ? 0 : 1.2;
    lines.push(`M0 ${i * CELL}${wave(t).repeat(side)}`, `M${i * CELL} 0${upright(t).repeat(side)}`);
  }
  for (let j = 0; j < side; j++) {
    for (let i = 0; i < side; i++) {
      const [cx, cy] = [(i + 0.5) * CELL, (j + 0.5) * CELL];
      const depth = pick(['1', '2', '3', '4']);
      numbers.push({ at: [cx - 4, cy - 4], depth });
      lines.push(`M${cx - 3} ${cy}a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z`);
      numbers.push({ at: [cx - 2.5, cy], depth: pick(['0', '-1', '1', '2', '3', '4']) });
      if ((i + j) % 2 !== 0) continue;
      lines.push(`M${cx - 1.6} ${cy - 1.6}H${cx + 1.6}V${cy + 1.6}H${cx - 1.6}Z`);
      numbers.push({ at: [cx, cy], depth: pick(['0', '-1', '2', '3']) });
    }
  }
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size}mm" height="${size}mm" viewBox="0 0 ${size} ${size}">` +
    `<path fill="none" stroke="#000" d="${lines.join('')}"/></svg>`;
  return { svg, numbers };
}
