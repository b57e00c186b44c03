import { IDENTITY } from '../geometry/affine.js';
import type { Bounds, Point } from '../geometry/point.js';
import { applyClip, type Seen } from './clip/apply-clip.js';
import { isDashed } from './dashes.js';
import type { Fill, Shape, Subpath } from './drawing.js';
import { isWanted } from './names.js';
import { closeSubpath, hasArea, subpathBounds } from './outline.js';
import { drawShape, type GeometryLookup } from './path/basic-shapes.js';
import { PathBuilder } from './path/path-builder.js';
import { builderBounds, type Context, type Scene } from './scene.js';
import { parseLength } from './size/length.js';
import type { Declared } from './style/computed-style.js';
import { type VisiblePaint, visiblePaint } from './style/visible-paint.js';
import { placeOf, type XmlElement } from './xml/xml-tree.js';

/** Opacity from which a fill counts as opaque: what an 8-bit alpha of 255 can be rounded from. */
const OPAQUE = 1 - 1 / 512;

/** How far (mm) a shape may reach over the page's edge and be kept whole: files are rounded to 0.1 mm and better. */
const EDGE_SLACK = 0.05;

/** User units, which a transform may yet bring onto the page. */
const FARTHEST = 1e30;

/** mm; clips that are meant to clip nothing are drawn at any size. */
const FARTHEST_CLIP = 1e7;

/** Elements that may carry markers. */
const MARKED = new Set(['path', 'line', 'polyline', 'polygon']);

/** The lines of a shape element, and a box around them. */
export interface Drawn {
  readonly subpaths: Subpath[];
  readonly hull: Bounds;
}

/** What geometry is wanted for: lines, the outline of a clip (which may be far larger than a page), or a box. */
export type GeometryUse = 'lines' | 'clip' | 'box';

/** The geometry of a shape element under `matrix`; null when it lies out of range. */
export function shapeSubpaths(
  element: XmlElement,
  declared: Declared,
  context: Context,
  scene: Scene,
  use: GeometryUse = 'lines',
): Drawn | null {
  // What is only measured, in user units, is drawn again: nothing is counted or reported twice.
  const measuring = use === 'box' || scene.measure !== null;
  const matrix = use === 'box' ? IDENTITY : context.matrix;
  const bounds = builderBounds(scene);
  const coordinate = measuring ? FARTHEST : use === 'clip' ? FARTHEST_CLIP : bounds.coordinate;
  const builder = new PathBuilder(matrix, { ...bounds, coordinate });
  const lookup = geometryLookup(element, declared, context, scene);
  const text = (name: string): string | undefined => {
    return name === 'd' ? pathDataOf(declared.get('d')) : element.attributes[name];
  };
  const { fault } = drawShape(element.name, lookup, text, builder);
  const subpaths = builder.finish();
  if (measuring) return builder.outOfRange ? null : { subpaths, hull: builder.hull };
  if (fault !== null) {
    scene.log.addOnce(`geometry ${element.index}`, {
      rule: element.name === 'path' ? 'path-fault' : 'shape-fault',
      level: 'warning',
      message: `<${element.name}> is faulty: ${fault}.`,
      source: placeOf(element),
      at: builder.outOfRange ? null : (subpaths.at(-1)?.curves.at(-1)?.to ?? null),
      fix: 'Mend the element in the file, or draw it again.',
    });
  }
  scene.counts.segments += builder.segments;
  if (!builder.outOfRange) return { subpaths, hull: builder.hull };
  scene.log.addOnce(`range ${element.index}`, {
    rule: 'out-of-range',
    level: 'error',
    message: `<${element.name}> has a coordinate that is no number or lies beyond ${coordinate} mm (limit "coordinate"); it is left out.`,
    source: placeOf(element),
    fix: 'Give the page its true size (width and height in mm), or mend the numbers of the element.',
  });
  return null;
}

/** `path("…")` of CSS, or plain path data. */
function pathDataOf(value: string | undefined): string | undefined {
  if (value === undefined || value[0] !== 'p') return value;
  return (
    /^path\(\s*(?:"([^"]*)"|'([^']*)')\s*\)$/
      .exec(value)
      ?.slice(1)
      .find((data) => data !== undefined) ?? value
  );
}

/** Looks up lengths of an element; faulty ones are reported and count as absent. */
export function geometryLookup(
  element: XmlElement,
  declared: Declared,
  context: Context,
  scene: Scene,
): GeometryLookup {
  return (name, axis) => {
    const text = declared.get(name) ?? element.attributes[name];
    if (text === undefined || text === 'auto') return null;
    const length = parseLength(text, axis, context.lengths);
    if (length === null) {
      scene.log.addOnce(`length ${element.index} ${name}`, {
        rule: /^[\d.eE+-]+[a-zA-Z]+$/.test(text.trim()) ? 'unit-unknown' : 'attribute-fault',
        level: 'warning',
        message: `The value "${text.slice(0, 60)}" of ${name} is no length that is understood; it counts as missing.`,
        source: placeOf(element),
      });
    }
    return length;
  };
}

/** The box of a shape in its own user units; null for one that draws nothing. */
export function userBounds(
  element: XmlElement,
  declared: Declared,
  context: Context,
  scene: Scene,
): Bounds | null {
  const drawn = shapeSubpaths(element, declared, context, scene, 'box');
  return drawn === null || drawn.subpaths.length === 0 ? null : subpathBounds(drawn.subpaths);
}

