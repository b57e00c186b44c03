import type { LooseWaste } from '../workshop/cut-plan.js';
import { svgNumber } from './svg-markup.js';

/** The border of waste of the board as path data, one subpath a loop, for the even-odd rule. */
export function wastePath(loops: LooseWaste['loops'], digits: number): string {
  const num = (value: number): string => svgNumber(value, digits);
  return loops.map((loop) => `M${loop.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}Z`).join('');
}
