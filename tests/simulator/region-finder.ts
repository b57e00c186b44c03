import type { XY } from './flat-path.js';

/** Height of the bands that a region's border is stored in, mm. */
const BAND = 0.5;

interface Banded {
  readonly id: string;
  readonly x0: number;
  readonly x1: number;
  readonly bands: ReadonlyMap<number, readonly number[]>;
}

/** Finds the region at a point, by counting crossings with the borders in the point's band. */
export class RegionFinder {
  readonly #regions: readonly Banded[];
  /** Regions by band. */
  readonly #byBand = new Map<number, Banded[]>();

  constructor(regions: readonly { readonly id: string; readonly runs: readonly (readonly XY[])[] }[]) {
    this.#regions = regions.map(({ id, runs }) => banded(id, runs));
    for (const region of this.#regions) {
      for (const band of region.bands.keys()) {
        const list = this.#byBand.get(band);
        if (list === undefined) this.#byBand.set(band, [region]);
        else list.push(region);
      }
    }
  }

  at([x, y]: XY): string | null {
    const band = Math.floor(y / BAND);
    for (const { id, x0, x1, bands } of this.#byBand.get(band) ?? []) {
      if (x < x0 || x > x1) continue;
      const sides = bands.get(band)!;
      let inside = false;
      for (let i = 0; i < sides.length; i += 4) {
        const [ax, ay, bx, by] = [sides[i], sides[i + 1], sides[i + 2], sides[i + 3]];
        if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * (bx - ax)) inside = !inside;
      }
      if (inside) return id;
    }
    return null;
  }
}

function banded(id: string, runs: readonly (readonly XY[])[]): Banded {
  const bands = new Map<number, number[]>();
  let [x0, x1] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const run of runs) {
    run.forEach(([ax, ay], i) => {
      const [bx, by] = run[(i + 1) % run.length];
      x0 = Math.min(x0, ax);
      x1 = Math.max(x1, ax);
      const last = Math.floor(Math.max(ay, by) / BAND);
      for (let band = Math.floor(Math.min(ay, by) / BAND); band <= last; band++) {
        const list = bands.get(band);
        if (list === undefined) bands.set(band, [ax, ay, bx, by]);
        else list.push(ax, ay, bx, by);
      }
    });
  }
  return { id, x0, x1, bands };
}
