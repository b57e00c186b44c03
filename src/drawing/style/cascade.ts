import type { XmlElement } from '../xml/xml-tree.js';
import { STYLE_PROPERTIES } from './computed-style.js';
import { type Declaration, parseDeclarations } from './declarations.js';

/** Attributes that are properties too: presentation attributes, and the geometry properties of SVG 2. */
const PROPERTY_ATTRIBUTES: ReadonlySet<string> = new Set([
  ...STYLE_PROPERTIES,
  ...['display', 'opacity', 'clip-path', 'mask', 'filter', 'overflow', 'baseline-shift'],
  ...['transform', 'transform-origin', 'transform-box', 'stop-color', 'stop-opacity'],
  ...['x', 'y', 'width', 'height', 'cx', 'cy', 'r', 'rx', 'ry', 'd'],
  ...['translate', 'rotate', 'scale', 'offset-path'],
]);

/** Shorthands and newer properties are no presentation attributes; `rotate` of a text is something else. */
const NOT_ATTRIBUTES: ReadonlySet<string> = new Set([
  ...['font', 'marker', 'translate', 'rotate', 'scale', 'offset-path'],
]);

/** Finds the style sheet declarations for an element, weakest first. */
export type SheetLookup = (element: XmlElement) => readonly Declaration[];

/** Works out which declaration wins for each property of an element. */
export class Cascade {
  readonly #sheets: SheetLookup;
  readonly #faulty: (element: XmlElement) => void;
  readonly #inline = new Map<string, ReturnType<typeof parseDeclarations>>();

  constructor(sheets: SheetLookup, faulty: (element: XmlElement) => void) {
    this.#sheets = sheets;
    this.#faulty = faulty;
  }

  /**
   * The winning declarations: presentation attributes, then style sheets by specificity and order, then the
   * `style` attribute, then what is `!important` in the same order (CSS Cascade 4, section 6).
   */
  declared(element: XmlElement): Map<string, string> {
    const winning = new Map<string, string>();
    const { attributes } = element;
    // An element may have a million attributes; then it is quicker to ask for each property.
    const names =
      element.attributeCount < PROPERTY_ATTRIBUTES.size ? Object.keys(attributes) : PROPERTY_ATTRIBUTES;
    for (const name of names) {
      const value = attributes[name];
      if (value !== undefined && !NOT_ATTRIBUTES.has(name)) put(winning, name, value.trim());
    }
    const space = attributes['xml:space'];
    if (space !== undefined) put(winning, 'white-space', space === 'preserve' ? 'pre' : 'normal');
    const rules = this.#sheets(element);
    const style = attributes.style;
    const inline = style === undefined ? NONE : this.#parse(style);
    if (inline.faulty) this.#faulty(element);
    for (const list of [rules, inline.declarations]) {
      for (const declaration of list)
        if (!declaration.important) put(winning, declaration.name, declaration.value);
    }
    for (const list of [rules, inline.declarations]) {
      for (const declaration of list)
        if (declaration.important) put(winning, declaration.name, declaration.value);
    }
    return winning;
  }

  #parse(style: string): ReturnType<typeof parseDeclarations> {
    const known = this.#inline.get(style);
    if (known) return known;
    const parsed = parseDeclarations(style);
    // Long values are rare and seldom repeated; the cache is for the few styles that a drawing uses all over.
    if (style.length < 1000 && this.#inline.size < 10_000) this.#inline.set(style, parsed);
    return parsed;
  }
}

const NONE = { declarations: [], faulty: false };

/** Custom properties that an element may set. */
const MAX_CUSTOM = 100;

function put(winning: Map<string, string>, name: string, value: string): void {
  if (!PROPERTY_ATTRIBUTES.has(name) && !(name.startsWith('--') && winning.size < MAX_CUSTOM)) return;
  // A shorthand and its longhand override each other by order, so the later one has to stay alone.
  if (name === 'font') winning.delete('font-size');
  else if (name === 'font-size') winning.delete('font');
  else if (name === 'marker') for (const part of ['start', 'mid', 'end']) winning.delete(`marker-${part}`);
  winning.set(name, value);
}
