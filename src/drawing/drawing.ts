import type { Finding, SourcePlace } from '../finding.js';
import type { Curve } from '../geometry/curve.js';
import type { Point } from '../geometry/point.js';

/** A run of curves, each starting where the one before ends. `closed` runs end where they start. */
export interface Subpath {
  readonly curves: readonly Curve[];
  readonly closed: boolean;
}

/** What a shape's paint covers. */
export interface Fill {
  readonly rule: 'nonzero' | 'evenodd';
  /** 0 < opacity ≤ 1, with every group's opacity multiplied in. */
  readonly opacity: number;
  /** Lower-case `#rrggbb`, or null where the paint is no plain colour. */
  readonly color: string | null;
}

/** How a shape's outline counts: sawn all through, or a detail line that bounds nothing (a dashed stroke). */
export type LineUse = 'cut' | 'detail';

/** What a detail line is: sawn as a kerf that bounds nothing, or a fold mark that is only drawn. */
export type DetailMark = 'vein' | 'fold';

/** One visible shape, in the drawing's paint order, coordinates in mm on the page. */
export interface Shape {
  /** The visible lines. Empty for a shape that only hides (all of its outline is clipped away). */
  readonly subpaths: readonly Subpath[];
  readonly use: LineUse;
  /** Set when `use` is `detail`. */
  readonly mark?: DetailMark;
  /** What is filled; null: nothing. */
  readonly fill: Fill | null;
  /** There is no stroke: where the outline crosses itself inside of what it fills, it cannot be seen. */
  readonly fillOnly?: boolean;
  /**
   * The fill hides what was painted before it: it is opaque, or the reader was told that translucent fills
   * hide too. Never for add-ons.
   */
  readonly hides: boolean;
  /**
   * The closed outline of the filled area, where it differs from `subpaths`: open lines are filled as if
   * closed, and a clipped fill ends at the clip's edge. Not cut lines where they are not in `subpaths` too.
   * Its filling rule is `fill.rule`. Absent: the subpaths are the outline.
   */
  readonly cover?: readonly Subpath[];
  /** The nearest `data-depth` on the shape or a group around it, as written. */
  readonly depth: string | null;
  /** The shape is an add-on by its `data-depth` (`+`, `+2`): it neither cuts nor hides what lies under it. */
  readonly addOn: boolean;
  /**
   * Own names first (`aria-label`, `title`, labels of editors, id), then those of the groups around it, innermost first;
   * ids that only number elements (`path1042`) last. The first is what the shape is called.
   */
  readonly names: readonly string[];
  /** The shape covers the whole page and lies under everything. */
  readonly background: boolean;
  readonly source: SourcePlace;
}

/** A text of the drawing. */
export interface Label {
  /** The text, white space collapsed. */
  readonly text: string;
  /** The middle of the text as drawn (anchor and size taken into account, glyph widths estimated), mm. */
  readonly at: Point;
  /** The size of the text, mm. */
  readonly size: number;
  readonly source: SourcePlace;
}

/** A drawing as a person sees it on the page: visible lines at true size, fills, and labels. */
export interface Drawing {
  readonly unit: 'mm';
  readonly page: { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
  readonly shapes: readonly Shape[];
  readonly labels: readonly Label[];
  /** A digest of the text that was read, so that a stale sidecar is noticed. */
  readonly digest: string;
  readonly findings: readonly Finding[];
}
