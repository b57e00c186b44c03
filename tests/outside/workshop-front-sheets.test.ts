import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkRelief } from '../../src/checks/check-relief.js';
import type { Finding } from '../../src/finding.js';
import type { Point } from '../../src/geometry/point.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { uniform } from '../geometry/arbitrary-curves.js';
import { type NumberedRing, recessPiece, rectangle } from '../support/recess-piece.js';

/**
 * Source: @flatten-js/core (MIT), distances between independent polygons. What is gone from a sheet is worked out here
 * from the numbers as they are written: `-k` in the front k sheets below what it lies in, `0` in all.
 */

const SHEETS = 3;
const STACK = `${SHEETS}x 3 mm poplar`;

/** A closed line of the piece, and from how many sheets at the front what it encloses is gone, inside and around. */
interface Ring {
  readonly points: readonly Point[];
  readonly depth: string;
  readonly gone: number;
  readonly around: number;
}

function polygon(x: number, y: number, radius: number, sides: number, turn: number): Point[] {
  return Array.from({ length: sides }, (_, k) => {
    const angle = turn + (2 * Math.PI * k) / sides;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

const cutout = fc.record({
  depth: fc.constantFrom('-1', '-1', '-2', '0'),
  inner: fc.constantFrom(null, null, '-1'),
  sides: fc.integer({ min: 4, max: 7 }),
  turn: uniform(0, Math.PI),
  radius: uniform(7, 8.2),
  dx: uniform(-1.5, 1.5),
  dy: uniform(-1.5, 1.5),
});

/** A piece of 62 mm with up to nine cutouts in a grid, some with a smaller one in them. */
const rings = fc
  .array(fc.option(cutout, { nil: null, freq: 3 }), { minLength: 9, maxLength: 9 })
  .map((cells) => {
    const list: Ring[] = [{ points: rectangle(19, 19, 62, 62), depth: `${SHEETS}`, gone: 0, around: SHEETS }];
    cells.forEach((cell, k) => {
      if (cell === null) return;
      const { depth, inner, sides, turn, radius, dx, dy } = cell;
      const [x, y] = [30 + 20 * (k % 3) + dx, 30 + 20 * Math.floor(k / 3) + dy];
      const gone = depth === '0' ? SHEETS : -Number(depth);
      list.push({ points: polygon(x, y, radius, sides, turn), depth, gone, around: 0 });
      if (inner === null || gone === SHEETS) return;
      const points = polygon(x, y, 3, sides, turn + 0.3);
      list.push({ points, depth: inner, gone: Math.min(SHEETS, gone - Number(inner)), around: gone });
    });
    return list;
  });

/** The least distance in a sheet between a recess that goes through it and anything else that bounds its wood. */
function leastBar(list: readonly Ring[], sheet: number): number {
  const bounds = list.filter(({ gone, around }, i) => i === 0 || (gone > sheet && around <= sheet));
  const shapes = bounds.map(({ points }) => new Flatten.Polygon(points.map(([x, y]) => Flatten.point(x, y))));
  let least = Number.POSITIVE_INFINITY;
  bounds.forEach(({ gone }, i) => {
    if (i === 0 || gone === SHEETS) return;
    shapes.forEach((other, k) => {
      if (k !== i) least = Math.min(least, distanceOf(shapes[i], other));
    });
  });
  return least;
}

/** Between their lines, also where one lies in the other. */
function distanceOf(a: Flatten.Polygon, b: Flatten.Polygon): number {
  const lines = [...b.edges] as Flatten.Edge[];
  return Math.min(
    ...([...a.edges] as Flatten.Edge[]).flatMap(({ shape }) =>
      lines.map((line) => (shape as Flatten.Segment).distanceTo(line.shape)[0]),
    ),
  );
}

const numbered = (list: readonly Ring[]): NumberedRing[] =>
  list.map(({ points, depth }, i) => ({ points, depth, at: i === 0 ? [20, 20] : beside(points) }));

/** A place inside, near the first corner. */
function beside(points: readonly Point[]): Point {
  const [x, y] = [0, 1].map((axis) => points.reduce((sum, point) => sum + point[axis], 0) / points.length);
  return [points[0][0] + 0.1 * (x - points[0][0]), points[0][1] + 0.1 * (y - points[0][1])];
}

interface Bar {
  readonly sheets: readonly string[];
  readonly width: number;
  readonly at: Point;
}

function barsOf(findings: readonly Finding[]): Bar[] {
  return findings.flatMap(({ rule, message, measured, at }) => {
    const where = rule === 'thin-bridge' ? /\((s[^)]+)\)/.exec(message) : null;
    return where === null ? [] : [{ sheets: where[1].split('+'), width: measured!.value, at: at! }];
  });
}

/** Coordinates are written with all their digits; what is left is rounding. */
const ROUNDING = 1e-9;

/** All widths below this are asked for, whatever the height; none above `MOST`. One sheet of poplar, 3 and 9 mm sawn. */
const [LEAST, MOST] = [3.52, 3.78];

describe('bars of front sheets against distances by @flatten-js/core', () => {
  it('the thinnest of each sheet is found, and nothing thinner', () => {
    let compared = 0;
    fc.assert(
      fc.property(rings, (list) => {
        const relief = recessPiece(numbered(list), STACK);
        const bars = barsOf(checkRelief(relief));
        for (let sheet = 0; sheet < SHEETS; sheet++) {
          const least = leastBar(list, sheet);
          const own = bars.filter(({ sheets }) => sheets.includes(`s${sheet + 1}`));
          for (const { width } of own) expect(width).toBeGreaterThan(least - ROUNDING);
          if (least > MOST) expect(own).toEqual([]);
          if (least > LEAST) continue;
          compared++;
          expect(own.some(({ width }) => Math.abs(width - least) < ROUNDING)).toBe(true);
        }
        const planned = planCuts(relief).bridges;
        for (const { width, at } of bars) {
          const there = planned.filter(
            (bridge) => Math.hypot(bridge.at[0] - at[0], bridge.at[1] - at[1]) < 0.05,
          );
          expect(there.map((bridge) => bridge.width)).toContainEqual(expect.closeTo(width, 9));
        }
      }),
      { numRuns: 60 },
    );
    expect(compared).toBeGreaterThan(40);
  });

  it('are the same in the mirror', () => {
    const sorted = (bars: readonly Bar[], mirrored: boolean): string[] =>
      bars
        .map(({ sheets, width, at: [x, y] }) =>
          [sheets.join('+'), ...[width, mirrored ? 100 - x : x, y].map((v) => v.toFixed(4))].join(' '),
        )
        .sort();
    fc.assert(
      fc.property(rings, (list) => {
        const mirrored = list.map((ring) => ({
          ...ring,
          points: ring.points.map(([x, y]): Point => [100 - x, y]),
        }));
        const [bars, other] = [list, mirrored].map((own) => {
          const at = numbered(own);
          if (own === mirrored) at[0] = { ...at[0], at: [80, 20] };
          return barsOf(checkRelief(recessPiece(at, STACK)));
        });
        expect(sorted(other, true)).toEqual(sorted(bars, false));
      }),
      { numRuns: 40 },
    );
  });
});