/** Reads a shape element; what shows of it is added to the scene. */
export function readShape(element: XmlElement, declared: Declared, context: Context, scene: Scene): void {
  const { style } = context;
  if (scene.measure !== null) {
    const drawn = shapeSubpaths(element, declared, context, scene);
    if (drawn !== null && drawn.subpaths.length > 0) scene.measure(subpathBounds(drawn.subpaths));
    return;
  }
  if (!style.visible || !isWanted(context.names, scene)) return;
  const flat = isFlat(element, declared, context, scene);
  const stroke = style.strokeWidth > 0 ? visiblePaint(style.stroke, flat, element, scene) : null;
  const fill = element.name === 'line' ? null : visiblePaint(style.fill, flat, element, scene);
  const strokeShows = stroke !== null && stroke.alpha * style.strokeOpacity * context.opacity > 0;
  const fillShows = fill !== null && fill.alpha * style.fillOpacity * context.opacity > 0;
  if (!strokeShows && !fillShows) return;
  const drawn = shapeSubpaths(element, declared, context, scene);
  if (drawn === null || drawn.subpaths.length === 0) return;
  if (style.markers && strokeShows && MARKED.has(element.name)) noteMarkers(element, scene);
  const filled = fillShows ? drawn.subpaths.filter(hasArea).map(closeSubpath) : [];
  const lines = strokeShows ? drawn.subpaths : filled;
  if (lines.length === 0) return;
  const seen = clipped({ lines, filled, rule: style.fillRule, hull: drawn.hull }, element, context, scene);
  if (seen.lines.length === 0 && seen.filled.length === 0) return;
  scene.shapes.push(buildShape(element, context, scene, seen, fill, strokeShows));
}

/** What the clips around a shape and the page leave of it. */
function clipped(whole: Seen, element: XmlElement, context: Context, scene: Scene): Seen {
  let seen = whole;
  if (context.clip !== null) {
    seen = applyClip(seen, context.clip, scene);
    if (seen !== whole && seen.lines !== whole.lines)
      noteClip('clipped', 'note', 'a clip', element, whole.lines, scene);
  }
  if (scene.page === null) return seen;
  const onPage = applyClip(seen, scene.page, scene, EDGE_SLACK);
  if (onPage !== seen && onPage.lines !== seen.lines)
    noteClip('outside-page', 'warning', 'the page', element, seen.lines, scene);
  return onPage;
}

function noteClip(
  rule: string,
  level: 'note' | 'warning',
  what: string,
  element: XmlElement,
  lines: readonly Subpath[],
  scene: Scene,
): void {
  scene.log.addOnce(`${rule} ${element.index}`, {
    rule,
    level,
    message: `Lines of <${element.name}> that lie outside of ${what} cannot be seen and are left out.`,
    source: placeOf(element),
    at: startOf(lines),
  });
}

function buildShape(
  element: XmlElement,
  context: Context,
  scene: Scene,
  { lines, filled, rule }: Seen,
  paint: VisiblePaint | null,
  strokeShows: boolean,
): Shape {
  const { style } = context;
  const { options } = scene;
  const opacity = (paint?.alpha ?? 0) * style.fillOpacity * context.opacity;
  const fill: Fill | null =
    paint === null || filled.length === 0 ? null : { rule, opacity, color: paint.color };
  const addOn = context.depth?.trim().startsWith('+') ?? false;
  const hides = fill !== null && !addOn && (opacity >= OPAQUE || options.translucentFills === 'hide');
  const dashed = strokeShows && options.dashed !== 'cut' && isDashed(element, context, lines);
  if (dashed) noteDashed(element, lines, scene);
  if (fill !== null && !addOn && opacity < OPAQUE) scene.counts.translucent++;
  const sameOutline = filled.length === lines.length && filled.every((subpath, i) => subpath === lines[i]);
  return {
    subpaths: lines,
    use: dashed ? 'detail' : 'cut',
    ...(dashed ? { mark: options.dashed === 'fold' ? ('fold' as const) : ('vein' as const) } : {}),
    fill,
    ...(strokeShows ? {} : { fillOnly: true }),
    hides,
    ...(fill !== null && !sameOutline ? { cover: filled } : {}),
    depth: context.depth,
    addOn,
    names: context.names,
    background: false,
    source: placeOf(element),
  };
}

/** Whether a shape painted by reference has no width or no height; not worked out for plain colours. */
function isFlat(element: XmlElement, declared: Declared, context: Context, scene: Scene): boolean {
  const { style } = context;
  if (style.fill.kind !== 'reference' && style.stroke.kind !== 'reference') return false;
  const bounds = userBounds(element, declared, context, scene);
  return bounds === null || bounds[0] === bounds[2] || bounds[1] === bounds[3];
}

/** Where lines begin, as their place in the drawing. */
function startOf(lines: readonly Subpath[]): Point | null {
  return lines[0]?.curves[0]?.from ?? null;
}

function noteDashed(element: XmlElement, lines: readonly Subpath[], scene: Scene): void {
  const what =
    scene.options.dashed === 'fold' ? 'a fold mark, which is not sawn' : 'a vein, which bounds nothing';
  scene.log.addOnce(`dashes ${element.index}`, {
    rule: 'dashed-line',
    level: 'note',
    message: `The dashed line <${element.name}> is read as ${what}.`,
    source: placeOf(element),
    at: startOf(lines),
    fix: 'If it is to be cut, draw it unbroken, or read with dashed: "cut".',
  });
}

function noteMarkers(element: XmlElement, scene: Scene): void {
  scene.log.addOnce(`markers ${element.index}`, {
    rule: 'effect-ignored',
    level: 'warning',
    message: `The markers on <${element.name}> are not read.`,
    source: placeOf(element),
    fix: 'Turn markers into paths if they are to be cut.',
  });
}
