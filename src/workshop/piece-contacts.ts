import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { stackHeight } from '../relief/stack-height.js';

/** Two pieces that lie side by side. */
export interface Contact {
  /** Indices into `relief.bodies`, `a` < `b`. */
  readonly a: number;
  readonly b: number;
  /** Length of their common border, mm. */
  readonly length: number;
  /** What can be glued: the common border times the height that both have there, flush at the back; mm². */
  readonly area: number;
}

/** All contacts of a relief of pieces, by their bodies. */
export function pieceContacts(relief: Relief): Contact[] {
  const { map, regions, bodies, stack } = relief;
  const found = new Map<string, { a: number; b: number; length: number; area: number }>();
  const heights = regions.map(({ body, down }, r) =>
    body === null || map.regions[r].addOn ? 0 : stackHeight(stack, bodies[body].order.slice(down)),
  );
  for (const { left, right, length } of map.edges) {
    if (left === OUTSIDE || right === OUTSIDE || left === right) continue;
    const [one, two] = [regions[left].body, regions[right].body];
    const height = Math.min(heights[left], heights[right]);
    if (one === null || two === null || one === two || height === 0) continue;
    const [a, b] = one < two ? [one, two] : [two, one];
    const contact = found.get(`${a} ${b}`) ?? { a, b, length: 0, area: 0 };
    contact.length += length;
    contact.area += length * height;
    found.set(`${a} ${b}`, contact);
  }
  return [...found.values()].sort((x, y) => x.a - y.a || x.b - y.b);
}
