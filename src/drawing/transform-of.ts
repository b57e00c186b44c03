import type { Affine } from '../geometry/affine.js';
import { SHAPE_ELEMENTS } from './path/basic-shapes.js';
import { userBounds } from './read-shape.js';
import type { Context, Scene } from './scene.js';
import { parseLength } from './size/length.js';
import { aroundPoint, parseTransform } from './size/transform.js';
import type { Box } from './size/view-box.js';
import type { Declared } from './style/computed-style.js';
import { placeOf, type XmlElement } from './xml/xml-tree.js';

/**
 * The transform of an element around its origin, or null when nothing can show under it. A transform that
 * cannot be read is left out with a finding.
 */
export function ownTransform(
  text: string,
  element: XmlElement,
  declared: Declared,
  context: Context,
  scene: Scene,
): Affine | null {
  const byBox = declared.get('transform-box') === 'fill-box' && SHAPE_ELEMENTS.has(element.name);
  const bounds = byBox ? userBounds(element, declared, context, scene) : null;
  const box: Box = bounds
    ? { x: bounds[0], y: bounds[1], width: bounds[2] - bounds[0], height: bounds[3] - bounds[1] }
    : { x: 0, y: 0, width: context.lengths.viewport.width, height: context.lengths.viewport.height };
  const matrix = parseTransform(text, context.lengths, box);
  if (matrix === null) {
    scene.log.addOnce(`transform ${element.index}`, {
      rule: 'attribute-fault',
      level: 'warning',
      message: `The transform "${text.slice(0, 60)}" is not understood and is left out.`,
      source: placeOf(element),
    });
    return [1, 0, 0, 1, 0, 0];
  }
  // Nothing shows under a map that flattens the plane (SVG 2).
  if (matrix[0] * matrix[3] === matrix[1] * matrix[2]) return null;
  const origin = declared.get('transform-origin');
  if (origin === undefined) return matrix;
  const [x, y] = parseOrigin(origin, box, context);
  return aroundPoint(matrix, x, y);
}

const ORIGIN_WORDS: Readonly<Record<string, string>> = {
  left: '0%',
  top: '0%',
  center: '50%',
  right: '100%',
  bottom: '100%',
};

function parseOrigin(text: string, box: Box, context: Context): [number, number] {
  const words = text.trim().toLowerCase().split(/\s+/);
  // A keyword of the other axis may come first.
  if (/^(top|bottom)$/.test(words[0]) || /^(left|right)$/.test(words[1] ?? '')) {
    [words[0], words[1]] = [words[1] ?? 'center', words[0]];
  }
  const lengths = { ...context.lengths, viewport: box };
  const x = parseLength(ORIGIN_WORDS[words[0]] ?? words[0], 'width', lengths) ?? 0;
  const y = parseLength(ORIGIN_WORDS[words[1] ?? 'center'] ?? words[1], 'height', lengths) ?? 0;
  return [box.x + x, box.y + y];
}
