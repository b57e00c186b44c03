import { type SVGCommand, SVGPathData } from 'svg-pathdata';
import type { PathBuilder } from './path-builder.js';

/** Resolves relative coordinates and smooth curves of path commands, and draws what they mean. */
export class PathInterpreter {
  readonly #builder: PathBuilder;
  #begun = false;
  #x = 0;
  #y = 0;
  #startX = 0;
  #startY = 0;
  /** The control point that a smooth curve mirrors, and the kind of curve that it belonged to. */
  #handleX = 0;
  #handleY = 0;
  #handle: 'cubic' | 'quadratic' | null = null;
  /** After Z the next subpath starts where the closed one did, unless a move follows. */
  #closed = false;

  constructor(builder: PathBuilder) {
    this.#builder = builder;
  }

  /** Draws the next commands; false when the very first is no move, so that nothing may be drawn. */
  run(commands: readonly SVGCommand[]): boolean {
    for (const c of commands) {
      if (!this.#begun && c.type !== SVGPathData.MOVE_TO) return false;
      this.#begun = true;
      if (c.type === SVGPathData.CLOSE_PATH) this.#close();
      else if (c.type === SVGPathData.MOVE_TO)
        this.#move(c.relative ? this.#x + c.x : c.x, c.relative ? this.#y + c.y : c.y);
      else {
        if (this.#closed) this.#builder.moveTo(this.#startX, this.#startY);
        this.#closed = false;
        this.#draw(c);
      }
    }
    return true;
  }

  #close(): void {
    this.#builder.close(this.#startX, this.#startY);
    this.#x = this.#startX;
    this.#y = this.#startY;
    this.#handle = null;
    this.#closed = true;
  }

  #move(x: number, y: number): void {
    this.#builder.moveTo(x, y);
    this.#x = x;
    this.#y = y;
    this.#startX = x;
    this.#startY = y;
    this.#handle = null;
    this.#closed = false;
  }

  #draw(c: SVGCommand): void {
    if (c.type === SVGPathData.CLOSE_PATH) return;
    const ox = c.relative ? this.#x : 0;
    const oy = c.relative ? this.#y : 0;
    switch (c.type) {
      case SVGPathData.LINE_TO:
        this.#line(c.x + ox, c.y + oy);
        break;
      case SVGPathData.HORIZ_LINE_TO:
        this.#line(c.x + ox, this.#y);
        break;
      case SVGPathData.VERT_LINE_TO:
        this.#line(this.#x, c.y + oy);
        break;
      case SVGPathData.CURVE_TO:
        this.#cubic(c.x1 + ox, c.y1 + oy, c.x2 + ox, c.y2 + oy, c.x + ox, c.y + oy);
        break;
      case SVGPathData.SMOOTH_CURVE_TO: {
        const mirror = this.#handle === 'cubic';
        const x1 = mirror ? 2 * this.#x - this.#handleX : this.#x;
        const y1 = mirror ? 2 * this.#y - this.#handleY : this.#y;
        this.#cubic(x1, y1, c.x2 + ox, c.y2 + oy, c.x + ox, c.y + oy);
        break;
      }
      case SVGPathData.QUAD_TO:
        this.#quadratic(c.x1 + ox, c.y1 + oy, c.x + ox, c.y + oy);
        break;
      case SVGPathData.SMOOTH_QUAD_TO: {
        const mirror = this.#handle === 'quadratic';
        const x1 = mirror ? 2 * this.#x - this.#handleX : this.#x;
        const y1 = mirror ? 2 * this.#y - this.#handleY : this.#y;
        this.#quadratic(x1, y1, c.x + ox, c.y + oy);
        break;
      }
      case SVGPathData.ARC:
        this.#x = c.x + ox;
        this.#y = c.y + oy;
        this.#handle = null;
        this.#builder.arcTo(c.rX, c.rY, c.xRot, c.lArcFlag === 1, c.sweepFlag === 1, this.#x, this.#y);
    }
  }

  #line(x: number, y: number): void {
    this.#builder.lineTo(x, y);
    this.#x = x;
    this.#y = y;
    this.#handle = null;
  }

  #cubic(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    this.#builder.cubicTo(x1, y1, x2, y2, x, y);
    this.#handleX = x2;
    this.#handleY = y2;
    this.#x = x;
    this.#y = y;
    this.#handle = 'cubic';
  }

  #quadratic(x1: number, y1: number, x: number, y: number): void {
    this.#builder.quadraticTo(x1, y1, x, y);
    this.#handleX = x1;
    this.#handleY = y1;
    this.#x = x;
    this.#y = y;
    this.#handle = 'quadratic';
  }
}
