import { Resvg } from '@resvg/resvg-js';
import type { Drawing, Subpath } from '../../../src/drawing/drawing.js';

/** Path data of subpaths, written here so that the library's writers play no part. */
export function pathOf(subpaths: readonly Subpath[]): string {
  const parts: string[] = [];
  for (const { curves, closed } of subpaths) {
    parts.push(`M${curves[0].from.join(' ')}`);
    for (const c of curves) {
      if (c.kind === 'line') parts.push(`L${c.to.join(' ')}`);
      else if (c.kind === 'quadratic') parts.push(`Q${c.control.join(' ')} ${c.to.join(' ')}`);
      else if (c.kind === 'cubic')
        parts.push(`C${c.control1.join(' ')} ${c.control2.join(' ')} ${c.to.join(' ')}`);
      else {
        const large = Math.abs(c.sweep) > Math.PI ? 1 : 0;
        const turn = (c.rotation * 180) / Math.PI;
        parts.push(`A${c.rx} ${c.ry} ${turn} ${large} ${c.sweep > 0 ? 1 : 0} ${c.to.join(' ')}`);
      }
    }
    if (closed) parts.push('Z');
  }
  return parts.join('');
}

/** The fills of a drawing as an SVG: what we think is painted, strokes left out. */
export function fillsOf(drawing: Drawing): string {
  const { x, y, width, height } = drawing.page;
  const fills = drawing.shapes.map(({ fill, cover, subpaths }) =>
    fill === null
      ? ''
      : `<path fill="${fill.color ?? '#808080'}" fill-opacity="${fill.opacity}" fill-rule="${fill.rule}" d="${pathOf(cover ?? subpaths)}"/>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="${x} ${y} ${width} ${height}">${fills.join('')}</svg>`;
}

/** Fonts of the system are slow to load and play no part. */
export const NO_FONTS = { loadSystemFonts: false };

/** Pixels of an SVG at a width, four bytes each. */
export function pixelsOf(svg: string, width: number): { data: Uint8Array; width: number; height: number } {
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: width },
    shapeRendering: 1,
    font: NO_FONTS,
  }).render();
  return { data: new Uint8Array(image.pixels), width: image.width, height: image.height };
}

/** The part of pixels that differ by more than half in any channel. */
export function differingPart(a: ReturnType<typeof pixelsOf>, b: ReturnType<typeof pixelsOf>): number {
  let differing = 0;
  let all = 0;
  for (let y = 0; y < a.height; y++) {
    for (let x = 0; x < a.width; x++) {
      const k = 4 * (y * a.width + x);
      all++;
      if ([0, 1, 2, 3].some((channel) => Math.abs(a.data[k + channel] - b.data[k + channel]) > 127))
        differing++;
    }
  }
  return differing / all;
}
