import type { AreaBoundary } from './narrow/area-boundary.js';
import { type CutSide, cutSide, cutSums } from './narrow/cut-sides.js';
import { evenStrips } from './narrow/even-strips.js';
import { middle, onePerPlace, type PlacedChord } from './narrow/neighbouring-necks.js';
import { oppositePlaces } from './narrow/opposite-places.js';
import { othersNeeded } from './narrow/others-needed.js';
import type { BoundaryPlace } from './narrow/shortest-chord.js';
import { thinLength } from './narrow/thin-length.js';
import { hasThirdContact } from './narrow/third-contact.js';
import { trueNecks } from './narrow/true-necks.js';
import { valleys } from './narrow/valleys.js';
import { widthProfile } from './narrow/width-profile.js';
import type { Point } from './point.js';

/**
 * What a cut along a neck does. `parts`: the area falls in two (both ends on one loop). `hangs`: it holds together,
 * but only by other necks on the list; with `others` of them cut as well a part comes off. `opens`: the ring
 * that the two loops bound is open, and what lies on both sides still holds by wider places.
 */
export type NeckEffect = 'parts' | 'hangs' | 'opens';

/** A local minimum of the width of an area. */
export interface Neck {
  /** The middle of the chord. */
  readonly at: Point;
  /** Ends of the shortest chord, on the true curves; `from` is the upper one, then the left one. */
  readonly from: Point;
  readonly to: Point;
  readonly fromPlace: BoundaryPlace;
  readonly toPlace: BoundaryPlace;
  /** Length of the chord, mm; 0 where the boundary touches itself. */
  readonly width: number;
  /** Unit vector along the chord; what the neck joins lies to both sides of it. */
  readonly across: Point;
  /** How far the area stays narrower than needed about the chord, along its middle, mm. */
  readonly length: number;
  readonly effect: NeckEffect;
  /** How many other necks must be cut with this one to take a part off; null for `opens`. */
  readonly others: number | null;
  /** The smaller part that comes off, for `parts`. */
  readonly side: CutSide | null;
}

/** Choices of `narrowPlaces`. */
export interface NarrowPlacesOptions {
  /**
   * Two minima count as one place when the width between them nowhere rises this much above both, mm. Not below
   * four flattening tolerances, or chords of curves show up as places of their own. Default 0.02.
   */
  readonly rise?: number;
}

export const NARROW_PLACES_DEFAULTS: Required<NarrowPlacesOptions> = { rise: 0.02 };

/** Flattening tolerances by which the width between chords of curves may rise and fall by itself. */
const FLATTENING = 4;

/** Samples of the width on straight stretches, as part of the needed width. */
const SAMPLE_STEP = 1 / 4;

/** Chords across even strips, as part of the needed width. */
const STRIP_STEP = 1 / 2;

/** Widths are followed up to this many needed widths, so that the place where they cross it can be told. */
const FOLLOWED = 1.25;

/**
 * All necks of an area narrower than `needed` mm, each once, from top to bottom.
 *
 * A neck is a local minimum of the width along the medial axis: a chord inside, shorter than all chords near
 * it, square to the boundary at both ends (or resting at reflex corners), whose disc, with the chord as
 * diameter, holds no boundary. Ends lie on the true curves, to rounding. A chord across a convex corner has
 * shorter ones beside it down to the corner itself: tips are no necks (see `thinEnds`). A strip of even width is
 * one neck: in its middle, or where it hangs on something wider if it has a free end.
 *
 * Complete for minima that lie more than `rise` below the ways out of them. O(n log n) in the boundary's segments,
 * and O(k) in the necks with the narrow ground about each; see docs/narrow-places.md.
 */
export function narrowPlaces(b: AreaBoundary, needed: number, options: NarrowPlacesOptions = {}): Neck[] {
  const { rise } = { ...NARROW_PLACES_DEFAULTS, ...options };
  if (!(needed > 0)) return [];
  const slack = b.straight ? 0 : 2 * b.tolerance;
  const opposite = oppositePlaces(b, needed + slack);
  const shallow = FLATTENING * b.tolerance;
  const held = trueNecks(b, rise < shallow ? opposite : valleys(b, opposite, shallow), needed);
  const found = [...held, ...evenStrips(b, needed, STRIP_STEP * needed)];
  if (found.length === 0) return [];
  const profile = widthProfile(b, (FOLLOWED * needed) / 2, SAMPLE_STEP * needed);
  const chords = onePerPlace(profile, found, rise)
    .filter((chord) => !hasThirdContact(b, chord, rise))
    .sort(topToBottom);
  const others = othersNeeded(chords.map(({ chord }) => ({ loop: chord.a.loop, other: chord.b.loop })));
  const sums = others.includes(0) ? cutSums(b) : null;
  return chords.map((placed, k): Neck => {
    const parts = others[k] === 0;
    return {
      ...ends(placed),
      length: thinLength(profile, placed, needed),
      effect: parts ? 'parts' : others[k] === null ? 'opens' : 'hangs',
      others: others[k],
      side: parts && sums !== null ? cutSide(sums, placed) : null,
    };
  });
}

function topToBottom(one: PlacedChord, other: PlacedChord): number {
  const [p, q] = [middle(one.chord), middle(other.chord)];
  return p[1] - q[1] || p[0] - q[0] || one.chord.width - other.chord.width;
}

function ends({ chord }: PlacedChord): Omit<Neck, 'length' | 'effect' | 'others' | 'side'> {
  const { a, b, from, to, width } = chord;
  const swap = from[1] > to[1] || (from[1] === to[1] && from[0] > to[0]);
  const [p, q] = swap ? [to, from] : [from, to];
  return {
    at: middle(chord),
    from: p,
    to: q,
    fromPlace: swap ? b : a,
    toPlace: swap ? a : b,
    width,
    across: width === 0 ? [0, 1] : [(q[0] - p[0]) / width, (q[1] - p[1]) / width],
  };
}
