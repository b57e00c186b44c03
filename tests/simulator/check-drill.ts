import type { PassEntry, StepEntry } from '../../src/output/plan-json.js';
import { flatPath, type XY } from './flat-path.js';
import type { PlanWorld } from './plan-world.js';
import { SegmentStore } from './segment-store.js';

/** Points on a rim that are looked at. */
const POINTS = 48;

/** How near a hole on a line must be to it, mm. */
const ON_LINE = 0.03;

/** Rounding of the written numbers, mm. */
const ROUNDING = 1e-3;

/** What is wrong with the hole of a step: in waste with its margin, or on the line that is sawn. */
export function checkDrill(
  world: PlanWorld,
  pass: PassEntry,
  step: StepEntry,
  isOpen: (region: string) => boolean,
): string[] {
  const { at, diameter, where, clearance, bit } = step.start;
  const { blade, bladeClearance, drillMargin, bits } = world.report.workshop;
  const wrong: string[] = [];
  const hole = Math.hypot(blade.width, blade.thickness) + bladeClearance;
  if (diameter === null || diameter < hole - 1e-9)
    wrong.push(`a hole of ${diameter} mm does not pass the blade`);
  if (!bits.some(({ name, diameter: size }) => name === bit && size === diameter)) {
    wrong.push(`no bit ${bit} of ${diameter} mm is at hand`);
  }
  if (where === 'line') {
    const border = new SegmentStore();
    for (const run of flatPath(step.path)) border.add(run, 0);
    if (border.distance(at as XY, ON_LINE) > ON_LINE)
      wrong.push(`the hole at ${at.join(', ')} is not on the line`);
    return wrong;
  }
  if ((clearance ?? -1) < drillMargin - 1e-9) wrong.push(`only ${clearance} mm clear of the line`);
  const radius = (diameter ?? 0) / 2 + (clearance ?? 0) - ROUNDING;
  for (let k = 0; k <= POINTS; k++) {
    const r = k === POINTS ? 0 : radius;
    const angle = (2 * Math.PI * k) / POINTS;
    const cell = world.at([at[0] + r * Math.cos(angle), at[1] + r * Math.sin(angle)]);
    if (isOpen(cell)) wrong.push(`the hole at ${at.join(', ')} is in the air`);
    for (const sheet of pass.sheets) {
      const owner = world.owner(cell, sheet);
      if (owner !== null)
        wrong.push(`the hole at ${at.join(', ')} with its margin reaches ${owner} in ${sheet}`);
    }
    if (wrong.length > 0) break;
  }
  return wrong;
}
