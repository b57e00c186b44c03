import { readDrawing } from '../../src/drawing/read-drawing.js';
import type { Point } from '../../src/geometry/point.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { RegionNumber, Relief, ReliefOptions } from '../../src/relief/relief.js';

/** A closed line in a drawing, and the number of what it encloses, written at a place in there. */
export interface NumberedRing {
  readonly points: readonly Point[];
  readonly depth: string;
  /** Default: beside the first corner. */
  readonly at?: Point;
}

export const rectangle = (x: number, y: number, width: number, height: number): Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** A square recess or opening, numbered near its upper left corner. */
export function square(x: number, y: number, side: number, depth: string): NumberedRing {
  return { points: rectangle(x, y, side, side), depth };
}

/**
 * The relief of one piece with rings in it; all lie within a page of 100 × 100 mm.
 *
 * @param face asked for on the front of the piece
 */
export function recessPiece(
  rings: readonly NumberedRing[],
  stack: string,
  options: Partial<ReliefOptions> & { readonly face?: string } = {},
): Relief {
  const { face, ...rest } = options;
  const lines = rings.map(({ points }) => `M${points.map(([x, y]) => `${x} ${y}`).join('L')}Z`);
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">' +
    `<path d="${lines.join('')}" fill="none" stroke="black"/></svg>`;
  const numbers = rings.map(
    ({ points, depth, at }, i): RegionNumber => ({
      depth,
      at: at ?? [points[0][0] + BESIDE, points[0][1] + BESIDE],
      ...(i === 0 && face !== undefined ? { face } : {}),
    }),
  );
  return buildRelief(mapRegions(readDrawing(svg)), {
    stack: parseStack(stack),
    numbers,
    frame: 'board-edge',
    ...rest,
  });
}

/** From the first corner of a ring to where its number stands, mm. */
const BESIDE = 0.4;
