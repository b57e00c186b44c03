import { arcFromEndpoints, ellipseArcs } from '../../../src/geometry/arc.js';
import type { Curve } from '../../../src/geometry/curve.js';
import type { Point } from '../../../src/geometry/point.js';

/** Shapes given by numbers, for closed forms. */

export function polygon(points: readonly Point[]): Curve[] {
  return points.map((from, i) => ({ kind: 'line', from, to: points[(i + 1) % points.length] }));
}

export function box(x0: number, y0: number, x1: number, y1: number): Curve[] {
  return polygon([
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ]);
}

export function circle(x: number, y: number, r: number): Curve[] {
  return ellipseArcs([x, y], r, r);
}

export function circleArc(from: Point, to: Point, r: number, large: boolean, sweep: boolean): Curve {
  const c = arcFromEndpoints(from, r, r, 0, large, sweep, to);
  if (c === null) throw new Error('an arc without extent');
  return c;
}

/** Two discs of radius R with centres on the x axis, joined by a bar of width w; the bar is `bar` long between them. */
export function dumbbell(R: number, w: number, bar: number): Curve[] {
  const h = w / 2;
  const half = bar / 2;
  return [
    { kind: 'line', from: [-half, -h], to: [half, -h] },
    circleArc([half, -h], [half, h], R, true, true),
    { kind: 'line', from: [half, h], to: [-half, h] },
    circleArc([-half, h], [-half, -h], R, true, true),
  ];
}

/** A spiral band between two spirals of half circles: each turn lies `pitch` outside the one before. */
export function spiralSlot(inner: number, pitch: number, slot: number, halfTurns: number): Curve[] {
  const side = (grow: number): Curve[] => {
    const arcs: Curve[] = [];
    for (let k = 0; k < halfTurns; k++) {
      // Centres alternate between 0 and pitch/2; radii grow by half a pitch each time, so turns k and k + 2 share a centre.
      const centre = k % 2 === 0 ? 0 : pitch / 2;
      const r = inner + (k * pitch) / 2 + grow;
      const sign = k % 2 === 0 ? 1 : -1;
      arcs.push(circleArc([centre + sign * r, 0], [centre - sign * r, 0], r, false, true));
    }
    return arcs;
  };
  const [near, far] = [side(0), side(slot)];
  const back = far
    .map(
      (c): Curve =>
        c.kind === 'arc' ? { ...c, from: c.to, to: c.from, start: c.start + c.sweep, sweep: -c.sweep } : c,
    )
    .reverse();
  return [
    ...near,
    { kind: 'line', from: near[near.length - 1].to, to: back[0].from },
    ...back,
    { kind: 'line', from: back[back.length - 1].to, to: near[0].from },
  ];
}
