import { type LengthAxis, type LengthContext, parseLength } from '../size/length.js';
import { type Color, parseColor, parseOpacity } from './color.js';
import { BLACK, NO_PAINT, type Paint, parsePaint } from './paint.js';

/** The winning declarations of one element, by property. */
export type Declared = ReadonlyMap<string, string>;

/** The inherited properties that decide what is seen. Lengths in user units. */
export interface Style {
  readonly color: Color;
  readonly fill: Paint;
  readonly fillOpacity: number;
  readonly fillRule: 'nonzero' | 'evenodd';
  readonly stroke: Paint;
  readonly strokeOpacity: number;
  readonly strokeWidth: number;
  /** Lengths of dashes and gaps in turn; empty: one unbroken line. */
  readonly dashes: readonly number[];
  readonly dashOffset: number;
  readonly clipRule: 'nonzero' | 'evenodd';
  readonly visible: boolean;
  readonly markers: boolean;
  readonly fontSize: number;
  readonly textAnchor: 'start' | 'middle' | 'end';
  readonly dominantBaseline: string;
  readonly letterSpacing: number;
  readonly preserveSpace: boolean;
  readonly vertical: boolean;
}

export const INITIAL_STYLE: Style = {
  color: { hex: '#000000', alpha: 1 },
  fill: BLACK,
  fillOpacity: 1,
  fillRule: 'nonzero',
  stroke: NO_PAINT,
  strokeOpacity: 1,
  strokeWidth: 1,
  dashes: [],
  dashOffset: 0,
  clipRule: 'nonzero',
  visible: true,
  markers: false,
  fontSize: 16,
  textAnchor: 'start',
  dominantBaseline: 'auto',
  letterSpacing: 0,
  preserveSpace: false,
  vertical: false,
};

type Changes = { -readonly [K in keyof Style]?: Style[K] };

/** Reads one value into `out`; false when the value is not valid. */
type Reader = (value: string, out: Changes, parent: Style, lengths: LengthContext) => boolean;

interface Property {
  readonly field: readonly (keyof Style)[];
  readonly read: Reader;
}

function set<K extends keyof Style>(out: Changes, field: K, value: Style[K] | null): boolean {
  if (value === null) return false;
  out[field] = value;
  return true;
}

const paint = (field: 'fill' | 'stroke'): Property => ({
  field: [field],
  read: (value, out, parent) => set(out, field, parsePaint(value, out.color ?? parent.color)),
});

const opacity = (field: 'fillOpacity' | 'strokeOpacity'): Property => ({
  field: [field],
  read: (value, out) => set(out, field, parseOpacity(value)),
});

const rule = (field: 'fillRule' | 'clipRule'): Property => ({
  field: [field],
  read: (value, out) => set(out, field, value === 'evenodd' || value === 'nonzero' ? value : null),
});

const marker: Property = {
  field: ['markers'],
  read: (value, out, parent) => set(out, 'markers', value !== 'none' || (out.markers ?? parent.markers)),
};

function length(
  field: 'strokeWidth' | 'dashOffset' | 'letterSpacing',
  axis: LengthAxis,
  least: number,
): Property {
  return {
    field: [field],
    read: (value, out, parent, lengths) => {
      const size = { ...lengths, fontSize: out.fontSize ?? parent.fontSize };
      const read = value === 'normal' ? 0 : parseLength(value, axis, size);
      return set(out, field, read !== null && read >= least ? read : null);
    },
  };
}

/** In reading order: what others are measured by comes first. */
const PROPERTIES: ReadonlyMap<string, Property> = new Map<string, Property>([
  ['font', { field: ['fontSize'], read: (v, out, p, l) => readFontSize(fontShorthandSize(v), out, p, l) }],
  ['font-size', { field: ['fontSize'], read: readFontSize }],
  ['color', { field: ['color'], read: (value, out) => set(out, 'color', parseColor(value)) }],
  ['fill', paint('fill')],
  ['fill-opacity', opacity('fillOpacity')],
  ['fill-rule', rule('fillRule')],
  ['stroke', paint('stroke')],
  ['stroke-opacity', opacity('strokeOpacity')],
  ['stroke-width', length('strokeWidth', 'diagonal', 0)],
  ['stroke-dashoffset', length('dashOffset', 'diagonal', Number.NEGATIVE_INFINITY)],
  ['stroke-dasharray', { field: ['dashes'], read: readDashes }],
  ['clip-rule', rule('clipRule')],
  ['visibility', { field: ['visible'], read: readVisibility }],
  ['marker', marker],
  ['marker-start', marker],
  ['marker-mid', marker],
  ['marker-end', marker],
  ['text-anchor', { field: ['textAnchor'], read: readAnchor }],
  [
    'dominant-baseline',
    { field: ['dominantBaseline'], read: (value, out) => set(out, 'dominantBaseline', value) },
  ],
  ['letter-spacing', length('letterSpacing', 'width', Number.NEGATIVE_INFINITY)],
  [
    'white-space',
    { field: ['preserveSpace'], read: (v, out) => set(out, 'preserveSpace', /^(pre|break-spaces)/.test(v)) },
  ],
  ['writing-mode', { field: ['vertical'], read: (v, out) => set(out, 'vertical', /^(tb|vertical)/.test(v)) }],
]);

