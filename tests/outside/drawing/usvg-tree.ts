import { SaxesParser } from 'saxes';
import { SVGPathData } from 'svg-pathdata';
import { CHORDS, type Outline, OutlineMeter } from './outline.js';

/**
 * Reads the simplified tree that usvg writes (paths with absolute M, L, Q, C and Z, transforms as matrices): the
 * outlines of all paths that paint anything, in the order they are painted. Clips are not applied. Nothing of our
 * own reader is used.
 */
export function usvgOutlines(svg: string): Outline[] {
  const outlines: Outline[] = [];
  const stack: { matrix: Matrix; silent: boolean }[] = [];
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const outer = stack.at(-1);
    let matrix = outer?.matrix ?? viewBoxMatrix(attributes);
    const transform = /matrix\(([^)]*)\)/.exec(attributes.transform ?? '');
    if (transform)
      matrix = multiply(
        matrix,
        transform[1]
          .trim()
          .split(/[\s,]+/)
          .map(Number) as Matrix,
      );
    const silent = (outer?.silent ?? false) || SILENT.has(name);
    stack.push({ matrix, silent });
    if (name !== 'path' || silent || attributes.visibility === 'hidden') return;
    const stroke = (attributes.stroke ?? 'none') !== 'none';
    const fill = (attributes.fill ?? '#000000') !== 'none';
    if (stroke || fill) outlines.push(...measure(attributes.d, matrix, stroke, attributes.id ?? ''));
  });
  parser.on('closetag', () => stack.pop());
  parser.write(svg).close();
  return outlines;
}

type Matrix = [number, number, number, number, number, number];

const SILENT = new Set(['defs', 'clipPath', 'mask', 'pattern', 'filter', 'linearGradient', 'radialGradient']);

function multiply(m: Matrix, n: Matrix): Matrix {
  return [
    m[0] * n[0] + m[2] * n[1],
    m[1] * n[0] + m[3] * n[1],
    m[0] * n[2] + m[2] * n[3],
    m[1] * n[2] + m[3] * n[3],
    m[0] * n[4] + m[2] * n[5] + m[4],
    m[1] * n[4] + m[3] * n[5] + m[5],
  ];
}

function viewBoxMatrix(attributes: Record<string, string>): Matrix {
  const [x, y, w, h] = attributes.viewBox.split(' ').map(Number);
  const [width, height] = [Number(attributes.width), Number(attributes.height)];
  const aspect = attributes.preserveAspectRatio ?? 'xMidYMid';
  let [sx, sy] = [width / w, height / h];
  if (!aspect.startsWith('none')) sx = sy = aspect.includes('slice') ? Math.max(sx, sy) : Math.min(sx, sy);
  const share = (axis: string): number =>
    aspect.includes(`${axis}Max`) ? 1 : aspect.includes(`${axis}Mid`) ? 0.5 : 0;
  return [sx, 0, 0, sy, share('x') * (width - w * sx) - x * sx, share('Y') * (height - h * sy) - y * sy];
}

/** A box thinner than this (px) is a line, and a line shorter than it a point. */
const FLAT = 1e-6;

/** A subpath of a single line, closed or not: filled, it shows nothing. */
const BARE_LINE = /M [-\d.e]+ [-\d.e]+ L [-\d.e]+ [-\d.e]+(?: Z)? (?=M|$)/g;

/** The outline of one path; filled paths without stroke show closed, and only if they enclose anything. */
function measure(d: string, m: Matrix, stroke: boolean, id: string): Outline[] {
  const meter = new OutlineMeter();
  const at = (x: number, y: number): [number, number] => [
    m[0] * x + m[2] * y + m[4],
    m[1] * x + m[3] * y + m[5],
  ];
  let [x, y, startX, startY] = [0, 0, 0, 0];
  let open = false;
  const close = (): void => meter.lineTo(...at(startX, startY));
  const data = stroke ? d : `${d} `.replace(BARE_LINE, '');
  for (const c of new SVGPathData(data).commands) {
    if (c.type === SVGPathData.MOVE_TO) {
      if (open && !stroke) close();
      [x, y, startX, startY, open] = [c.x, c.y, c.x, c.y, false];
      meter.moveTo(...at(x, y));
    } else if (c.type === SVGPathData.CLOSE_PATH) {
      close();
      [x, y, open] = [startX, startY, false];
    } else {
      open = true;
      for (let i = 1; i <= CHORDS; i++) meter.lineTo(...at(...pointOf(c, x, y, i / CHORDS)));
      if (!('x' in c && 'y' in c)) throw new Error(`unexpected command ${c.type}`);
      [x, y] = [c.x, c.y];
    }
  }
  if (open && !stroke) close();
  const outline = meter.outline(id);
  const flat = outline.box[2] - outline.box[0] < FLAT || outline.box[3] - outline.box[1] < FLAT;
  return outline.length < FLAT || (flat && !stroke) ? [] : [outline];
}

function pointOf(c: SVGPathData['commands'][number], x: number, y: number, t: number): [number, number] {
  const u = 1 - t;
  switch (c.type) {
    case SVGPathData.LINE_TO:
      return [u * x + t * c.x, u * y + t * c.y];
    case SVGPathData.QUAD_TO:
      return [u * u * x + 2 * u * t * c.x1 + t * t * c.x, u * u * y + 2 * u * t * c.y1 + t * t * c.y];
    case SVGPathData.CURVE_TO:
      return [
        u ** 3 * x + 3 * u * u * t * c.x1 + 3 * u * t * t * c.x2 + t ** 3 * c.x,
        u ** 3 * y + 3 * u * u * t * c.y1 + 3 * u * t * t * c.y2 + t ** 3 * c.y,
      ];
    default:
      throw new Error(`unexpected command ${c.type}`);
  }
}
