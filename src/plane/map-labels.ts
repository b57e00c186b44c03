import type { Drawing } from '../drawing/drawing.js';
import type { Layer } from './layer.js';
import type { MapLabel } from './region-map.js';
import { mapInTurns } from './steps.js';

/** Finds the region that each text lies in: an add-on's before the one under it. */
export function mapLabels(drawing: Drawing, base: Layer, top: Layer | null): Generator<number, MapLabel[]> {
  return mapInTurns(drawing.labels, ({ text, at, size, source }) => {
    let region = -1;
    let room: number;
    const over = top === null ? -1 : top.locator.faceAt(at);
    if (top !== null && over >= 0) {
      region = base.regions.length + top.regionOfFace[over];
      room = top.locator.roomAt(at);
    } else {
      const face = base.locator.faceAt(at);
      if (face >= 0) region = base.regionOfFace[face];
      room = base.locator.roomAt(at);
    }
    // JSON knows no infinity: without any line a label has all the room of the page.
    if (!Number.isFinite(room)) room = Math.max(drawing.page.width, drawing.page.height);
    return { text, at, size, region, room, source };
  });
}
