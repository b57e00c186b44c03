import type { Relief } from '../relief/relief.js';
import type { SheetSet } from './sheet-sets.js';

/** The sheets in which a region belongs to a piece, by region. */
export function keptSheets({ regions, bodies, stack }: Relief): SheetSet[] {
  const ids = stack.sheets.map(({ id }) => id);
  return regions.map(({ body, down }) => {
    if (body === null) return 0;
    return bodies[body].order.slice(down).reduce((set, id) => set | (1 << ids.indexOf(id)), 0);
  });
}
