import type { Affine } from '../../geometry/affine.js';
import { parseNumberList } from './length.js';

/** A rectangle in user units. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Reads a `viewBox`; null when it is none or has a negative size (SVG 2: an error, as if absent). */
export function parseViewBox(text: string | undefined): Box | null {
  if (text === undefined) return null;
  const { numbers, complete } = parseNumberList(text);
  if (numbers.length !== 4 || !complete || numbers[2] < 0 || numbers[3] < 0) return null;
  const [x, y, width, height] = numbers;
  return { x, y, width, height };
}

/** Reads a `preserveAspectRatio`; what cannot be read counts as the default. */
export function parseAspect(text: string | undefined): { align: string; slice: boolean } {
  const words = (text ?? '').trim().split(/\s+/);
  if (words[0] === 'defer') words.shift();
  if (!/^(none|x(Min|Mid|Max)Y(Min|Mid|Max))$/.test(words[0])) return { align: 'xMidYMid', slice: false };
  return { align: words[0], slice: words[1] === 'slice' };
}

/** The map from the user units of a `viewBox` to those of the viewport around it (SVG 2, equivalent transform). */
export function viewBoxMatrix(box: Box, viewport: Box, aspect: { align: string; slice: boolean }): Affine {
  let sx = viewport.width / box.width;
  let sy = viewport.height / box.height;
  if (aspect.align !== 'none') {
    sx = aspect.slice ? Math.max(sx, sy) : Math.min(sx, sy);
    sy = sx;
  }
  const spareX = viewport.width - box.width * sx;
  const spareY = viewport.height - box.height * sy;
  const dx = share(aspect.align, 'x') * spareX;
  const dy = share(aspect.align, 'Y') * spareY;
  return [sx, 0, 0, sy, viewport.x + dx - box.x * sx, viewport.y + dy - box.y * sy];
}

function share(align: string, axis: 'x' | 'Y'): number {
  if (align === 'none' || align.includes(`${axis}Min`)) return 0;
  return align.includes(`${axis}Mid`) ? 0.5 : 1;
}
