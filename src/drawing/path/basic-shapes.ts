import { ellipseArcs, makeArc } from '../../geometry/arc.js';
import type { Point } from '../../geometry/point.js';
import { parseNumberList } from '../size/length.js';
import { drawPath } from './draw-path.js';
import type { PathBuilder } from './path-builder.js';

/** Looks up a geometry attribute or property of the element in user units; null where absent or `auto`. */
export type GeometryLookup = (name: string, axis: 'width' | 'height' | 'diagonal') => number | null;

/** What came out of drawing an element: a fault to report, and whether the fault stops it from showing at all. */
export interface DrawResult {
  readonly fault: string | null;
}

const FINE: DrawResult = { fault: null };

/** The elements that draw lines. */
export const SHAPE_ELEMENTS: ReadonlySet<string> = new Set([
  'path',
  'rect',
  'circle',
  'ellipse',
  'line',
  'polyline',
  'polygon',
]);

/** Draws a shape element by the equivalent paths of SVG 2 (chapter Basic shapes). */
export function drawShape(
  name: string,
  lookup: GeometryLookup,
  text: (name: string) => string | undefined,
  builder: PathBuilder,
): DrawResult {
  switch (name) {
    case 'path': {
      const data = text('d');
      return data === undefined || data === 'none' ? FINE : { fault: pathFault(drawPath(data, builder)) };
    }
    case 'rect':
      return drawRect(lookup, builder);
    case 'circle':
      return drawEllipse(lookup, lookup('r', 'diagonal'), lookup('r', 'diagonal'), builder);
    case 'ellipse':
      return drawEllipse(lookup, lookup('rx', 'width'), lookup('ry', 'height'), builder);
    case 'line':
      builder.moveTo(lookup('x1', 'width') ?? 0, lookup('y1', 'height') ?? 0);
      builder.lineTo(lookup('x2', 'width') ?? 0, lookup('y2', 'height') ?? 0);
      return FINE;
    default:
      return drawPoly(text('points') ?? '', name === 'polygon', builder);
  }
}

function pathFault(fault: string | null): string | null {
  return fault === null ? null : `its path data is drawn up to a fault: ${fault}`;
}

function drawRect(lookup: GeometryLookup, builder: PathBuilder): DrawResult {
  const width = lookup('width', 'width') ?? 0;
  const height = lookup('height', 'height') ?? 0;
  if (width < 0 || height < 0) return { fault: 'a rectangle with a negative size is not drawn' };
  if (width === 0 || height === 0) return FINE;
  const x = lookup('x', 'width') ?? 0;
  const y = lookup('y', 'height') ?? 0;
  const [rx, ry] = cornerRadii(lookup, width, height);
  const right = x + width;
  const bottom = y + height;
  if (rx === 0 || ry === 0) {
    builder.moveTo(x, y);
    builder.lineTo(right, y);
    builder.lineTo(right, bottom);
    builder.lineTo(x, bottom);
    builder.close(x, y);
    return FINE;
  }
  const corner = (cx: number, cy: number, quarter: number, to: Point, from: Point): void => {
    builder.arc(makeArc(from, to, [cx, cy], rx, ry, 0, (quarter * Math.PI) / 2, Math.PI / 2));
  };
  builder.moveTo(x + rx, y);
  if (right - rx > x + rx) builder.lineTo(right - rx, y);
  corner(right - rx, y + ry, -1, [right, y + ry], [right - rx, y]);
  if (bottom - ry > y + ry) builder.lineTo(right, bottom - ry);
  corner(right - rx, bottom - ry, 0, [right - rx, bottom], [right, bottom - ry]);
  if (right - rx > x + rx) builder.lineTo(x + rx, bottom);
  corner(x + rx, bottom - ry, 1, [x, bottom - ry], [x + rx, bottom]);
  if (bottom - ry > y + ry) builder.lineTo(x, y + ry);
  corner(x + rx, y + ry, 2, [x + rx, y], [x, y + ry]);
  builder.close(x + rx, y);
  return FINE;
}

/** A missing or negative radius follows the other; both are clamped to half of the side. */
function cornerRadii(lookup: GeometryLookup, width: number, height: number): [number, number] {
  const given = (value: number | null): number | null => (value === null || value < 0 ? null : value);
  const rx = given(lookup('rx', 'width'));
  const ry = given(lookup('ry', 'height'));
  return [Math.min(rx ?? ry ?? 0, width / 2), Math.min(ry ?? rx ?? 0, height / 2)];
}

function drawEllipse(
  lookup: GeometryLookup,
  rx: number | null,
  ry: number | null,
  builder: PathBuilder,
): DrawResult {
  const a = rx !== null && rx >= 0 ? rx : ry;
  const b = ry !== null && ry >= 0 ? ry : rx;
  const negative = (rx ?? 0) < 0 || (ry ?? 0) < 0;
  if (a === null || b === null || a <= 0 || b <= 0) {
    return negative ? { fault: 'an ellipse or circle with a negative radius is not drawn' } : FINE;
  }
  const cx = lookup('cx', 'width') ?? 0;
  const cy = lookup('cy', 'height') ?? 0;
  builder.moveTo(cx + a, cy);
  for (const arc of ellipseArcs([cx, cy], a, b)) builder.arc(arc);
  builder.close(cx + a, cy);
  return negative ? { fault: 'a negative radius is taken as missing' } : FINE;
}

function drawPoly(points: string, close: boolean, builder: PathBuilder): DrawResult {
  const { numbers, complete } = parseNumberList(points);
  const odd = numbers.length % 2 === 1;
  const count = numbers.length - (odd ? 1 : 0);
  for (let i = 0; i < count; i += 2) {
    if (i === 0) builder.moveTo(numbers[0], numbers[1]);
    else builder.lineTo(numbers[i], numbers[i + 1]);
  }
  if (close && count > 2) builder.close(numbers[0], numbers[1]);
  if (!complete) return { fault: 'its list of points is drawn up to a fault' };
  return odd ? { fault: 'the odd last coordinate of its points is left out' } : FINE;
}
