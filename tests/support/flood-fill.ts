import { Resvg } from '@resvg/resvg-js';

/** One area of unpainted pixels that hang together. */
export interface Patch {
  /** Number of pixels. */
  readonly pixels: number;
  /** Whether the patch reaches the edge of the picture. */
  readonly outer: boolean;
}

/** The patches that black lines leave of a white page, and the patch of each pixel (-1: a line). */
export interface Patches {
  readonly width: number;
  readonly patches: readonly Patch[];
  readonly patchOf: Int32Array;
}

/** Draws an SVG with @resvg/resvg-js (an independent renderer) and fills its white areas, four neighbours each. */
export function floodFill(svg: string): Patches {
  const image = new Resvg(svg, { background: 'white' }).render();
  const { width, height, pixels } = image;
  const isPaper = (i: number): boolean => pixels[4 * i] > 127;
  const patchOf = new Int32Array(width * height).fill(-1);
  const patches: Patch[] = [];
  const stack: number[] = [];
  for (let start = 0; start < patchOf.length; start++) {
    if (patchOf[start] >= 0 || !isPaper(start)) continue;
    const patch = patches.length;
    let count = 0;
    let outer = false;
    const reach = (i: number): void => {
      if (patchOf[i] >= 0 || !isPaper(i)) return;
      patchOf[i] = patch;
      stack.push(i);
    };
    reach(start);
    for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
      count++;
      const x = i % width;
      if (x === 0 || x === width - 1 || i < width || i >= width * (height - 1)) outer = true;
      if (x > 0) reach(i - 1);
      if (x < width - 1) reach(i + 1);
      if (i >= width) reach(i - width);
      if (i < width * (height - 1)) reach(i + width);
    }
    patches.push({ pixels: count, outer });
  }
  return { width, patches, patchOf };
}
