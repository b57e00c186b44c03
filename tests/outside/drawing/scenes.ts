import type { RandomSource } from '../../support/random.js';
import { randomInteger } from '../../support/random.js';

/** Side of a scene, mm and user units. */
export const SCENE = 100;

/** Shapes that overlap, each in a colour of its own, as elements; about half of them curved. */
export function randomShapes(
  count: number,
  random: RandomSource,
  attributes: (i: number) => string,
  kinds = 6,
): string {
  return Array.from({ length: count }, (_, i) => randomShape(random, attributes(i), kinds)).join('');
}

/** The kinds of `randomShapes` (its first ones) whose box is that of their control points too. */
export const BOXY_KINDS = 3;

/** Those that have no sharp tips. */
export const BLUNT_KINDS = 4;

function randomShape(random: RandomSource, attributes: string, kinds: number): string {
  const number = (low: number, high: number): string => (low + random() * (high - low)).toFixed(2);
  const at = (): string => number(5, 95);
  switch (randomInteger(random, kinds)) {
    case 0:
      return `<circle cx="${at()}" cy="${at()}" r="${number(6, 30)}" ${attributes}/>`;
    case 1:
      return `<rect x="${number(0, 60)}" y="${number(0, 60)}" width="${number(10, 40)}" height="${number(10, 40)}" rx="${number(0, 8)}" transform="rotate(${number(0, 90)} 50 50)" ${attributes}/>`;
    case 2:
      return `<ellipse cx="${at()}" cy="${at()}" rx="${number(6, 30)}" ry="${number(6, 30)}" transform="rotate(${number(0, 180)} 50 50) skewX(${number(-20, 20)})" ${attributes}/>`;
    case 3:
      return `<path d="${blob(random)}" ${attributes}/>`;
    case 4:
      return `<path d="M${at()} ${at()}C${at()} ${at()} ${at()} ${at()} ${at()} ${at()}S${at()} ${at()} ${at()} ${at()}Z" ${attributes}/>`;
    default:
      return `<path fill-rule="evenodd" d="M${at()} ${at()}L${at()} ${at()} ${at()} ${at()}Q${at()} ${at()} ${at()} ${at()}Z" ${attributes}/>`;
  }
}

/** A smooth closed line round a point, of as many cubics as it has corners. */
function blob(random: RandomSource): string {
  const corners = 4 + randomInteger(random, 4);
  const [cx, cy, size] = [10 + random() * 80, 10 + random() * 80, 8 + random() * 20];
  const points = Array.from({ length: corners }, (_, i) => {
    const angle = (i * 2 * Math.PI) / corners;
    const r = size * (0.75 + 0.5 * random());
    return {
      x: cx + r * Math.cos(angle),
      y: cy + r * Math.sin(angle),
      dx: -Math.sin(angle),
      dy: Math.cos(angle),
      r,
    };
  });
  // Handles of a third of the arc between corners.
  const reach = (2 * Math.PI) / corners / 3;
  const parts = points.map((p, i) => {
    const q = points[(i + 1) % corners];
    const [h, k] = [p.r * reach, q.r * reach];
    return `C${p.x + h * p.dx} ${p.y + h * p.dy} ${q.x - k * q.dx} ${q.y - k * q.dy} ${q.x} ${q.y}`;
  });
  return `M${points[0].x} ${points[0].y}${parts.join('')}Z`;
}

/** A colour for each number below 4096, far from its neighbours in number. */
export function colorOf(i: number): string {
  return `#${((i * 0x9e3779b1) >>> 8).toString(16).padStart(6, '0').slice(0, 6)}`;
}

export function scene(content: string): string {
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${SCENE}mm" height="${SCENE}mm" viewBox="0 0 ${SCENE} ${SCENE}">${content}</svg>`;
}
