import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { regionAt } from '../../src/plane/region-at.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { Relief, ReliefOptions } from '../../src/relief/relief.js';

/** Side of a cell, mm. */
export const CELL = 10;

/**
 * A drawing as rows of letters: each letter is a cell of 10 mm, equal letters side by side are one region, a dot
 * is outside. `numbers` says what is written into the first cell of every region of a letter.
 */
export function cellDrawing(rows: readonly string[], numbers: Readonly<Record<string, string>>): string {
  const at = (x: number, y: number): string => rows[y]?.[x] ?? '.';
  const width = Math.max(...rows.map((row) => row.length));
  const lines: string[] = [];
  for (let y = 0; y <= rows.length; y++) {
    for (let x = 0; x <= width; x++) {
      if (at(x, y) !== at(x, y - 1)) lines.push(`M${x * CELL} ${y * CELL}h${CELL}`);
      if (at(x, y) !== at(x - 1, y)) lines.push(`M${x * CELL} ${y * CELL}v${CELL}`);
    }
  }
  const texts = firstCells(rows)
    .filter(([x, y]) => numbers[at(x, y)] !== undefined)
    .map(([x, y]) => `<text x="${(x + 0.5) * CELL}" y="${(y + 0.5) * CELL}">${numbers[at(x, y)]}</text>`);
  const size = `width="${width * CELL}mm" height="${rows.length * CELL}mm" viewBox="0 0 ${width * CELL} ${rows.length * CELL}"`;
  const style = 'font-size="3" text-anchor="middle" dominant-baseline="central"';
  return `<svg xmlns="http://www.w3.org/2000/svg" ${size}><path fill="none" stroke="black" d="${lines.join('')}"/><g ${style}>${texts.join('')}</g></svg>`;
}

/** The relief of rows of letters, and the region of each letter (the first, where there are several). */
export interface CellRelief {
  readonly relief: Relief;
  readonly of: (letter: string) => number;
}

export function cellRelief(
  rows: readonly string[],
  numbers: Readonly<Record<string, string>>,
  stack: string,
  options: Partial<ReliefOptions> = {},
): CellRelief {
  const map = mapRegions(readDrawing(cellDrawing(rows, numbers)));
  const relief = buildRelief(map, { stack: parseStack(stack), ...options });
  const of = (letter: string): number => {
    const cell = firstCells(rows).find(([x, y]) => rows[y][x] === letter);
    if (cell === undefined) throw new Error(`no cell "${letter}"`);
    return regionAt(map, cellMiddle(cell));
  };
  return { relief, of };
}

export function cellMiddle([x, y]: Point): Point {
  return [(x + 0.5) * CELL, (y + 0.5) * CELL];
}

/** The first cell of each region, in reading order. */
function firstCells(rows: readonly string[]): [number, number][] {
  const seen = new Set<string>();
  const firsts: [number, number][] = [];
  rows.forEach((row, y) => {
    [...row].forEach((letter, x) => {
      if (letter === '.' || seen.has(`${x},${y}`)) return;
      firsts.push([x, y]);
      const open: [number, number][] = [[x, y]];
      for (const [a, b] of open) {
        if (rows[b]?.[a] !== letter || seen.has(`${a},${b}`)) continue;
        seen.add(`${a},${b}`);
        open.push([a + 1, b], [a - 1, b], [a, b + 1], [a, b - 1]);
      }
    });
  });
  return firsts;
}
