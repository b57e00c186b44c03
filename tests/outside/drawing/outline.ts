import type { Drawing, Shape, Subpath } from '../../../src/drawing/drawing.js';
import { pointAt } from '../../../src/geometry/curve.js';

/** A shape told by numbers: the box and the length of its outline, px. */
export interface Outline {
  readonly id: string;
  readonly box: readonly [number, number, number, number];
  readonly length: number;
  /** Signed area, px², every subpath closed; subpaths that turn the other way count negative. */
  readonly area: number;
}

/** Chords that a curve is measured by: a length is good to 1e-5 then, a box better. */
export const CHORDS = 200;

/** Collects a box and a length along points. */
export class OutlineMeter {
  #box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  #length = 0;
  #area = 0;
  #x = 0;
  #y = 0;
  #startX = 0;
  #startY = 0;

  moveTo(x: number, y: number): void {
    this.#closeArea();
    this.#x = x;
    this.#y = y;
    this.#startX = x;
    this.#startY = y;
  }

  #closeArea(): void {
    this.#area += (this.#x * this.#startY - this.#y * this.#startX) / 2;
  }

  lineTo(x: number, y: number): void {
    this.#length += Math.hypot(x - this.#x, y - this.#y);
    const [x0, y0, x1, y1] = this.#box;
    this.#box = [
      Math.min(x0, x, this.#x),
      Math.min(y0, y, this.#y),
      Math.max(x1, x, this.#x),
      Math.max(y1, y, this.#y),
    ];
    this.#area += (this.#x * y - this.#y * x) / 2;
    this.#x = x;
    this.#y = y;
  }

  outline(id: string): Outline {
    this.#closeArea();
    this.#startX = this.#x;
    this.#startY = this.#y;
    return { id, box: this.#box, length: this.#length, area: this.#area };
  }
}

/** Our shapes with any line, measured in px at 96 an inch. */
export function ownOutlines(drawing: Drawing): Outline[] {
  return drawing.shapes.filter((shape) => shape.subpaths.length > 0).map(shapeOutline);
}

function shapeOutline(shape: Shape): Outline {
  const meter = new OutlineMeter();
  for (const subpath of shape.subpaths) trace(subpath, meter);
  return meter.outline(`${shape.source.element}@${shape.source.line}`);
}

const PX = 96 / 25.4;

function trace(subpath: Subpath, meter: OutlineMeter): void {
  const [first] = subpath.curves;
  meter.moveTo(first.from[0] * PX, first.from[1] * PX);
  for (const curve of subpath.curves) {
    const chords = curve.kind === 'line' ? 1 : CHORDS;
    for (let i = 1; i <= chords; i++) {
      const [x, y] = pointAt(curve, i / chords);
      meter.lineTo(x * PX, y * PX);
    }
  }
}

/** Outlines of one list that have no equal in the other. */
export function compareOutlines(
  ours: readonly Outline[],
  theirs: readonly Outline[],
  tolerance = 0.05,
): { extra: Outline[]; missing: Outline[] } {
  const extra = [...ours];
  const missing: Outline[] = [];
  for (const outline of theirs) {
    const found = extra.findIndex((own) => sameOutline(own, outline, tolerance));
    if (found < 0) missing.push(outline);
    else extra.splice(found, 1);
  }
  return { extra, missing };
}

/** Their circles are four cubics, longer by 2e-4 and larger by 3e-4; the rest is rounding to 5 places. */
const CIRCLE_ERROR = 1e-3;

function sameOutline(a: Outline, b: Outline, tolerance: number): boolean {
  if (!a.box.every((value, i) => Math.abs(value - b.box[i]) <= tolerance)) return false;
  if (Math.abs(a.length - b.length) > 4 * tolerance + CIRCLE_ERROR * b.length) return false;
  return Math.abs(a.area - b.area) <= tolerance * b.length + CIRCLE_ERROR * Math.abs(b.area);
}

/** A short text for messages. */
export function describeOutline(o: Outline): string {
  return `${o.id} [${o.box.map((v) => v.toFixed(1)).join(' ')}] ${o.length.toFixed(1)}`;
}
