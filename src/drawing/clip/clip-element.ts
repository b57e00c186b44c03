import { type Affine, IDENTITY, multiplyAffine } from '../../geometry/affine.js';
import type { Bounds } from '../../geometry/point.js';
import { closeSubpath, hasArea } from '../outline.js';
import { SHAPE_ELEMENTS } from '../path/basic-shapes.js';
import { limitError } from '../read-options.js';
import { geometryLookup, shapeSubpaths } from '../read-shape.js';
import type { Context, Scene } from '../scene.js';
import { computeStyle, type Declared, INITIAL_STYLE, type Style } from '../style/computed-style.js';
import { referencedId } from '../style/paint.js';
import { ownTransform } from '../transform-of.js';
import { hrefOf, isSvg, placeOf, type XmlElement } from '../xml/xml-tree.js';
import type { ClipPart, ClipRegion } from './clip-region.js';

/** Finds the box of an element in its own user units, for `objectBoundingBox`. */
export type BoxOf = () => Bounds | null;

/** The region that the `clip-path` of an element lets through, inside of the region around it. Null: no clip. */
export function clipOf(
  element: XmlElement,
  declared: Declared,
  context: Context,
  scene: Scene,
  boxOf: BoxOf,
): ClipRegion | null {
  const value = declared.get('clip-path');
  if (value === undefined || value === 'none') return null;
  const clipPath = clipPathNamed(value, element, scene);
  if (clipPath === null) return null;
  return buildRegion(clipPath, context, context.clip, scene, boxOf, []);
}

function clipPathNamed(value: string, element: XmlElement, scene: Scene): XmlElement | null {
  const id = referencedId(value);
  const target = id === null ? undefined : scene.byId.get(id);
  if (target?.name === 'clipPath' && isSvg(target)) return target;
  scene.log.addOnce(`clip ${element.index}`, {
    rule: id === null ? 'effect-ignored' : id === '' ? 'external-ignored' : 'reference-missing',
    level: 'warning',
    message: `The clip-path "${value.slice(0, 60)}" ${id === null ? 'is not a reference and is not applied' : 'leads nowhere and clips nothing'}.`,
    source: placeOf(element),
  });
  return null;
}

/** One region for each `clipPath`, matrix and region around, so that a clip of a thousand shapes is built once. */
function buildRegion(
  clipPath: XmlElement,
  context: Context,
  within: ClipRegion | null,
  scene: Scene,
  boxOf: BoxOf,
  open: readonly XmlElement[],
): ClipRegion | null {
  if (open.includes(clipPath)) {
    scene.log.addOnce(`clip circle ${clipPath.index}`, {
      rule: 'reference-circular',
      level: 'warning',
      message: 'The clipPath is clipped by itself; that reference is left out.',
      source: placeOf(clipPath),
    });
    return within;
  }
  if (open.length >= scene.options.limits.useDepth) {
    throw limitError(
      'useDepth',
      scene.options.limits,
      'A clipPath is clipped by a clipPath …, too deeply',
      placeOf(clipPath),
    );
  }
  const declared = scene.cascade.declared(clipPath);
  let matrix = context.matrix;
  const own = transformIn(clipPath, declared, context, scene);
  if (own === null) return { parts: [], within };
  matrix = multiplyAffine(matrix, own);
  if (clipPath.attributes.clipPathUnits === 'objectBoundingBox') {
    const box = boxOf();
    if (box === null || box[2] <= box[0] || box[3] <= box[1]) return { parts: [], within };
    matrix = multiplyAffine(matrix, [box[2] - box[0], 0, 0, box[3] - box[1], box[0], box[1]]);
  }
  const key = `${clipPath.index} ${matrix.join(' ')}`;
  const known = scene.clips.get(within)?.get(key);
  if (known) return known;
  const inner: Context = { ...context, matrix, style: styleOf(clipPath, declared, context, scene) };
  const outer = nestedClip(clipPath, declared, context, within, scene, boxOf, [...open, clipPath]);
  const parts: ClipPart[] = [];
  for (const child of clipPath.children) {
    if (typeof child === 'string' || !isSvg(child)) continue;
    const part = partOf(child, inner, scene, boxOf, [...open, clipPath]);
    if (part) parts.push(part);
  }
  const region: ClipRegion = { parts, within: outer };
  const cache = scene.clips.get(within) ?? new Map<string, ClipRegion>();
  cache.set(key, region);
  scene.clips.set(within, cache);
  return region;
}

