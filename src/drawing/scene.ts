import type { Affine } from '../geometry/affine.js';
import type { Bounds } from '../geometry/point.js';
import type { ClipRegion } from './clip/clip-region.js';
import type { PreparedClip } from './clip/prepared-clip.js';
import type { Label, Shape } from './drawing.js';
import type { FindingLog } from './finding-log.js';
import { limitError, type ResolvedReadOptions } from './read-options.js';
import type { LengthContext } from './size/length.js';
import type { Cascade } from './style/cascade.js';
import type { Style } from './style/computed-style.js';
import type { Variables } from './style/variables.js';
import type { XmlElement } from './xml/xml-tree.js';

/** A `use` that is being shown, for finding circles. */
export interface UseFrame {
  readonly target: XmlElement;
  readonly parent: UseFrame | null;
  readonly depth: number;
}

/** What an element takes over from those around it. */
export interface Context {
  /** User units to mm. */
  readonly matrix: Affine;
  readonly style: Style;
  readonly lengths: LengthContext;
  /** Product of the opacities of all groups around. */
  readonly opacity: number;
  /** Names of the groups around, innermost first. */
  readonly names: readonly string[];
  /** The nearest `data-depth`. */
  readonly depth: string | null;
  readonly use: UseFrame | null;
  readonly variables: Variables;
  /** What lets the element show, mm; null: nothing is clipped. The page is not part of it. */
  readonly clip: ClipRegion | null;
}

/** What one reading shares: its input, and what it collects. */
export interface Scene {
  readonly options: ResolvedReadOptions;
  readonly log: FindingLog;
  readonly cascade: Cascade;
  readonly byId: ReadonlyMap<string, XmlElement>;
  readonly shapes: Shape[];
  readonly labels: Label[];
  readonly counts: {
    drawn: number;
    segments: number;
    clipSteps: number;
    translucent: number;
    characters: number;
  };
  /** Names met so far; filled only when the caller asks for names. */
  readonly seenNames: Set<string>;
  /** The page as a clip, or null when what lies beyond it is kept. */
  readonly page: ClipRegion | null;
  /** Regions by the region around them, then by clip path and matrix. */
  readonly clips: Map<ClipRegion | null, Map<string, ClipRegion>>;
  readonly prepared: Map<ClipRegion, PreparedClip>;
  readonly clipBoxes: Map<ClipRegion, Bounds | null>;
  /** Set while a box is measured: shapes hand in their boxes instead of being drawn. */
  readonly measure: ((bounds: Bounds) => void) | null;
}

/** The first element with each id counts, as in browsers. */
export function indexById(elements: readonly XmlElement[]): Map<string, XmlElement> {
  const byId = new Map<string, XmlElement>();
  for (const element of elements) {
    const id = element.attributes.id;
    if (id !== undefined && id !== '' && !byId.has(id)) byId.set(id, element);
  }
  return byId;
}

/** What path builders may take from here on. */
export function builderBounds(scene: Scene): {
  segments: number;
  coordinate: number;
  tooMany: () => never;
} {
  const { limits } = scene.options;
  return {
    segments: limits.segments - scene.counts.segments,
    coordinate: limits.coordinate,
    tooMany: () => {
      throw limitError('segments', limits, 'The drawing has too many curve segments');
    },
  };
}
