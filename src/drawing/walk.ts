import { type Affine, IDENTITY, multiplyAffine } from '../geometry/affine.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import { clipOf } from './clip/clip-element.js';
import { boxRegion } from './clip/clip-region.js';
import { namesOf, withOuterNames } from './names.js';
import { SHAPE_ELEMENTS } from './path/basic-shapes.js';
import { limitError } from './read-options.js';
import { geometryLookup, readShape, userBounds } from './read-shape.js';
import type { Context, Scene } from './scene.js';
import { parseLength } from './size/length.js';
import { type Box, parseAspect, parseViewBox, viewBoxMatrix } from './size/view-box.js';
import { parseOpacity } from './style/color.js';
import { computeStyle, type Declared } from './style/computed-style.js';
import { resolveVariables } from './style/variables.js';
import { chooseBranch, conditionsHold } from './switch.js';
import { readText } from './text/read-text.js';
import { ownTransform } from './transform-of.js';
import { useTarget } from './use-target.js';
import { isSvg, placeOf, type XmlElement } from './xml/xml-tree.js';

/** Something to draw, with what it inherits. */
export interface Task {
  readonly element: XmlElement;
  readonly context: Context;
  /** Size that a `use` gives to the `svg` or `symbol` that it shows. */
  readonly size?: { readonly width: string | undefined; readonly height: string | undefined };
}

/** Properties that change what is seen and are not applied. */
const IGNORED_EFFECTS = ['mask', 'filter', 'translate', 'rotate', 'scale', 'offset-path'] as const;

/** Elements that never show by themselves. */
export const SILENT: ReadonlySet<string> = new Set([
  ...[
    'defs',
    'symbol',
    'clipPath',
    'mask',
    'marker',
    'pattern',
    'linearGradient',
    'radialGradient',
    'filter',
  ],
  ...[
    'style',
    'title',
    'desc',
    'metadata',
    'stop',
    'view',
    'cursor',
    'font',
    'font-face',
    'color-profile',
    'solidcolor',
  ],
]);

/** Draws all that shows in and under the tasks, in paint order, without recursion. */
export function drawAll(tasks: readonly Task[], scene: Scene): void {
  const stack = [...tasks].reverse();
  for (let task = stack.pop(); task !== undefined; task = stack.pop()) {
    scene.counts.drawn += task.element.weight;
    if (scene.counts.drawn > scene.options.limits.drawnElements) {
      const { line, column } = task.element;
      throw limitError('drawnElements', scene.options.limits, 'Too many elements are drawn, by use of use', {
        line,
        column,
      });
    }
    const next = visit(task, scene);
    for (let i = next.length - 1; i >= 0; i--) stack.push(next[i]);
  }
}

const NOTHING: readonly Task[] = [];

function visit(task: Task, scene: Scene): readonly Task[] {
  const { element } = task;
  if (!isSvg(element)) return ignoreForeign(element, scene);
  if (SILENT.has(element.name) && task.size === undefined) return NOTHING;
  if (!conditionsHold(element, scene)) return NOTHING;
  const declared = scene.cascade.declared(element);
  if (declared.get('display') === 'none') return NOTHING;
  const context = enter(element, declared, task.context, scene);
  if (context === null) return NOTHING;
  if (SHAPE_ELEMENTS.has(element.name)) {
    readShape(element, declared, context, scene);
    return NOTHING;
  }
  return contents(task, declared, context, scene);
}

/** What an element that is no shape shows. */
function contents(task: Task, declared: Declared, context: Context, scene: Scene): readonly Task[] {
  const { element } = task;
  switch (element.name) {
    case 'g':
    case 'a':
      return childTasks(element, context);
    case 'svg':
    case 'symbol':
      return enterViewport(task, declared, context, scene);
    case 'switch':
      return chooseBranch(element, scene).map((child) => ({ element: child, context }));
    case 'use':
      return followUse(element, declared, context, scene);
    case 'text':
      readText(element, context, scene);
      return NOTHING;
    default:
      return ignoreElement(element, scene);
  }
}

function childTasks(element: XmlElement, context: Context): Task[] {
  const tasks: Task[] = [];
  for (const child of element.children)
    if (typeof child !== 'string') tasks.push({ element: child, context });
  return tasks;
}

/** The context inside an element; null when nothing of it can show. */
export function enter(
  element: XmlElement,
  declared: Map<string, string>,
  outer: Context,
  scene: Scene,
): Context | null {
  const variables = resolveVariables(declared, outer.variables);
  const style = computeStyle(declared, outer.style, outer.lengths, (property, value) => {
    scene.log.addOnce(`style ${element.index} ${property}`, {
      rule: 'style-fault',
      level: 'warning',
      message: `The value "${value.slice(0, 60)}" of ${property} is not understood and is left out.`,
      source: placeOf(element),
    });
  });
  const lengths =
    style.fontSize === outer.lengths.fontSize
      ? outer.lengths
      : { ...outer.lengths, fontSize: style.fontSize };
  const opacity = outer.opacity * (parseOpacity(declared.get('opacity') ?? '1') ?? 1);
  if (opacity === 0) return null;
  for (const effect of IGNORED_EFFECTS) {
    const value = declared.get(effect);
    if (value !== undefined && value !== 'none') noteEffect(effect, element, scene);
  }
  const depth = element.attributes['data-depth'] ?? outer.depth;
  const names = withOuterNames(namesOf(element), outer.names);
  const { matrix, use, clip: outerClip } = outer;
  // Written out, since copying all members takes longer than all else here.
  let context: Context = {
    matrix,
    style,
    lengths,
    opacity,
    names,
    depth,
    use,
    variables,
    clip: outerClip,
  };
  const transform = declared.get('transform');
  if (transform !== undefined && transform !== '') {
    const own = ownTransform(transform, element, declared, context, scene);
    if (own === null) return null;
    context = { ...context, matrix: multiplyAffine(context.matrix, own) };
  }
  if (!declared.has('clip-path') || scene.measure !== null) return context;
  const clip = clipOf(element, declared, context, scene, () => boxOf(element, declared, context, scene));
  return clip === null ? context : { ...context, clip };
}

