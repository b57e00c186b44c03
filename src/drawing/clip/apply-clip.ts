import type { Bounds } from '../../geometry/point.js';
import type { Fill, Subpath } from '../drawing.js';
import { subpathBounds } from '../outline.js';
import { limitError } from '../read-options.js';
import type { Scene } from '../scene.js';
import { holds, meets } from './boxes.js';
import { type CountWork, ON_EDGE } from './chord-set.js';
import { clipCover } from './clip-cover.js';
import { clipLines } from './clip-lines.js';
import { type ClipRegion, plainBox } from './clip-region.js';
import { type PreparedClip, prepareClip } from './prepared-clip.js';

/** What shows of a shape. */
export interface Seen {
  readonly lines: readonly Subpath[];
  /** Closed outline of what is filled. */
  readonly filled: readonly Subpath[];
  readonly rule: Fill['rule'];
  /** A box around all of it, not necessarily the smallest. */
  readonly hull: Bounds;
}

/** What a clip leaves of a shape; the same object when that is all of it. `slack`: mm over the edge that do no harm. */
export function applyClip(seen: Seen, region: ClipRegion, scene: Scene, slack = 0): Seen {
  const box = boxOfRegion(region, scene);
  if (box !== null && holds(box, seen.hull, slack)) return seen;
  const bounds = subpathBounds([...seen.lines, ...seen.filled]);
  if (box !== null && holds(box, bounds, slack)) return seen;
  const clip = preparedClip(region, scene);
  const count = clipCounter(scene);
  const apart = box !== null && !meets(box, bounds, ON_EDGE);
  const lines = apart ? [] : clipLines(seen.lines, clip, count);
  const same = lines.length === seen.lines.length && lines.every((subpath, i) => subpath === seen.lines[i]);
  if (seen.filled.length === 0 || apart) return same ? seen : { ...seen, lines, filled: [], hull: bounds };
  const filled = clipCover(seen.filled, clip, count);
  return { lines: same ? seen.lines : lines, filled, rule: seen.rule, hull: bounds };
}

function clipCounter(scene: Scene): CountWork {
  const { limits } = scene.options;
  return (steps) => {
    scene.counts.clipSteps += steps;
    if (scene.counts.clipSteps > limits.clipSteps) {
      throw limitError('clipSteps', limits, 'The clip paths of the drawing take too long to apply');
    }
  };
}

function boxOfRegion(region: ClipRegion, scene: Scene): Bounds | null {
  let box = scene.clipBoxes.get(region);
  if (box === undefined) {
    box = plainBox(region);
    scene.clipBoxes.set(region, box);
  }
  return box;
}

/** Regions are prepared once a reading. */
export function preparedClip(region: ClipRegion, scene: Scene): PreparedClip {
  const known = scene.prepared.get(region);
  if (known) return known;
  const clip = prepareClip(region, boxOfRegion(region, scene), clipCounter(scene));
  scene.prepared.set(region, clip);
  return clip;
}
