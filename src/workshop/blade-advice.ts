import { BLADES, type Blade, bladeDiagonal } from '../../shared/tables/blades.js';
import { tightestTurn } from '../geometry/curvature.js';
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

/**
 * Advice on the blade for the highest setting and the tightest curve of a job: the one at hand where it copes
 * with both, else the thickest of the table that does, since it breaks and wanders least. It is advice, with its reason; the maker's packet
 * and the saw's manual go before it.
 */
export function bladeAdvice(passes: readonly Pass[], shapes: LineShapes, workshop: Workshop): Advice[] {
  const height = Math.max(0, ...passes.map((pass) => pass.height));
  if (height === 0) return [];
  const radius = tightestRadius(passes, shapes);
  const fitting = BLADES.filter((blade) => blade.height[0] <= height && height <= blade.height[1]);
  const turning = fitting.filter((blade) => blade.width * TURN_BY_WIDTH <= radius);
  const own = workshop.blade;
  const atHand = turning.find((blade) => Math.abs(own.width - blade.width) < SAME_WIDTH);
  const blade = atHand ?? turning[turning.length - 1] ?? fitting[0] ?? nearest(height);
  const tight = Number.isFinite(radius)
    ? `the tightest curve has a radius of ${radius.toFixed(1)} mm`
    : 'all lines are straight';
  const same = Math.abs(own.width - blade.width) < SAME_WIDTH;
  const advice: Advice[] = [
    {
      about: 'blade',
      text: same
        ? `${own.name} suits this job.`
        : `Think about a blade ${blade.name} instead of ${own.name}.`,
      reason:
        `The highest setting is ${height.toFixed(1)} mm, and ${tight}; ${blade.name} ` +
        `(${blade.width.toFixed(2)} × ${blade.thickness.toFixed(2)} mm) cuts ${blade.height[0]} to ${blade.height[1]} mm ` +
        `and follows curves down to about ${(blade.width * TURN_BY_WIDTH).toFixed(1)} mm.`,
    },
  ];
  if (radius < blade.width * TURN_BY_WIDTH) {
    advice.push({
      about: 'blade',
      text: 'Turn the tightest curves on the spot, or nibble them out from the waste side.',
      reason: `A radius of ${radius.toFixed(1)} mm is less than the ${blade.width.toFixed(2)} mm of the blade.`,
    });
  }
  if (bladeDiagonal(blade) > bladeDiagonal(own)) {
    advice.push({
      about: 'blade',
      text: 'With a wider blade, make the plan again: it needs larger holes.',
      reason: `${blade.name} is ${bladeDiagonal(blade).toFixed(2)} mm from corner to corner.`,
    });
  }
  return advice;
}

function nearest(height: number): Blade {
  return height < BLADES[0].height[0] ? BLADES[0] : BLADES[BLADES.length - 1];
}

function tightestRadius(passes: readonly Pass[], shapes: LineShapes): number {
  let radius = Number.POSITIVE_INFINITY;
  const seen = new Set<number>();
  for (const { steps } of passes) {
    for (const { edges } of steps) {
      for (const e of edges) {
        if (seen.has(e)) continue;
        seen.add(e);
        for (const c of shapes.curves(e)) {
          const turn = tightestTurn(c).radius;
          if (turn >= ROUNDED_CORNER && turn < radius) radius = turn;
        }
      }
    }
  }
  return radius;
}
