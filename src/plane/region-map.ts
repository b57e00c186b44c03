import type { Finding, SourcePlace } from '../finding.js';
import type { Curve } from '../geometry/curve.js';
import type { Bounds, Point } from '../geometry/point.js';

/** Index of the outside (the unbounded face) wherever a region index is asked for. */
export const OUTSIDE = -1;

/** A part of one source curve: `curve` indexes `RegionMap.curves`, run from parameter `t0` to `t1` (`t1 < t0`: backwards). */
export interface CurvePiece {
  readonly curve: number;
  readonly t0: number;
  readonly t1: number;
}

/** A point where edges meet or end. */
export interface MapNode {
  /** On the grid of 2⁻¹⁰ mm. */
  readonly at: Point;
  /** The unrounded point on the true curves. */
  readonly truePoint: Point;
}

/** Border parts two different faces; a vein has a free end; a connector has one face on both sides, no free end. */
export type EdgeKind = 'border' | 'vein' | 'connector';

/** A run of line between two nodes, with nothing meeting it on the way. */
export interface MapEdge {
  readonly from: number;
  readonly to: number;
  /** Region on the left when walking from `from` to `to` with y down (so towards −y for a walk along +x). */
  readonly left: number;
  readonly right: number;
  readonly kind: EdgeKind;
  /** The true line from `from` to `to`, in order. */
  readonly pieces: readonly CurvePiece[];
  /** Length of the true line, mm; of the chord between its nodes where the true line has shrunk to a point. */
  readonly length: number;
  /** Indices of all drawing shapes that drew this line, topmost first. */
  readonly shapes: readonly number[];
}

/** A closed walk along edges: `edge` with `forward` false is walked from `to` to `from`. */
export interface LoopStep {
  readonly edge: number;
  readonly forward: boolean;
}
export type Loop = readonly LoopStep[];

/** A region that shares border of positive length with another. */
export interface Neighbour {
  readonly region: number;
  /** Length of the common border, mm. */
  readonly length: number;
  readonly edges: readonly number[];
}

/** A closed area bounded by cut lines: a bounded face of the planar map. Its index is its place in `regions`. */
export interface Region {
  /** `r1`, `r2`, … by position (top to bottom, then left to right, by the label point); valid for one map. */
  readonly id: string;
  /** mm², holes taken off, by the true curves. */
  readonly area: number;
  readonly bounds: Bounds;
  /** A point well inside, to put a label at (pole of inaccessibility), mm. */
  readonly labelPoint: Point;
  /** Distance from `labelPoint` to the nearest line, mm. */
  readonly labelRoom: number;
  /** The outline first, then one loop per hole. Veins that hang on a loop are not part of it. */
  readonly loops: readonly Loop[];
  /** Sorted by region index. */
  readonly neighbours: readonly Neighbour[];
  /** Length of border with the outside, mm. */
  readonly outsideLength: number;
  /** The region that directly encloses this region's connected line work, or OUTSIDE. */
  readonly inside: number;
  /** Edges of veins and connectors that lie inside this region. */
  readonly veins: readonly number[];
  /** Indices of closed drawing shapes that cover this region (filled or not), topmost first. */
  readonly shapes: readonly number[];
  /** The fill that shows here: index of the topmost filled drawing shape, or -1. */
  readonly fillShape: number;
  /**
   * The region of an add-on shape that was mapped on its own: it lies over the other regions, shares no
   * border with them and takes no part in their adjacency; its `outsideLength` is its whole outline.
   */
  readonly addOn: boolean;
  /** For an add-on: indices of the regions under it. Otherwise empty. */
  readonly seats: readonly number[];
}

/** A text of the drawing, and the region that it lies in. */
export interface MapLabel {
  readonly text: string;
  readonly at: Point;
  readonly size: number;
  /** Region index, or OUTSIDE. An add-on's region comes before the one under it. */
  readonly region: number;
  /** Distance to the nearest line, mm; near 0 the label lies on a line. */
  readonly room: number;
  readonly source: SourcePlace;
}

/** What the later stages need to know of a drawing shape; same index as `drawing.shapes`. */
export interface MapShape {
  /** `data-depth` as written. */
  readonly depth: string | null;
  readonly names: readonly string[];
  /** Lower-case `#rrggbb` where the shape is filled with a plain colour. */
  readonly fillColor: string | null;
  readonly closed: boolean;
  /** The shape was taken out of the drawing and mapped on its own. */
  readonly addOn: boolean;
  readonly source: SourcePlace;
}

/** A gap that a hand left and that was closed. */
export interface HealedGap {
  readonly from: Point;
  readonly to: Point;
  /** mm */
  readonly length: number;
  readonly source: SourcePlace | null;
}

/** Tolerances and choices of mapping; each in mm, each with its command option. */
export interface MapOptions {
  /** An end or corner this near to a line is on it. Default 0.02. */
  readonly weld?: number;
  /** Open ends this far apart are joined. Default 0.5; 0 heals none. */
  readonly gap?: number;
  /** Regions narrower than this are merged into a neighbour. Default 0.05; 0 keeps all. */
  readonly sliver?: number;
  /** Largest distance between a curve and its chords while finding the topology. Default 0.005. */
  readonly tolerance?: number;
  /** Whether lines under an opaque fill are dropped. Default 'drop'. */
  readonly hiddenLines?: 'drop' | 'keep';
  /**
   * Most pieces of line between crossings (a curve that nothing meets is one): more are refused, by PlystepError 'limit', since time and memory grow with
   * them. Default 500,000, far beyond what anybody can saw.
   */
  readonly edgeLimit?: number;
}

/**
 * A detail line (dashed in the drawing) as drawn. A vein is in the map's edges too, as far as it lies in a region and
 * closes off nothing; a fold mark is only drawn, and no edge.
 */
export interface MapDetail {
  /** Index of the drawing shape. */
  readonly shape: number;
  readonly mark: 'vein' | 'fold';
  readonly runs: readonly (readonly Curve[])[];
}

/** The planar map of a drawing. Plain data: survives JSON and structured clone. */
export interface RegionMap {
  readonly unit: 'mm';
  readonly page: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly options: Required<MapOptions>;
  readonly digest: string;
  /** The source curves that lines were drawn with, and the drawing shape of each (-1: closes a healed gap). */
  readonly curves: readonly Curve[];
  readonly curveShapes: readonly number[];
  readonly nodes: readonly MapNode[];
  readonly edges: readonly MapEdge[];
  readonly regions: readonly Region[];
  readonly shapes: readonly MapShape[];
  readonly labels: readonly MapLabel[];
  readonly details: readonly MapDetail[];
  /** Edges of kind 'vein' or 'connector' that lie outside every region. */
  readonly outsideVeins: readonly number[];
  readonly healed: readonly HealedGap[];
  /** Counts of what was decided without a finding each. */
  readonly counts: {
    readonly welded: number;
    readonly hiddenEdges: number;
    readonly mergedSlivers: number;
  };
  readonly findings: readonly Finding[];
}
