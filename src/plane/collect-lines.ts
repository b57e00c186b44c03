import type { Drawing, Shape, Subpath } from '../drawing/drawing.js';
import { addRun, type CurveRun, type MapCurve } from './flat-lines.js';
import type { MapInput } from './map-lines.js';

/** The curves of a drawing's shapes, those of `skip` left out. */
export function collectLines(drawing: Drawing, skip: ReadonlySet<number>): MapInput {
  const curves: MapCurve[] = [];
  const runs: CurveRun[] = [];
  drawing.shapes.forEach((shape, index) => {
    if (skip.has(index)) return;
    addShape(shape, index, curves, runs);
  });
  return {
    curves,
    runs,
    hides: drawing.shapes.map((shape, index) => shape.hides && !skip.has(index)),
    evenOdd: drawing.shapes.map((shape) => shape.fill?.rule === 'evenodd'),
    fillOnly: drawing.shapes.map((shape) => shape.fillOnly === true),
    detail: drawing.shapes.map(isSawnDetail),
  };
}

/** A detail line that is sawn; a fold mark is not. */
function isSawnDetail({ use, mark }: Shape): boolean {
  return use === 'detail' && mark !== 'fold';
}

function addShape(shape: Shape, index: number, curves: MapCurve[], runs: CurveRun[]): void {
  const cuts = shape.use === 'cut' || isSawnDetail(shape);
  const ownCover = shape.hides && shape.cover === undefined;
  if (cuts || ownCover) {
    for (const subpath of shape.subpaths) {
      if (subpath.curves.length === 0) continue;
      runs.push(addRun(curves, subpath, index, cuts, ownCover));
      if (ownCover) closeCover(subpath, index, curves, runs);
    }
  }
  if (!shape.hides || shape.cover === undefined) return;
  for (const subpath of shape.cover) {
    if (subpath.curves.length === 0) continue;
    runs.push(addRun(curves, subpath, index, false, true));
    closeCover(subpath, index, curves, runs);
  }
}

/** An open line is filled as if closed by a straight line, which is no cut line. */
function closeCover({ curves: run }: Subpath, index: number, curves: MapCurve[], runs: CurveRun[]): void {
  const from = run[run.length - 1].to;
  const to = run[0].from;
  if (from[0] === to[0] && from[1] === to[1]) return;
  const closing: Subpath = { curves: [{ kind: 'line', from, to }], closed: false };
  runs.push(addRun(curves, closing, index, false, true));
}
