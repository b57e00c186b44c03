/**
 * How often the elements of a file would be visited again, found out before anything is drawn.
 *
 * A `use` shows what another element holds, and that may be uses again: ten uses of ten uses of … make a file of a
 * thousand characters stand for a billion elements. So sizes are added up bottom-up, once for each element, and not
 * by drawing: a `use` is as large as what it shows. Where elements show each other in circles a sum depends on the
 * way that led to the element; such sums are not kept, and the number of steps is bounded instead.
 */
import { SHAPE_ELEMENTS } from './path/basic-shapes.js';
import { limitError } from './read-options.js';
import type { Scene } from './scene.js';
import { parseOpacity } from './style/color.js';
import { referencedId } from './style/paint.js';
import { chooseBranch, conditionsHold } from './switch.js';
import { namedByUse, standsIn } from './use-target.js';
import { SILENT } from './walk.js';
import { isSvg, type XmlElement } from './xml/xml-tree.js';

/** Weights of elements, added up. */
interface Sums {
  /** Of the element and all that stands in it: what is drawn without any `use`. */
  own: number;
  /** The same with what each `use` shows. */
  shown: number;
  /** The same again, with the visits that measure boxes for clip paths. */
  visited: number;
}

/** What is the same on every way to an element. */
interface Facts {
  readonly parts: readonly XmlElement[];
  readonly measured: boolean;
}

/** An element whose parts are being added up. */
interface Frame extends Sums, Facts {
  readonly element: XmlElement;
  /** The element is there because a `use` shows it. */
  readonly used: boolean;
  /** The element was on the way already, so its first place is kept. */
  readonly again: boolean;
  readonly uses: number;
  next: number;
  /** The outermost frame on the way that was met again from in here. */
  met: number;
}

/**
 * Demands that drawing does not visit elements again, by `use` or to measure them, more often than the limit
 * `repeatedElements` says. Takes time in proportion to the file.
 */
export function demandFewRepeats(root: XmlElement, elements: readonly XmlElement[], scene: Scene): void {
  if (!elements.some(mayRepeat)) return;
  const { limits } = scene.options;
  const most = 2 * elements.length + Math.max(STEPS, limits.repeatedElements / 5);
  const refuse = (what: string): never => {
    throw limitError('repeatedElements', limits, what, firstOne(elements));
  };
  const sums = addUp(root, elements.length, scene, most);
  if (sums === null) refuse('The uses of the drawing show each other in circles, in too many ways');
  else if (sums.visited - sums.own > limits.repeatedElements) {
    refuse(
      `By use of use, or to find boxes for clip paths, ${rounded(sums.visited - sums.own)} elements would be drawn again`,
    );
  }
}

/** Steps that are always granted: a circle is a mistake in the file, and few steps tell what little it shows. */
const STEPS = 10_000;

/** Only these lead to an element again. */
const mayRepeat = ({ name, attributes }: XmlElement): boolean =>
  name === 'use' || (name === 'clipPath' && attributes.clipPathUnits === 'objectBoundingBox');

/** The place of the first such element: where to begin to look. */
function firstOne(elements: readonly XmlElement[]): { line: number; column: number } | undefined {
  const found = elements.find(mayRepeat);
  return found && { line: found.line, column: found.column };
}

/** Two digits are enough: `2,200,000`. */
const rounded = (count: number): string =>
  count < 1e15 ? Number(count.toPrecision(2)).toLocaleString('en-US') : 'far too many';

