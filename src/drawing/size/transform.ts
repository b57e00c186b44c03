import { type Affine, IDENTITY, multiplyAffine } from '../../geometry/affine.js';
import { type LengthContext, parseLength, splitLength } from './length.js';

const FUNCTION = /[\s,]*([a-zA-Z][a-zA-Z0-9]*)\s*\(([^()]*)\)/y;

/** Degrees in each unit of angle (CSS Values and Units). */
const DEGREES: Readonly<Record<string, number>> = { '': 1, deg: 1, grad: 0.9, turn: 360, rad: 180 / Math.PI };

/**
 * The map of a transform list, as an attribute or in CSS (functions of the plane only). Lengths may have units;
 * percentages are of `box`. Null when any part can't be read: then, by the standard, the list as a whole is void.
 */
export function parseTransform(
  text: string,
  context: LengthContext,
  box: { width: number; height: number },
): Affine | null {
  if (text.trim() === 'none') return IDENTITY;
  let matrix: Affine = IDENTITY;
  let end = 0;
  const lengths = { ...context, viewport: box };
  FUNCTION.lastIndex = 0;
  for (let found = FUNCTION.exec(text); found !== null; found = FUNCTION.exec(text)) {
    const step = transformFunction(found[1], found[2], lengths);
    if (step === null || !step.every(Number.isFinite)) return null;
    matrix = multiplyAffine(matrix, step);
    end = FUNCTION.lastIndex;
  }
  return /^[\s,]*$/.test(text.slice(end)) && matrix.every(Number.isFinite) ? matrix : null;
}

function transformFunction(name: string, list: string, context: LengthContext): Affine | null {
  const parts = splitArguments(list);
  if (parts === null) return null;
  const length = (i: number, axis: 'width' | 'height'): number => {
    return i < parts.length ? (parseLength(parts[i], axis, context) ?? Number.NaN) : 0;
  };
  const plain = (i: number, otherwise: number): number => (i < parts.length ? scaleOf(parts[i]) : otherwise);
  const angle = (i: number): number => (i < parts.length ? radiansOf(parts[i]) : 0);
  const wants = (least: number, most: number): boolean => parts.length >= least && parts.length <= most;
  switch (name.toLowerCase()) {
    case 'matrix': {
      if (!wants(6, 6)) return null;
      const [a, b, c, d] = [0, 1, 2, 3].map((i) => plain(i, 0));
      return [a, b, c, d, length(4, 'width'), length(5, 'height')];
    }
    case 'translate':
      return wants(1, 2) ? [1, 0, 0, 1, length(0, 'width'), length(1, 'height')] : null;
    case 'translatex':
      return wants(1, 1) ? [1, 0, 0, 1, length(0, 'width'), 0] : null;
    case 'translatey':
      return wants(1, 1) ? [1, 0, 0, 1, 0, length(0, 'height')] : null;
    case 'scale':
      return wants(1, 2) ? [plain(0, 1), 0, 0, plain(1, plain(0, 1)), 0, 0] : null;
    case 'scalex':
      return wants(1, 1) ? [plain(0, 1), 0, 0, 1, 0, 0] : null;
    case 'scaley':
      return wants(1, 1) ? [1, 0, 0, plain(0, 1), 0, 0] : null;
    case 'rotate':
      return parts.length === 1 || parts.length === 3
        ? aroundPoint(rotation(angle(0)), length(1, 'width'), length(2, 'height'))
        : null;
    case 'skewx':
      return wants(1, 1) ? [1, 0, Math.tan(angle(0)), 1, 0, 0] : null;
    case 'skewy':
      return wants(1, 1) ? [1, Math.tan(angle(0)), 0, 1, 0, 0] : null;
    case 'skew':
      return wants(1, 2) ? [1, Math.tan(angle(1)), Math.tan(angle(0)), 1, 0, 0] : null;
    default:
      return null;
  }
}

/** Arguments between commas or white space, and numbers that only a sign parts (`10-5`), as attributes allow. */
function splitArguments(list: string): string[] | null {
  const parts = list.match(/[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?(?:[a-zA-Z]+|%)?|[^\s,]+/g) ?? [];
  return /^\s*,|,\s*,|,\s*$/.test(list) ? null : parts;
}

function scaleOf(text: string): number {
  const split = splitLength(text);
  if (split === null) return Number.NaN;
  if (split.unit === '%') return split.value / 100;
  return split.unit === '' ? split.value : Number.NaN;
}

function radiansOf(text: string): number {
  const split = splitLength(text);
  const degrees = split === null ? undefined : DEGREES[split.unit];
  return split === null || degrees === undefined ? Number.NaN : (split.value * degrees * Math.PI) / 180;
}

/** Quarter turns are exact, so that drawings that are turned by them stay on their grid. */
function rotation(angle: number): Affine {
  const quarters = angle / (Math.PI / 2);
  const whole = Math.round(quarters);
  if (Math.abs(quarters - whole) <= Number.EPSILON * 4 * Math.max(1, Math.abs(quarters))) {
    const [cos, sin] = [
      [1, 0],
      [0, 1],
      [-1, 0],
      [0, -1],
    ][((whole % 4) + 4) % 4];
    return [cos, sin, -sin, cos, 0, 0];
  }
  return [Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0];
}

/** A map applied around a point instead of the origin. */
export function aroundPoint(m: Affine, x: number, y: number): Affine {
  if (x === 0 && y === 0) return m;
  return multiplyAffine(multiplyAffine([1, 0, 0, 1, x, y], m), [1, 0, 0, 1, -x, -y]);
}
