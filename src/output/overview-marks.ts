import { type Bounds, distance, type Point } from '../geometry/point.js';
import type { Bridge, CutStart } from '../workshop/cut-plan.js';
import { BoxGrid } from './box-grid.js';
import type { OverviewScene } from './overview-scene.js';
import { INK } from './palette.js';
import { element, group, svgNumber } from './svg-markup.js';

/** All drilled starts of the plan, each place once. */
export function drillStarts(scene: OverviewScene): CutStart[] {
  const starts = scene.plan?.passes.flatMap((pass) => pass.steps.map((step) => step.start)) ?? [];
  const seen = new Set<string>();
  return starts.filter((start) => {
    const key = start.at.join(' ');
    if (start.kind !== 'drill' || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** A ring of the true diameter with a cross through it, as on a workshop drawing. */
export function drillMarks(scene: OverviewScene, starts: readonly CutStart[]): string {
  const marks = starts.map(({ at: [x, y], diameter }) => {
    const radius = drillRadius(scene, diameter);
    const arm = radius + scene.unit * 0.35;
    const [l, r, t, b] = [x - arm, x + arm, y - arm, y + arm].map((value) => svgNumber(value));
    const cross = element('path', { d: `M${l} ${svgNumber(y)}H${r}M${svgNumber(x)} ${t}V${b}` });
    return element('circle', { cx: x, cy: y, r: radius, fill: INK.paper }) + cross;
  });
  return group(
    { id: 'drill-starts', fill: 'none', stroke: INK.drill, 'stroke-width': 0.16 * scene.unit },
    marks,
  );
}

/** The drawn radius of a drill mark: true, unless that would be too small to see. */
function drillRadius(scene: OverviewScene, diameter: number | null): number {
  return Math.max((diameter ?? 0) / 2, scene.unit * 0.28);
}

/** A bold bar across each narrow place, with a ring around it to find it by where there is room. */
export function bridgeMarks(scene: OverviewScene): string {
  const bridges = distinctBridges(scene);
  const radius = (bridge: Bridge): number => Math.max(bridge.width * 0.75, scene.unit * 0.8);
  const rings = apartRings(bridges, radius, scene.unit);
  const marks = bridges.map((bridge) => {
    const [x, y] = bridge.at;
    const bar = `M${bridge.from.map((v) => svgNumber(v)).join(' ')}L${bridge.to.map((v) => svgNumber(v)).join(' ')}`;
    const line = element('path', {
      d: bar,
      stroke: INK.alarm,
      'stroke-width': 0.3 * scene.unit,
      'stroke-linecap': 'round',
    });
    if (!rings.has(bridge)) return line;
    const ring = { cx: x, cy: y, r: radius(bridge) };
    return (
      line +
      element('circle', { ...ring, stroke: INK.paper, 'stroke-width': 0.38 * scene.unit }) +
      element('circle', { ...ring, stroke: INK.alarm, 'stroke-width': 0.19 * scene.unit })
    );
  });
  return group({ id: 'bridges', fill: 'none' }, marks);
}

/** Rings stand this far apart, in units. */
const RING_GAP = 0.6;

/** Rings that run into each other would hide what they mark: the narrowest get theirs, the others a bar alone. */
function apartRings(
  bridges: readonly Bridge[],
  radius: (bridge: Bridge) => number,
  unit: number,
): ReadonlySet<Bridge> {
  const rings = new Set<Bridge>();
  const gap = RING_GAP * unit;
  const grid = new BoxGrid<Bridge>(2 * unit);
  for (const bridge of [...bridges].sort((a, b) => a.width - b.width)) {
    const r = radius(bridge);
    const [x, y] = bridge.at;
    const reach = r + gap;
    const box: Bounds = [x - reach, y - reach, x + reach, y + reach];
    let free = true;
    grid.visit(box, (other) => {
      free = distance(other.at, bridge.at) >= r + radius(other) + gap;
      return free;
    });
    if (!free) continue;
    rings.add(bridge);
    grid.add(bridge, box);
  }
  return rings;
}

/** The bridges of the plan, each place once with its narrowest report. */
export function distinctBridges(scene: OverviewScene): Bridge[] {
  const byPlace = new Map<string, Bridge>();
  for (const bridge of scene.plan?.bridges ?? []) {
    const key = bridge.at.map((value) => Math.round(value / scene.unit)).join(' ');
    const known = byPlace.get(key);
    if (known === undefined || bridge.width < known.width) byPlace.set(key, bridge);
  }
  return [...byPlace.values()];
}

/** The boxes that drill marks cover, so that labels keep off them. */
export function markBoxes(scene: OverviewScene, starts: readonly CutStart[]): Bounds[] {
  const box = ([x, y]: Point, r: number): Bounds => [x - r, y - r, x + r, y + r];
  return [
    ...starts.map(({ at, diameter }) => box(at, drillRadius(scene, diameter) + scene.unit * 0.15)),
    ...distinctBridges(scene).map((bridge) => box(bridge.at, scene.unit * 0.6)),
  ];
}
