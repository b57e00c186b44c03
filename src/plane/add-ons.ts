import type { Drawing, Label } from '../drawing/drawing.js';
import { isClosedShape, type ShapeCover } from './shape-cover.js';

/** A label that marks an add-on, and one that says any other number. */
const ADD_ON_LABEL = /^\+\d{0,3}$/;
const OTHER_NUMBER = /^[-\u2212]?\d{1,3}$/;

/**
 * Shapes that are add-ons and closed shapes of their own: by their `data-depth`, or as the smallest closed
 * shape around a label `+` or `+2`, unless that shape also holds another number (then it is the surround).
 */
export function findAddOns(drawing: Drawing, covers: readonly ShapeCover[]): Set<number> {
  const found = new Set<number>();
  drawing.shapes.forEach((shape, index) => {
    if (shape.addOn && shape.use === 'cut') found.add(index);
  });
  const others = drawing.labels.filter(({ text }) => OTHER_NUMBER.test(text));
  for (const label of drawing.labels) {
    if (!ADD_ON_LABEL.test(label.text)) continue;
    const shape = shapeOfItsOwn(drawing, covers, label, others);
    if (shape !== null) found.add(shape);
  }
  return found;
}

function shapeOfItsOwn(
  drawing: Drawing,
  covers: readonly ShapeCover[],
  label: Label,
  others: readonly Label[],
): number | null {
  let best: ShapeCover | null = null;
  for (const cover of covers) {
    if (!isClosedShape(drawing.shapes[cover.shape]) || !cover.holds(label.at)) continue;
    if (best === null || cover.boxArea < best.boxArea) best = cover;
  }
  if (best === null) return null;
  const { holds, shape } = best;
  return others.some(({ at }) => holds(at)) ? null : shape;
}
