import { NAMED_COLORS } from './named-colors.js';

/** A colour: `#rrggbb`, or null where it is valid but not worked out (`lab()` and the like), and its alpha. */
export interface Color {
  readonly hex: string | null;
  readonly alpha: number;
}

const HEX = /^#(?:[0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})$/;
const RGB = /^(rgba?|hsla?|hwb)\(([^()]*)\)$/;
const OTHER = /^(?:lab|lch|oklab|oklch|color|color-mix|device-cmyk|light-dark)\((.*)\)$/s;

/** Reads a CSS colour (CSS Color 4); null when it is none. `currentcolor` is left to the caller. */
export function parseColor(text: string): Color | null {
  const value = text.trim().toLowerCase();
  if (HEX.test(value)) return hexColor(value);
  if (value === 'transparent') return { hex: '#000000', alpha: 0 };
  const named = NAMED_COLORS.get(value);
  if (named !== undefined) return { hex: named, alpha: 1 };
  const call = RGB.exec(value);
  if (call) return functionColor(call[1], call[2]);
  const other = OTHER.exec(value);
  if (!other) return null;
  return { hex: null, alpha: alphaOf(other[1].split('/')[1]) };
}

function hexColor(value: string): Color {
  const digits = value.length <= 5 ? [...value.slice(1)].map((d) => d + d).join('') : value.slice(1);
  const alpha = digits.length === 8 ? Number.parseInt(digits.slice(6), 16) / 255 : 1;
  return { hex: `#${digits.slice(0, 6)}`, alpha };
}

function functionColor(name: string, list: string): Color | null {
  const [main, slash] = list.split('/');
  const parts = main.trim().split(/[\s,]+/);
  const alpha = slash ?? parts[3];
  if (parts.length < 3 || parts.length > 4) return null;
  const channels = name.startsWith('rgb') ? rgbChannels(parts) : hueChannels(name, parts);
  if (!channels.every(Number.isFinite)) return null;
  const hex = channels.map((c) =>
    Math.round(Math.min(255, Math.max(0, c)))
      .toString(16)
      .padStart(2, '0'),
  );
  return { hex: `#${hex.join('')}`, alpha: alphaOf(alpha) };
}

function rgbChannels(parts: readonly string[]): number[] {
  return parts
    .slice(0, 3)
    .map((p) => (p.endsWith('%') ? (Number(p.slice(0, -1)) * 255) / 100 : p === 'none' ? 0 : Number(p)));
}

/** HSL and HWB to RGB by the formulas of CSS Color 4, sections 7 and 8. */
function hueChannels(name: string, parts: readonly string[]): number[] {
  const hue = hueOf(parts[0]);
  const [p, q] = parts.slice(1, 3).map((part) => Number(part.replace(/%$/, '')) / 100);
  if (name === 'hwb') {
    const sum = p + q;
    const pure = hslToRgb(hue, 1, 0.5);
    return pure.map((c) => 255 * (sum >= 1 ? p / sum : c * (1 - p - q) + p));
  }
  return hslToRgb(hue, p, q).map((c) => 255 * c);
}

function hslToRgb(hue: number, saturation: number, light: number): number[] {
  const a = saturation * Math.min(light, 1 - light);
  return [0, 8, 4].map((n) => {
    const k = (n + hue / 30) % 12;
    return light - a * Math.max(-1, Math.min(k - 3, 9 - k, 1));
  });
}

function hueOf(text: string): number {
  const found = /^([+-]?[\d.]+(?:e[+-]?\d+)?)(deg|rad|grad|turn)?$/.exec(text);
  if (!found) return Number.NaN;
  const per = { deg: 1, rad: 180 / Math.PI, grad: 0.9, turn: 360 }[found[2] ?? 'deg'] ?? 1;
  return (((Number(found[1]) * per) % 360) + 360) % 360;
}

function alphaOf(text: string | undefined): number {
  return text === undefined ? 1 : (parseOpacity(text) ?? 1);
}

/** An opacity, number or percentage, clamped to 0…1; null when it is none. */
export function parseOpacity(text: string): number | null {
  const found = /^\s*([+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?)(%?)\s*$/.exec(text);
  if (!found) return null;
  const value = Number(found[1]) / (found[2] ? 100 : 1);
  return Math.min(1, Math.max(0, value));
}