/** The box of an element in its user units, strokes and clips left out of account; null for nothing. */
function boxOf(element: XmlElement, declared: Declared, context: Context, scene: Scene): Bounds | null {
  if (SHAPE_ELEMENTS.has(element.name)) return userBounds(element, declared, context, scene);
  let bounds = EMPTY_BOUNDS;
  const measuring: Scene = {
    ...scene,
    labels: [],
    measure: (box) => {
      bounds = joinBounds(bounds, box);
    },
  };
  const inner: Context = { ...context, matrix: IDENTITY, clip: null };
  drawAll(contents({ element, context: inner }, declared, inner, measuring), measuring);
  return bounds[2] >= bounds[0] ? bounds : null;
}

function noteEffect(effect: string, element: XmlElement, scene: Scene): void {
  scene.log.addOnce(`${effect} ${element.index}`, {
    rule: 'effect-ignored',
    level: 'warning',
    message: `The ${effect} on <${element.name}> is not applied; its lines count in full.`,
    source: placeOf(element),
  });
}

/** Inside of a nested `svg`, or of a `symbol` that a `use` shows. */
function enterViewport(task: Task, declared: Declared, context: Context, scene: Scene): readonly Task[] {
  const { element, size } = task;
  const lookup = geometryLookup(element, declared, context, scene);
  const measure = (name: 'width' | 'height'): number => {
    const given = size?.[name];
    const own = given === undefined ? lookup(name, name) : parseLength(given, name, context.lengths);
    return own ?? context.lengths.viewport[name];
  };
  const isSymbol = element.name === 'symbol';
  const viewport: Box = {
    x: isSymbol ? 0 : (lookup('x', 'width') ?? 0),
    y: isSymbol ? 0 : (lookup('y', 'height') ?? 0),
    width: measure('width'),
    height: measure('height'),
  };
  if (viewport.width <= 0 || viewport.height <= 0) return NOTHING;
  const viewBox = parseViewBox(element.attributes.viewBox);
  if (viewBox && (viewBox.width === 0 || viewBox.height === 0)) return NOTHING;
  const fit: Affine = viewBox
    ? viewBoxMatrix(viewBox, viewport, parseAspect(element.attributes.preserveAspectRatio))
    : [1, 0, 0, 1, viewport.x, viewport.y];
  const shown = declared.get('overflow');
  const clipped = shown !== 'visible' && shown !== 'auto' && scene.measure === null;
  const inner: Context = {
    ...context,
    matrix: multiplyAffine(context.matrix, fit),
    clip: clipped ? boxRegion(viewport, context.matrix, context.clip) : context.clip,
    lengths: { ...context.lengths, viewport: viewBox ?? viewport },
  };
  return childTasks(element, inner);
}

/** What a `use` shows. */
function followUse(element: XmlElement, declared: Declared, context: Context, scene: Scene): readonly Task[] {
  const target = useTarget(element, context, scene);
  if (target === null) return NOTHING;
  const lookup = geometryLookup(element, declared, context, scene);
  const x = lookup('x', 'width') ?? 0;
  const y = lookup('y', 'height') ?? 0;
  const depth = (context.use?.depth ?? 0) + 1;
  if (depth > scene.options.limits.useDepth) {
    const { line, column } = element;
    throw limitError('useDepth', scene.options.limits, 'A use shows a use that shows a use …, too deeply', {
      line,
      column,
    });
  }
  const inner: Context = {
    ...context,
    matrix: multiplyAffine(context.matrix, [1, 0, 0, 1, x, y]),
    use: { target, parent: context.use, depth },
  };
  const sized = target.name === 'svg' || target.name === 'symbol';
  const size = { width: declared.get('width'), height: declared.get('height') };
  return [{ element: target, context: inner, ...(sized ? { size } : {}) }];
}

function ignoreElement(element: XmlElement, scene: Scene): readonly Task[] {
  const harmless = /^(script|animate|animateMotion|animateTransform|animateColor|set|discard|mpath)$/.test(
    element.name,
  );
  scene.log.addOnce(`element ${element.index}`, {
    rule: 'element-ignored',
    level: harmless ? 'note' : 'warning',
    message: `<${element.name.slice(0, 40)}> is not read; nothing of it becomes a line.`,
    source: placeOf(element),
    ...(element.name === 'image'
      ? { fix: 'Draw its lines over it, or trace them, in a vector editor.' }
      : {}),
  });
  return NOTHING;
}

/** Editors keep their own data in elements of other namespaces; only drawing in them is worth a word. */
function ignoreForeign(element: XmlElement, scene: Scene): readonly Task[] {
  const drawing = element.children.some((child) => typeof child !== 'string' && isSvg(child));
  return drawing ? ignoreElement(element, scene) : NOTHING;
}
