import { limitError } from '../read-options.js';
import type { Context, Scene } from '../scene.js';
import { parseLength } from '../size/length.js';
import { computeStyle, type Style } from '../style/computed-style.js';
import { hrefOf, isSvg, placeOf, type XmlElement, type XmlNode } from '../xml/xml-tree.js';

/** One character of a text as it will be laid out. */
export interface Glyph {
  readonly character: string;
  readonly style: Style;
  /** Upward shift of the baseline, user units. */
  readonly shift: number;
  readonly visible: boolean;
  readonly source: XmlElement;
  /** Absolute position and displacement from the attribute lists, where given. */
  x?: number;
  y?: number;
  dx?: number;
  dy?: number;
}

interface Level {
  readonly style: Style;
  readonly shift: number;
  readonly opacity: number;
}

const TEXT_CHILDREN = new Set(['tspan', 'a', 'textPath']);

/** The characters of a `text` element in order, white space as SVG has it, with their given positions. */
export function readGlyphs(text: XmlElement, context: Context, scene: Scene): Glyph[] {
  const glyphs: Glyph[] = [];
  const open: { element: XmlElement; start: number; level: Level }[] = [];
  const top: Level = { style: context.style, shift: 0, opacity: context.opacity };
  type Step = { node: XmlNode; level: Level; source: XmlElement } | 'leave';
  const stack: Step[] = [];
  const enter = (element: XmlElement, level: Level): void => {
    open.push({ element, start: glyphs.length, level });
    stack.push('leave');
    for (let i = element.children.length - 1; i >= 0; i--) {
      stack.push({ node: element.children[i], level, source: element });
    }
  };
  const lists: { element: XmlElement; start: number; end: number; level: Level }[] = [];
  enter(text, top);
  for (let step = stack.pop(); step !== undefined; step = stack.pop()) {
    if (step === 'leave') {
      const left = open.pop();
      if (left)
        lists.push({ element: left.element, start: left.start, end: glyphs.length, level: left.level });
    } else if (typeof step.node === 'string') {
      countCharacters(step.node.length, scene);
      addText(glyphs, step.node, step.level, step.source);
    } else if (isSvg(step.node)) {
      const level = enterSpan(step.node, step.level, context, scene);
      if (level) enter(step.node, level);
    }
  }
  // Outermost last in `lists`, and inner lists win.
  for (const { element, start, end, level } of lists)
    placeGlyphs(glyphs, element, start, end, level, context);
  return trimmed(glyphs);
}

function countCharacters(length: number, scene: Scene): void {
  scene.counts.characters += length;
  if (scene.counts.characters > scene.options.limits.characters) {
    throw limitError('characters', scene.options.limits, 'The drawing has too much text');
  }
}

/** Adds characters; white space collapses, also across elements. */
function addText(glyphs: Glyph[], text: string, level: Level, source: XmlElement): void {
  const { style } = level;
  const visible =
    style.visible && level.opacity > 0 && (style.fill.kind !== 'none' || style.stroke.kind !== 'none');
  for (const written of text) {
    const blank = written === '\n' || written === '\r' || written === '\t' || written === ' ';
    if (blank && !style.preserveSpace && (glyphs.length === 0 || glyphs[glyphs.length - 1].character === ' '))
      continue;
    glyphs.push({ character: blank ? ' ' : written, style, shift: level.shift, visible, source });
  }
}

function trimmed(glyphs: Glyph[]): Glyph[] {
  const last = glyphs[glyphs.length - 1];
  if (last?.character === ' ' && !last.style.preserveSpace) glyphs.pop();
  return glyphs;
}

function enterSpan(element: XmlElement, outer: Level, context: Context, scene: Scene): Level | null {
  if (!TEXT_CHILDREN.has(element.name)) {
    if (!/^(title|desc|style|script|animate.*|set)$/.test(element.name))
      noteSpan(element, 'is not read', scene);
    return null;
  }
  const declared = scene.cascade.declared(element);
  if (declared.get('display') === 'none') return null;
  if (element.name === 'textPath') {
    noteSpan(
      element,
      `is read as if its text were straight${hrefOf(element) ? '' : ', and has no path'}`,
      scene,
    );
  }
  const style = computeStyle(declared, outer.style, context.lengths, () => {});
  return {
    style,
    shift: outer.shift + baselineShift(declared.get('baseline-shift'), style, context),
    opacity: outer.opacity,
  };
}

function noteSpan(element: XmlElement, what: string, scene: Scene): void {
  scene.log.addOnce(`span ${element.index}`, {
    rule: 'element-ignored',
    level: 'warning',
    message: `<${element.name.slice(0, 40)}> in a text ${what}.`,
    source: placeOf(element),
  });
}

/** How far a baseline is raised; `sub` and `super` as browsers have it, a fifth down and a third up. */
function baselineShift(value: string | undefined, style: Style, context: Context): number {
  if (value === undefined || value === 'baseline') return 0;
  if (value === 'sub') return -style.fontSize / 5;
  if (value === 'super') return style.fontSize / 3;
  const percent = /^([+-]?[\d.]+)%$/.exec(value);
  if (percent) return (Number(percent[1]) / 100) * style.fontSize;
  return parseLength(value, 'height', { ...context.lengths, fontSize: style.fontSize }) ?? 0;
}

/** Hands the lists `x`, `y`, `dx`, `dy` of an element out to its characters. */
function placeGlyphs(
  glyphs: readonly Glyph[],
  element: XmlElement,
  start: number,
  end: number,
  level: Level,
  context: Context,
): void {
  const lengths = { ...context.lengths, fontSize: level.style.fontSize };
  for (const name of ['x', 'y', 'dx', 'dy'] as const) {
    const list = element.attributes[name];
    if (list === undefined) continue;
    const axis = name.endsWith('x') ? 'width' : 'height';
    for (const [i, part] of list
      .trim()
      .split(/[\s,]+/, end - start)
      .entries()) {
      const glyph = glyphs[start + i];
      const value = parseLength(part, axis, lengths);
      if (glyph === undefined || value === null) break;
      glyph[name] ??= value;
    }
  }
}
