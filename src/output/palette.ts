/** A colour in OKLab: lightness 0 to 1, then the green-red and blue-yellow axes. */
type Lab = readonly [lightness: number, a: number, b: number];

/**
 * The ramp of depth, from the back of the stack (dusk blue) to the front (lit straw). Lightness rises in a
 * straight line and hue runs from blue to yellow only, so the steps keep their order in grey print and for
 * all common kinds of colour blindness.
 */
const BACK: Lab = [0.56, -0.022, -0.062];
const MIDDLE: Lab = [0.755, 0.004, 0.006];
const FRONT: Lab = [0.95, 0.008, 0.072];

/** Fixed inks of the pictures. */
export const INK = {
  line: '#101316',
  soft: '#5d6570',
  paper: '#ffffff',
  unnumbered: '#eceae6',
  drill: '#0b57a4',
  alarm: '#c2340b',
  vein: '#6b4a2b',
} as const;

/**
 * The tint for depth number `depth` of a stack of `sheets`: `#rrggbb`. Depths outside 1…`sheets` take the
 * nearer end.
 */
export function depthTint(depth: number, sheets: number): string {
  const t = sheets <= 1 ? 0.75 : Math.min(1, Math.max(0, (depth - 1) / (sheets - 1)));
  const [from, to, part] = t < 0.5 ? [BACK, MIDDLE, t * 2] : [MIDDLE, FRONT, t * 2 - 1];
  const lab = from.map((value, i) => value + (to[i] - value) * part) as unknown as Lab;
  return hexOfLab(lab);
}

/** Dark or white ink, whichever reads better on the colour (contrast ratio of WCAG 2). */
export function inkOn(color: string): string {
  const luminance = relativeLuminance(color) + 0.05;
  return luminance / (relativeLuminance(INK.line) + 0.05) >= 1.05 / luminance ? INK.line : INK.paper;
}

/** Relative luminance of `#rrggbb`, 0 (black) to 1 (white), by WCAG 2. */
export function relativeLuminance(color: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => linear(Number.parseInt(color.slice(at, at + 2), 16) / 255));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** OKLab to sRGB by the matrices of CSS Color 4, section 10.4 (Björn Ottosson's). */
function hexOfLab([lightness, a, b]: Lab): string {
  const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const rgb = [
    4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
    -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
    -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s,
  ];
  return `#${rgb.map((value) => hexByte(gamma(value))).join('')}`;
}

const gamma = (value: number): number =>
  value <= 0.0031308 ? 12.92 * value : 1.055 * value ** (1 / 2.4) - 0.055;

const linear = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;

const hexByte = (value: number): string =>
  Math.round(Math.min(1, Math.max(0, value)) * 255)
    .toString(16)
    .padStart(2, '0');