/** The sums of the root; null where they take too many steps. */
function addUp(root: XmlElement, count: number, scene: Scene, most: number): Sums | null {
  const known: (Sums | undefined)[] = [];
  const facts: (Facts | undefined)[] = [];
  const onTheWay = new Int32Array(count).fill(-1);
  const asTarget = new Uint8Array(count);
  const stack: Frame[] = [];
  let last: Sums = { own: 0, shown: 0, visited: 0 };
  let steps = 0;

  const enter = (element: XmlElement, used: boolean): void => {
    const { index, weight } = element;
    const outer = stack.at(-1);
    const before = onTheWay[index];
    if (outer !== undefined && before >= 0) outer.met = Math.min(outer.met, before);
    // Only a use opens a symbol.
    const closed = element.name === 'symbol' && !used;
    const kept = closed ? { own: weight, shown: weight, visited: weight } : known[index];
    if (kept !== undefined) {
      add(outer, kept, used);
      return;
    }
    steps++;
    const same = facts[index] ?? { parts: partsOf(element, scene), measured: isMeasured(element, scene) };
    facts[index] = same;
    const again = before >= 0;
    if (!again) onTheWay[index] = stack.length;
    if (used) asTarget[index] = 1;
    stack.push({
      ...same,
      ...{ element, used, again, next: 0, met: again ? before : Number.POSITIVE_INFINITY },
      ...{ own: weight, shown: weight, visited: weight },
      uses: (outer?.uses ?? 0) + (used ? 1 : 0),
    });
  };

  const leave = (frame: Frame): void => {
    stack.pop();
    const { element, used, again, own, shown, visited } = frame;
    if (!again) onTheWay[element.index] = -1;
    if (used) asTarget[element.index] = 0;
    last = { own, shown, visited: visited + (frame.measured ? shown - element.weight : 0) };
    const outer = stack.at(-1);
    if (outer !== undefined) outer.met = Math.min(outer.met, frame.met);
    // What depends on the way is found anew each time.
    if (frame.met > stack.length) known[element.index] = last;
    add(outer, last, used);
  };

  enter(root, false);
  for (let frame = stack.at(-1); frame !== undefined; frame = stack.at(-1)) {
    if (steps > most) return null;
    if (frame.next === frame.parts.length) {
      leave(frame);
      continue;
    }
    const part = frame.parts[frame.next++];
    if (frame.element.name !== 'use') enter(part, false);
    else if (asTarget[part.index] === 1) frame.met = Math.min(frame.met, onTheWay[part.index]);
    // Deeper than that, drawing stops with an error of its own.
    else if (frame.uses < scene.options.limits.useDepth) enter(part, true);
  }
  return last;
}

function add(outer: Frame | undefined, part: Sums, used: boolean): void {
  if (outer === undefined) return;
  if (!used) outer.own += part.own;
  outer.shown += part.shown;
  outer.visited += part.visited;
}

/** What is visited after an element: its children that count, or what a `use` shows. As `walk.ts` does it. */
function partsOf(element: XmlElement, scene: Scene): readonly XmlElement[] {
  const { name } = element;
  if (!isSvg(element) || SHAPE_ELEMENTS.has(name) || name === 'text') return NONE;
  if (SILENT.has(name) && name !== 'symbol') return NONE;
  if (!conditionsHold(element, scene)) return NONE;
  const declared = scene.cascade.declared(element);
  if (declared.get('display') === 'none' || parseOpacity(declared.get('opacity') ?? '1') === 0) return NONE;
  if (name === 'switch') return chooseBranch(element, scene);
  if (name === 'use') {
    const target = namedByUse(element, scene);
    return target === null || standsIn(element, target) ? NONE : [target];
  }
  if (!['g', 'a', 'svg', 'symbol'].includes(name)) return NONE;
  return element.children.filter((child): child is XmlElement => typeof child !== 'string');
}

const NONE: readonly XmlElement[] = [];

/** Whether the parts of an element are visited once more, for the box that its clip path is drawn in. */
function isMeasured(element: XmlElement, scene: Scene): boolean {
  if (SHAPE_ELEMENTS.has(element.name) || !isSvg(element)) return false;
  const value = scene.cascade.declared(element).get('clip-path');
  const id = value === undefined ? null : referencedId(value);
  return id !== null && scene.byId.get(id)?.attributes.clipPathUnits === 'objectBoundingBox';
}
