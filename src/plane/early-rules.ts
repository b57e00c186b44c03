import { addSigns, type JunctionSigns, plainJunctions } from './early-junctions.js';
import { addTouch, type KnownTouches } from './find-touches.js';
import { type ChordRules, type CurveStop, type FlatLines, type MapCurve, NO_RULES } from './flat-lines.js';
import { visitNearChords } from './near-chords.js';
import { pairKey } from './pair-key.js';
import { within } from './steps.js';
import { touchRules } from './touch-rules.js';

/** Rules known before anything is arranged, and how many junctions pairs of curves have by them. */
export interface EarlyRules {
  readonly rules: ChordRules;
  /** By `pairKey`. */
  readonly shared: ReadonlyMap<number, number>;
}

/**
 * Vertices that curves are to have where they touch (touch-rules.ts) and at plain junctions (early-junctions.ts).
 * `weld` and `tolerance` in mm. Yields the share of the work done.
 */
export function* earlyRules(
  curves: readonly MapCurve[],
  flat: FlatLines,
  weld: number,
  tolerance: number,
): Generator<number, EarlyRules> {
  const shared = new Map<number, number>();
  if (!(weld > 0)) return { rules: NO_RULES, shared };
  const touches: KnownTouches = new Map();
  const signs: JunctionSigns = { ends: [], crossings: [] };
  const margin = weld + 2 * tolerance;
  const isLine = (c: number): boolean => curves[c].curve.kind === 'line';
  const visiting = visitNearChords(curves, flat, margin, (v, w, areAcross) => {
    if (!areAcross) addTouch(curves, flat, v, w, touches);
    addSigns(flat, isLine, v, w, margin, signs);
  });
  yield* within(visiting, 0, 0.5);
  const near = [...touches.values()].flat().filter(({ place }) => Math.abs(place.gap) <= weld);
  const rules = yield* within(touchRules(curves, near, weld, tolerance), 0.5, 0.7);
  const junctions = yield* within(plainJunctions(curves, signs, weld, tolerance), 0.7, 1);
  if (junctions.length === 0) return { rules, shared };
  const stops = new Map<number, CurveStop[]>([...rules.stops].map(([c, list]) => [c, [...list]]));
  for (const { curve, other, stop, crossed } of junctions) {
    if (rules.bare.get(curve)?.some(({ from, to }) => stop.t >= from && stop.t <= to)) continue;
    const key = pairKey(curve, other, curves.length);
    // Where two curves cross, both tell of it.
    if (!crossed || curve < other) shared.set(key, (shared.get(key) ?? 0) + 1);
    const list = stops.get(curve) ?? [];
    if (!list.some(({ t }) => t === stop.t)) list.push(stop);
    stops.set(curve, list);
  }
  for (const list of stops.values()) list.sort((a, b) => a.t - b.t);
  return { rules: { stops, overlays: rules.overlays, bare: rules.bare }, shared };
}
