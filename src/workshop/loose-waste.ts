import type { Bounds, Point } from '../geometry/point.js';
import type { LooseWaste, WastePlace } from './cut-plan.js';
import type { SheetSet } from './sheet-sets.js';
import { partArea, type WastePart } from './waste-parts.js';

interface OffPart {
  readonly part: WastePart;
  readonly sheets: SheetSet;
}

/** Parts that have one border come off as one, in the sheets of all. */
export function mergedWaste(parts: readonly OffPart[]): OffPart[] {
  const byBorder = new Map<string, OffPart>();
  for (const { part, sheets } of parts) {
    const lines = part.loops.flat().map(({ line }) => line);
    const key = [...new Set(lines)].sort((a, b) => a - b).join();
    const known = byBorder.get(key);
    byBorder.set(key, known === undefined ? { part, sheets } : { part, sheets: known.sheets | sheets });
  }
  return [...byBorder.values()];
}

/** @param sheets their ids, front to back */
export function looseWaste(part: WastePart, board: Bounds, sheets: readonly string[]): LooseWaste {
  const loops = part.loops.map((loop) => loop.map(({ at }) => at));
  return { sheets, loops, area: partArea(part), place: placeOn(board, centreOf(loops)) };
}

/** Where parts of waste lie, by the largest. */
export function placeOfParts(parts: readonly WastePart[], board: Bounds): WastePlace {
  const largest = parts.reduce((a, b) => (partArea(b) > partArea(a) ? b : a));
  return placeOn(board, centreOf(largest.loops.map((loop) => loop.map(({ at }) => at))));
}

const COLUMNS = ['left', '', 'right'] as const;
const ROWS = ['top', '', 'bottom'] as const;

/** In which ninth of the board a point lies. */
function placeOn([x0, y0, x1, y1]: Bounds, [x, y]: Point): WastePlace {
  const third = (v: number, from: number, to: number): number =>
    Math.max(0, Math.min(2, Math.floor((3 * (v - from)) / (to - from))));
  const words = [ROWS[third(y, y0, y1)], COLUMNS[third(x, x0, x1)]].filter((word) => word !== '');
  return words.length === 0 ? 'all round' : (words.join(' ') as WastePlace);
}

/** Centre of gravity of an area by its border. */
function centreOf(loops: readonly (readonly Point[])[]): Point {
  let [twice, sx, sy] = [0, 0, 0];
  for (const loop of loops) {
    loop.forEach(([x0, y0], i) => {
      const [x1, y1] = loop[(i + 1) % loop.length];
      const cross = x0 * y1 - x1 * y0;
      twice += cross;
      sx += (x0 + x1) * cross;
      sy += (y0 + y1) * cross;
    });
  }
  return [sx / (3 * twice), sy / (3 * twice)];
}