const NAMES: readonly string[] = [...PROPERTIES.keys()];

/** Names of the properties read here. */
export const STYLE_PROPERTIES: ReadonlySet<string> = new Set(NAMES);

/** The style of an element: its declarations over what it inherits. `invalid` hears of each value that is none. */
export function computeStyle(
  declared: Declared,
  parent: Style,
  lengths: LengthContext,
  invalid: (property: string, value: string) => void,
): Style {
  let changes: Changes | null = null;
  if (!declaresStyle(declared)) return parent;
  for (const name of NAMES) {
    const value = declared.get(name);
    if (value === undefined) continue;
    const property = PROPERTIES.get(name)!;
    changes ??= {};
    const keyword = value.toLowerCase();
    if (keyword === 'inherit' || keyword === 'unset' || keyword === 'revert') {
      // Only colours feed into others here, and all of these properties inherit anyway.
      for (const field of property.field) Object.assign(changes, { [field]: parent[field] });
    } else if (keyword === 'initial') {
      for (const field of property.field) Object.assign(changes, { [field]: INITIAL_STYLE[field] });
    } else if (!property.read(value, changes, parent, lengths)) invalid(name, value);
  }
  return changes === null ? parent : { ...parent, ...changes };
}

/** Most elements declare where they are and no more. */
function declaresStyle(declared: Declared): boolean {
  for (const name of declared.keys()) if (PROPERTIES.has(name)) return true;
  return false;
}

/** Keywords for the size of text in px (CSS Fonts, absolute sizes at a medium of 16 px). */
const FONT_SIZES: Readonly<Record<string, number>> = {
  'xx-small': 9.6,
  'x-small': 12,
  small: 14.222,
  medium: 16,
  large: 19.2,
  'x-large': 24,
  'xx-large': 32,
  'xxx-large': 48,
};

function readFontSize(value: string, out: Changes, parent: Style, lengths: LengthContext): boolean {
  const keyword = value.toLowerCase();
  if (keyword in FONT_SIZES) return set(out, 'fontSize', FONT_SIZES[keyword]);
  if (keyword === 'smaller') return set(out, 'fontSize', parent.fontSize / 1.2);
  if (keyword === 'larger') return set(out, 'fontSize', parent.fontSize * 1.2);
  const percent = /^([\d.]+)%$/.exec(value);
  const size = percent
    ? (Number(percent[1]) / 100) * parent.fontSize
    : parseLength(value, 'height', { ...lengths, fontSize: parent.fontSize });
  return set(out, 'fontSize', size !== null && size >= 0 ? size : null);
}

/** The size in a `font` shorthand: the first length in it. */
function fontShorthandSize(value: string): string {
  const found =
    /(?:^|\s)([\d.]+(?:[a-z]+|%)|(?:xx?x?-)?(?:small|large)|medium|smaller|larger)(?=[\s/]|$)/i.exec(value);
  return found ? found[1] : '';
}

function readDashes(value: string, out: Changes, parent: Style, lengths: LengthContext): boolean {
  if (value.toLowerCase() === 'none') return set(out, 'dashes', []);
  const size = { ...lengths, fontSize: out.fontSize ?? parent.fontSize };
  const list: number[] = [];
  for (const part of value.trim().split(/[\s,]+/)) {
    const read = parseLength(part, 'diagonal', size);
    if (read === null || read < 0) return false;
    list.push(read);
  }
  const dashes = list.length % 2 === 1 ? [...list, ...list] : list;
  const broken = dashes.some((gap, i) => i % 2 === 1 && gap > 0);
  return set(out, 'dashes', broken ? dashes : []);
}

function readVisibility(value: string, out: Changes): boolean {
  const keyword = value.toLowerCase();
  if (keyword !== 'visible' && keyword !== 'hidden' && keyword !== 'collapse') return false;
  return set(out, 'visible', keyword === 'visible');
}

function readAnchor(value: string, out: Changes): boolean {
  return set(out, 'textAnchor', value === 'start' || value === 'middle' || value === 'end' ? value : null);
}