/** The clip on a `clipPath`, or on a part of one. */
function nestedClip(
  element: XmlElement,
  declared: Declared,
  context: Context,
  within: ClipRegion | null,
  scene: Scene,
  boxOf: BoxOf,
  open: readonly XmlElement[],
): ClipRegion | null {
  const value = declared.get('clip-path');
  if (value === undefined || value === 'none') return within;
  const target = clipPathNamed(value, element, scene);
  return target === null ? within : buildRegion(target, context, within, scene, boxOf, open);
}

function partOf(
  child: XmlElement,
  context: Context,
  scene: Scene,
  boxOf: BoxOf,
  open: readonly XmlElement[],
): ClipPart | null {
  const declared = scene.cascade.declared(child);
  if (declared.get('display') === 'none') return null;
  const own = transformIn(child, declared, context, scene);
  if (own === null) return null;
  const inner: Context = {
    ...context,
    style: computeStyle(declared, context.style, context.lengths, () => {}),
    matrix: multiplyAffine(context.matrix, own),
  };
  const within = nestedClip(child, declared, inner, null, scene, boxOf, open);
  if (child.name === 'use') {
    const shape = usedShape(child, scene);
    if (shape === null) return null;
    const lookup = geometryLookup(child, declared, inner, scene);
    const move: Affine = [1, 0, 0, 1, lookup('x', 'width') ?? 0, lookup('y', 'height') ?? 0];
    const part = partOf(shape, { ...inner, matrix: multiplyAffine(inner.matrix, move) }, scene, boxOf, open);
    if (part === null || within === null) return part;
    return { ...part, within: inside(part.within, within) };
  }
  if (!SHAPE_ELEMENTS.has(child.name)) {
    if (!/^(title|desc|metadata|animate.*|set|script)$/.test(child.name)) noteIgnored(child, scene);
    return null;
  }
  if (!inner.style.visible) return null;
  const drawn = shapeSubpaths(child, declared, inner, scene, 'clip');
  const outline = (drawn?.subpaths ?? []).filter(hasArea).map(closeSubpath);
  return { outline, rule: inner.style.clipRule, within };
}

/** The region `region`, with `around` around all that is around it. */
function inside(region: ClipRegion | null, around: ClipRegion): ClipRegion {
  return region === null ? around : { ...region, within: inside(region.within, around) };
}

function noteIgnored(child: XmlElement, scene: Scene): void {
  scene.log.addOnce(`clip part ${child.index}`, {
    rule: 'element-ignored',
    level: 'warning',
    message: `<${child.name.slice(0, 40)}> in a clipPath is not read.`,
    source: placeOf(child),
  });
}

/** In a `clipPath` a `use` may show a shape only. */
function usedShape(use: XmlElement, scene: Scene): XmlElement | null {
  const href = hrefOf(use);
  const target = href?.startsWith('#') ? scene.byId.get(href.slice(1)) : undefined;
  if (target !== undefined && SHAPE_ELEMENTS.has(target.name) && isSvg(target)) return target;
  scene.log.addOnce(`use ${use.index}`, {
    rule: 'reference-missing',
    level: 'warning',
    message: 'A use in a clipPath leads to no shape of this file and counts for nothing.',
    source: placeOf(use),
  });
  return null;
}

function transformIn(element: XmlElement, declared: Declared, context: Context, scene: Scene): Affine | null {
  const text = declared.get('transform');
  return text === undefined || text === '' ? IDENTITY : ownTransform(text, element, declared, context, scene);
}

/** A `clipPath` inherits from what it stands in, not from what it clips. */
function styleOf(clipPath: XmlElement, declared: Declared, context: Context, scene: Scene): Style {
  const chain: XmlElement[] = [];
  for (let at = clipPath.parent; at !== null; at = at.parent) chain.push(at);
  let style: Style = INITIAL_STYLE;
  for (const element of chain.reverse()) {
    style = computeStyle(scene.cascade.declared(element), style, context.lengths, () => {});
  }
  return computeStyle(declared, style, context.lengths, () => {});
}
