import type { Finding, SourcePlace } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import type { DepthMark } from './depth-mark.js';
import type { Stack } from './stack.js';

/** How the relief is built: every region a body of its own, or every level one sheet with holes. */
export type Joint = 'pieces' | 'continuous';

/** Whether the outermost line is sawn or is the edge of the board. */
export type Frame = 'cut' | 'board-edge';

/** What a region turns out to be. A void is an opening between several pieces. */
export type Role = 'piece' | 'recess' | 'opening' | 'void' | 'add-on';

/** Where a number came from, strongest first. */
export type NumberSource = 'caller' | 'sidecar' | 'attribute' | 'label' | 'legend';

/** A number for the region at a point or with an id. */
export interface RegionNumber {
  readonly region?: string;
  readonly at?: Point;
  /** As written on a drawing: `3`, `0`, `-1`, `+`. */
  readonly depth: string | number;
  /** Sheet id (or face name or material) to show on the front of the piece, or the whole order of its sheet ids. */
  readonly face?: string | readonly string[];
  /** Own sheet id to the id of a sheet further back, whose spare part at the same place takes its stead. */
  readonly substitute?: Readonly<Record<string, string>>;
  /** Ids of sheets further back whose spare parts are glued on behind. */
  readonly extra?: readonly string[];
  readonly name?: string;
}

/** What was asked for the sheets of one piece; see `RegionNumber`. */
export interface SheetRequest {
  readonly face: string | readonly string[] | null;
  readonly substitute: Readonly<Record<string, string>>;
  readonly extra: readonly string[];
}

/** A sheet asked for that a piece can't have, and why. */
export interface RefusedSheet {
  readonly sheet: string;
  readonly reason: 'not-own' | 'no-spare' | 'not-whole' | 'continuous';
}

/** A number that reached no region. */
export interface UnplacedNumber {
  readonly source: NumberSource;
  readonly text: string;
  readonly at: Point | null;
  /** The region id that was named and does not exist. */
  readonly region: string | null;
  readonly place?: SourcePlace;
}

/** One claim of a number on a region. */
export interface NumberClaim {
  readonly source: NumberSource;
  readonly text: string;
  /** null: the text is no depth number. */
  readonly mark: DepthMark | null;
  readonly at: Point | null;
  readonly place?: SourcePlace;
  /** Where it counts only if nothing else numbers the region: a shape further down covers the region too. */
  readonly inherited?: boolean;
}

/** What the relief knows about a region; same index as in `map.regions`. */
export interface ReliefRegion {
  /** The number as written, from the strongest source; null where there is none. */
  readonly label: string | null;
  readonly mark: DepthMark | null;
  readonly role: Role | null;
  /** All claims, strongest first. */
  readonly claims: readonly NumberClaim[];
  /** Sheets kept (0 for openings and voids; the seat's for add-ons); null where unnumbered. */
  readonly depth: number | null;
  /**
   * Index into `bodies` of the piece that this region belongs to or is cut into (for an add-on with a shared
   * outline: the piece under it); null for voids, unnumbered regions, cutouts without a single host and
   * add-ons of their own shape.
   */
  readonly body: number | null;
  /**
   * Sheets removed from the face of the host, nested recesses added up; 0 for pieces, all of them for
   * openings. The material of a region with a body is that body's `order.slice(down)`.
   */
  readonly down: number;
  /** Sheets that its number asks to go down, nested recesses added up; null for all other regions. */
  readonly asked: number | null;
  /** Height of what shows above the common back, mm, in the relief's joint; 0 for openings; null where unknown. */
  readonly height: number | null;
  readonly name: string | null;
  /** What was asked for its sheets; null where nothing was. */
  readonly request: SheetRequest | null;
}

/** A group of regions with relative numbers that share border: the panes of one window. */
export interface Cluster {
  readonly regions: readonly number[];
  /** Region index of the one piece around it, or null (a void, or a fault that a check reports). */
  readonly host: number | null;
  /** Region indices of all pieces that share border with the cluster's outer boundary. */
  readonly around: readonly number[];
  /** The cluster borders on the outside of the drawing. */
  readonly touchesOutside: boolean;
}

/** A piece: a body that comes off the saw whole, with the cutouts inside it. */
export interface Body {
  /** `p1`, `p2`, … in the order of their regions. */
  readonly id: string;
  readonly region: number;
  /** Number of sheets sawn together: its depth number, at most the stack's. */
  readonly sheets: number;
  /** Sheet ids in order from the face, after swaps; longer than `sheets` where extra ones are glued on behind. */
  readonly order: readonly string[];
  readonly recesses: readonly number[];
  readonly openings: readonly number[];
  /** Whole thickness, mm. */
  readonly thickness: number;
  /** Regions under add-ons with shared outline, that are this piece's material too. */
  readonly covered: readonly number[];
  /** Sheets of the order that are spare parts out of offcuts. */
  readonly spares: readonly string[];
  readonly refused: readonly RefusedSheet[];
}

/** A small part glued on top at the very end. */
export interface AddOn {
  /** `a1`, `a2`, … */
  readonly id: string;
  readonly region: number;
  readonly sheets: number;
  /** Region indices that it rests on; where its outline is shared lines, the surround that goes on under it. */
  readonly seats: readonly number[];
  /** Its outline is shared lines: what lies under it belongs to the surround with the longest border. */
  readonly shared: boolean;
  /** Sheet ids from the face. */
  readonly order: readonly string[];
  /** mm */
  readonly thickness: number;
  readonly refused: readonly RefusedSheet[];
}

/** What `buildRelief` takes beside the map. */
export interface ReliefOptions {
  readonly stack: Stack;
  readonly joint?: Joint;
  readonly frame?: Frame;
  /** Numbers given by the caller, the strongest source. */
  readonly numbers?: readonly RegionNumber[];
  /** Numbers of a sidecar. */
  readonly sidecar?: readonly RegionNumber[];
  /** Fill colour (`#rrggbb`) to number: the weakest source. */
  readonly legend?: Readonly<Record<string, string>>;
}

/** Regions with their numbers, pieces and heights: what is to be built. Plain data. */
export interface Relief {
  readonly map: RegionMap;
  readonly stack: Stack;
  readonly joint: Joint;
  readonly frame: Frame;
  readonly regions: readonly ReliefRegion[];
  readonly clusters: readonly Cluster[];
  readonly bodies: readonly Body[];
  readonly addOns: readonly AddOn[];
  /** Numbers that reached no region: labels outside every region are with the map's labels. */
  readonly unplaced: readonly UnplacedNumber[];
  readonly findings: readonly Finding[];
}
