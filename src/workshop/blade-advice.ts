import { BLADES, type Blade, bladeDiagonal } from '../../shared/tables/blades.js';
import { findMaterial } from '../../shared/tables/woods.js';
import { tightestTurn } from '../geometry/curvature.js';
import type { Stack } from '../relief/stack.js';
import type { Advice, Pass, Workshop } from './cut-plan.js';
import type { LineShapes } from './line-shapes.js';

/**
 * A curve turns on a blade as long as its radius is at least about the width of the blade; tighter ones are
 * corners, to be turned on the spot. Common practice, no source.
 */
const TURN_BY_WIDTH = 1;

/** A curve with a smaller radius than this is taken for a rounded corner, not a curve to follow, mm. */
const ROUNDED_CORNER = 0.5;

/** Blades of one number differ by less than this between makers, mm. */
const SAME_WIDTH = 0.05;

/** A curve with a radius of less than this many blade widths is near the limit. Common practice, no source. */
const NEAR_LIMIT = 1.25;

/**
 * Specific gravity of the middling hard wood that the heights of the blade table are for, and how much less or more
 * than it any material counts. Common practice, no source: the denser, the coarser the blade.
 */
const MIDDLING = 0.55;
const LEAST_LOAD = 0.8;
const MOST_LOAD = 1.3;

/**
 * Advice on the blade by stack height, material and the tightest curve of a job: the one at hand where it copes, else
 * the thickest of the table that does, since it breaks and wanders least. It is advice, with its reason; the maker's
 * packet and the saw's manual go before it.
 */
export function bladeAdvice(
  passes: readonly Pass[],
  shapes: LineShapes,
  workshop: Workshop,
  stack: Stack,
): Advice[] {
  const highest = hardestSetting(passes, stack);
  if (highest === null) return [];
  const { height, load, materials } = highest;
  const radius = tightestRadius(passes, shapes);
  const fitting = BLADES.filter((blade) => blade.height[0] <= load && load <= blade.height[1]);
  const turning = fitting.filter((blade) => blade.width * TURN_BY_WIDTH <= radius);
  const own = workshop.blade;
  const isOwn = (blade: Blade): boolean => Math.abs(own.width - blade.width) < SAME_WIDTH;
  const blade = turning.find(isOwn) ?? turning[turning.length - 1] ?? fitting[0] ?? nearest(load);
  const tight = Number.isFinite(radius)
    ? `the tightest curve has a radius of ${radius.toFixed(1)} mm`
    : 'all lines are straight';
  const like =
    Math.abs(load - height) < 0.1 * height
      ? ''
      : `, which saws like ${load.toFixed(1)} mm of middling hard wood`;
  const advice: Advice[] = [
    {
      about: 'blade',
      text: isOwn(blade)
        ? `${own.name} suits this job.`
        : `Think about a blade ${blade.name} instead of ${own.name}.`,
      reason:
        `The highest setting is ${height.toFixed(1)} mm of ${materials.join(', ')}${like}, and ${tight}; ${blade.name} ` +
        `(${blade.width.toFixed(2)} × ${blade.thickness.toFixed(2)} mm) cuts ${blade.height[0]} to ${blade.height[1]} mm ` +
        `and follows curves down to about ${(blade.width * TURN_BY_WIDTH).toFixed(1)} mm.`,
    },
  ];
  const say = (text: string, reason: string): void => {
    advice.push({ about: 'blade', text, reason });
  };
  if (radius < blade.width * TURN_BY_WIDTH) {
    say(
      `Turn the tightest curves on the spot, or nibble them out from the waste side: ${tightWords(passes, shapes, blade.width * TURN_BY_WIDTH)}.`,
      `A radius of ${radius.toFixed(1)} mm is less than the ${blade.width.toFixed(2)} mm of the blade.`,
    );
  } else if (radius < blade.width * NEAR_LIMIT) {
    say(
      `Go slowly in the tightest curves: ${tightWords(passes, shapes, blade.width * NEAR_LIMIT)}.`,
      'They are near the limit of what the blade follows.',
    );
  }
  if (stack.sheets.some(({ material }) => findMaterial(material)?.kind === 'board')) {
    say(
      'Change the blade early.',
      'The glue in plywood and fibreboards dulls it faster than solid wood does.',
    );
  }
  if (bladeDiagonal(blade) > bladeDiagonal(own)) {
    say(
      'With a wider blade, make the plan again: it needs larger holes.',
      `${blade.name} is ${bladeDiagonal(blade).toFixed(2)} mm from corner to corner.`,
    );
  }
  return advice;
}

/** The setting that is hardest to saw: its height, what that is in middling hard wood, and what it is of. */
function hardestSetting(
  passes: readonly Pass[],
  { sheets }: Stack,
): { height: number; load: number; materials: string[] } | null {
  let hardest: { height: number; load: number; materials: string[] } | null = null;
  for (const pass of passes) {
    const own = pass.sheets.map((id) => sheets.find((sheet) => sheet.id === id)!);
    const load = own.reduce((sum, { thickness, material }) => sum + thickness * loadOf(material), 0);
    if (pass.height === 0 || (hardest !== null && load <= hardest.load)) continue;
    hardest = { height: pass.height, load, materials: [...new Set(own.map(({ material }) => material))] };
  }
  return hardest;
}

/** How much harder than middling hard wood a material is to saw; 1 where it is not in the table. */
function loadOf(material: string): number {
  const found = findMaterial(material);
  if (found === null) return 1;
  const gravity = found.kind === 'wood' ? found.wood.gravity : found.board.gravity;
  return Math.min(MOST_LOAD, Math.max(LEAST_LOAD, gravity / MIDDLING));
}

function nearest(height: number): Blade {
  return height < BLADES[0].height[0] ? BLADES[0] : BLADES[BLADES.length - 1];
}

function tightestRadius(passes: readonly Pass[], shapes: LineShapes): number {
  let radius = Number.POSITIVE_INFINITY;
  eachCurve(passes, shapes, (own) => {
    radius = Math.min(radius, own);
  });
  return radius;
}

/** So many steps are named in one piece of advice. */
const MOST_STEPS = 12;

/** The steps with curves below a radius: `steps 7, 12 and 3 more`. */
function tightWords(passes: readonly Pass[], shapes: LineShapes, below: number): string {
  const found = new Set<number>();
  eachCurve(passes, shapes, (own, step) => {
    if (own < below) found.add(step);
  });
  const numbers = [...found];
  const shown = numbers.slice(0, MOST_STEPS).join(', ');
  const rest = numbers.length > MOST_STEPS ? ` and ${numbers.length - MOST_STEPS} more` : '';
  return `${numbers.length === 1 ? 'step' : 'steps'} ${shown}${rest}`;
}

/** The tightest radius of each curve that is to be followed, with the number of the step that saws it first. */
function eachCurve(
  passes: readonly Pass[],
  shapes: LineShapes,
  visit: (radius: number, step: number) => void,
): void {
  const seen = new Set<number>();
  let step = 0;
  for (const { edges } of passes.flatMap(({ steps }) => steps)) {
    step++;
    for (const e of edges) {
      if (seen.has(e)) continue;
      seen.add(e);
      for (const c of shapes.curves(e)) {
        const { radius } = tightestTurn(c);
        if (radius >= ROUNDED_CORNER) visit(radius, step);
      }
    }
  }
}
