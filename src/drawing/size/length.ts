/** What lengths are measured by: the nearest viewport, the sizes of text, and how long a pixel is. */
export interface LengthContext {
  /** Size of the nearest viewport in user units. */
  readonly viewport: { readonly width: number; readonly height: number };
  readonly fontSize: number;
  readonly rootFontSize: number;
  /** Size of the outermost viewport in user units, for vw, vh and their kin. */
  readonly page: { readonly width: number; readonly height: number };
  readonly unitsPerInch: number;
}

/** What a percentage is a part of. */
export type LengthAxis = 'width' | 'height' | 'diagonal';

/** Absolute units in mm (CSS Values and Units, absolute lengths); `px` depends on the file's resolution. */
const MILLIMETRES: Readonly<Record<string, number>> = {
  in: 25.4,
  cm: 10,
  mm: 1,
  q: 0.25,
  pt: 25.4 / 72,
  pc: 25.4 / 6,
};

/** Units that follow the size of text, in em. Those that need the font itself are taken as common fonts have them. */
const EMS: Readonly<Record<string, number>> = { em: 1, ex: 0.5, ch: 0.5, cap: 0.7, ic: 1, lh: 1.2 };
const ROOT_EMS: Readonly<Record<string, number>> = {
  rem: 1,
  rex: 0.5,
  rch: 0.5,
  rcap: 0.7,
  ric: 1,
  rlh: 1.2,
};

const LENGTH = /^[\s]*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)([a-zA-Z]+|%)?[\s]*$/;

/** A length as written: number and lower-case unit ('' for none), or null when it is none. */
export function splitLength(text: string): { value: number; unit: string } | null {
  // Numbers without a unit are by far the most common.
  const plain = text === '' ? Number.NaN : +text;
  if (plain - plain === 0 && !HAS_FORBIDDEN_FORM.test(text)) return { value: plain, unit: '' };
  const found = LENGTH.exec(text);
  if (!found) return null;
  const value = Number(found[1]);
  return Number.isFinite(value) ? { value, unit: (found[2] ?? '').toLowerCase() } : null;
}

/** Forms that JavaScript reads as a number and CSS does not: blank text, hexadecimal and its kin. */
const HAS_FORBIDDEN_FORM = /^\s*$|[xXoObB]/;

/** A length in user units; null for anything that is no length, or in a unit that is not known. */
export function parseLength(text: string, axis: LengthAxis, context: LengthContext): number | null {
  const split = splitLength(text);
  if (split === null) return null;
  const { value, unit } = split;
  if (unit === '' || unit === 'px') return value;
  if (unit === '%') return (value / 100) * axisLength(axis, context.viewport);
  if (unit in MILLIMETRES) return ((value * MILLIMETRES[unit]) / 25.4) * context.unitsPerInch;
  if (unit in EMS) return value * EMS[unit] * context.fontSize;
  if (unit in ROOT_EMS) return value * ROOT_EMS[unit] * context.rootFontSize;
  return viewportLength(value, unit, context.page);
}

/** The length that 100 % stands for; other than of width or height: √((w² + h²)/2) (SVG 2, units). */
export function axisLength(axis: LengthAxis, viewport: { width: number; height: number }): number {
  if (axis === 'width') return viewport.width;
  if (axis === 'height') return viewport.height;
  return Math.sqrt((viewport.width ** 2 + viewport.height ** 2) / 2);
}

function viewportLength(value: number, unit: string, page: { width: number; height: number }): number | null {
  const part = value / 100;
  switch (unit) {
    case 'vw':
    case 'vi':
      return part * page.width;
    case 'vh':
    case 'vb':
      return part * page.height;
    case 'vmin':
      return part * Math.min(page.width, page.height);
    case 'vmax':
      return part * Math.max(page.width, page.height);
    default:
      return null;
  }
}

/** An absolute length in mm, or null for other units, percentages and text that is no length. */
export function absoluteMillimetres(text: string, unitsPerInch: number): number | null {
  const split = splitLength(text);
  if (split === null) return null;
  if (split.unit === '' || split.unit === 'px') return (split.value / unitsPerInch) * 25.4;
  const millimetres = MILLIMETRES[split.unit];
  return millimetres === undefined ? null : split.value * millimetres;
}

/** Numbers separated by white space and commas; reading stops at the first that is none. */
export function parseNumberList(text: string): { numbers: number[]; complete: boolean } {
  const numbers: number[] = [];
  const pattern = /[\s,]*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)/y;
  let end = 0;
  for (let found = pattern.exec(text); found !== null; found = pattern.exec(text)) {
    const value = Number(found[1]);
    if (!Number.isFinite(value)) return { numbers, complete: false };
    numbers.push(value);
    end = pattern.lastIndex;
  }
  return { numbers, complete: /^[\s,]*$/.test(text.slice(end)) };
}
