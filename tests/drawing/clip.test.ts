import { describe, expect, test } from 'vitest';
import type { Shape, Subpath } from '../../src/drawing/drawing.js';
import { curveArea } from '../../src/geometry/curve-area.js';
import { curveLength } from '../../src/geometry/curve-length.js';
import { read, rules } from './pages.js';

const lengthOf = (subpaths: readonly Subpath[]): number =>
  subpaths.flatMap((subpath) => subpath.curves).reduce((sum, curve) => sum + curveLength(curve), 0);

const areaOf = (shape: Shape): number =>
  Math.abs(
    (shape.cover ?? shape.subpaths)
      .flatMap((s) => s.curves)
      .reduce((sum, curve) => sum + curveArea(curve), 0),
  );

function clipped(clip: string, content: string): readonly Shape[] {
  return read(`<clipPath id="c">${clip}</clipPath><g clip-path="url(#c)">${content}</g>`).shapes;
}

const CIRCLE = '<circle cx="50" cy="50" r="20"/>';

describe('lines', () => {
  test('a line through a circle: the chord', () => {
    const [shape] = clipped(CIRCLE, '<path d="M0 50H100" stroke="red"/>');
    expect(shape.subpaths[0].curves).toHaveLength(1);
    expect(shape.subpaths[0].curves[0].from[0]).toBeCloseTo(30, 9);
    expect(shape.subpaths[0].curves[0].to[0]).toBeCloseTo(70, 9);
  });
  test('a circle through a half plane keeps its arc, and its centre', () => {
    const [shape] = clipped(
      '<rect width="100" height="60"/>',
      '<circle cx="50" cy="50" r="20" fill="none" stroke="red"/>',
    );
    const arcs = shape.subpaths.flatMap((subpath) => subpath.curves);
    expect(arcs.every((curve) => curve.kind === 'arc' && curve.centre[0] === 50 && curve.rx === 20)).toBe(
      true,
    );
    // The angle below y = 60 is 2 acos(1/2).
    expect(lengthOf(shape.subpaths)).toBeCloseTo(20 * (2 * Math.PI - 2 * Math.acos(0.5)), 9);
    expect(shape.subpaths).toHaveLength(1);
  });
  test('lens of two circles: the arc of one inside of the other', () => {
    const [shape] = clipped(CIRCLE, '<circle cx="70" cy="50" r="20" fill="none" stroke="red"/>');
    // Centres one radius apart: the arc inside is a third of the circle.
    expect(lengthOf(shape.subpaths)).toBeCloseTo((20 * 2 * Math.PI) / 3, 9);
  });
  test('what lies wholly inside is untouched, outside is gone', () => {
    const shapes = clipped(CIRCLE, '<path d="M45 45H55V55Z" stroke="red"/><path d="M5 5H9" stroke="red"/>');
    expect(shapes).toHaveLength(1);
    expect(shapes[0].subpaths[0].closed).toBe(true);
  });
  test('a hole in a clip', () => {
    const ring = '<path clip-rule="evenodd" d="M20 20H80V80H20ZM40 40H60V60H40Z"/>';
    expect(lengthOf(clipped(ring, '<path d="M0 50H100" stroke="red"/>')[0].subpaths)).toBeCloseTo(40, 9);
    const full = ring.replace(' clip-rule="evenodd"', '');
    expect(lengthOf(clipped(full, '<path d="M0 50H100" stroke="red"/>')[0].subpaths)).toBeCloseTo(60, 9);
  });
  test('parts are joined, clips on clips are cut', () => {
    const two = '<rect width="30" height="100"/><rect x="60" width="40" height="100"/>';
    expect(lengthOf(clipped(two, '<path d="M0 50H100" stroke="red"/>')[0].subpaths)).toBeCloseTo(70, 9);
    const drawing = read(
      `<clipPath id="a"><rect width="60" height="100"/></clipPath><clipPath id="b" clip-path="url(#a)"><rect x="20" width="80" height="100"/></clipPath><g clip-path="url(#b)"><path d="M0 50H100" stroke="red"/></g>`,
    );
    expect(lengthOf(drawing.shapes[0].subpaths)).toBeCloseTo(40, 9);
  });
  test('nested groups clip each other', () => {
    const drawing = read(
      '<clipPath id="a"><rect width="60" height="100"/></clipPath><clipPath id="b"><rect x="20" width="80" height="100"/></clipPath><g clip-path="url(#a)"><g clip-path="url(#b)"><path d="M0 50H100" stroke="red"/></g></g>',
    );
    expect(lengthOf(drawing.shapes[0].subpaths)).toBeCloseTo(40, 9);
  });
  test.each([
    [
      'moves with what it clips',
      '<clipPath id="c"><rect width="10" height="100"/></clipPath><path clip-path="url(#c)" transform="translate(20)" d="M0 50H80" stroke="red"/>',
      10,
    ],
    [
      'has a transform of its own',
      '<clipPath id="c" transform="scale(2 1)"><rect width="10" height="100"/></clipPath><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>',
      20,
    ],
    [
      'is measured by the box',
      '<clipPath id="c" clipPathUnits="objectBoundingBox"><rect width=".5" height="1"/></clipPath><path clip-path="url(#c)" d="M10 50H50V60" stroke="red"/>',
      20,
    ],
    [
      'is measured by the box of a group',
      '<clipPath id="c" clipPathUnits="objectBoundingBox"><rect width=".5" height="1"/></clipPath><g clip-path="url(#c)"><path d="M10 50H50" stroke="red"/><path d="M10 60H90" stroke="red"/></g>',
      40,
    ],
    [
      'shows a shape by use',
      '<clipPath id="c"><use href="#s" x="10"/></clipPath><defs><rect id="s" width="10" height="100"/></defs><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>',
      10,
    ],
    [
      'leaves out what is hidden',
      '<clipPath id="c"><rect width="10" height="100"/><rect display="none" width="50" height="100"/></clipPath><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>',
      10,
    ],
    [
      'empty lets nothing through',
      '<clipPath id="c"/><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>',
      0,
    ],
    [
      'as large as a field clips nothing',
      '<clipPath id="c"><rect x="-100000" y="-100000" width="200000" height="200000"/></clipPath><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>',
      80,
    ],
    ['missing clips nothing', '<path clip-path="url(#c)" d="M0 50H80" stroke="red"/>', 80],
  ])('a clip %s', (_, content, length) => {
    const drawing = read(content);
    const first = drawing.shapes[0]?.subpaths ?? [];
    expect(lengthOf(first)).toBeCloseTo(length, 9);
  });
  test('a line along the edge of a clip stays', () => {
    const edge = '<rect x="20" y="20" width="40" height="40"/>';
    expect(
      lengthOf(clipped(edge, edge.replace('/>', ' fill="none" stroke="red"/>'))[0].subpaths),
    ).toBeCloseTo(160, 9);
    expect(
      lengthOf(clipped(CIRCLE, CIRCLE.replace('/>', ' fill="none" stroke="red"/>'))[0].subpaths),
    ).toBeCloseTo(40 * Math.PI, 9);
  });
  test('a note says what was clipped', () => {
    const drawing = read(
      `<clipPath id="c">${CIRCLE}</clipPath><path clip-path="url(#c)" d="M0 50H80" stroke="red"/>`,
    );
    expect(drawing.findings.find((finding) => finding.rule === 'clipped')?.level).toBe('note');
    expect(rules(read('<path clip-path="circle(5px)" d="M0 50H80" stroke="red"/>'))).toContain(
      'effect-ignored',
    );
  });
});

describe('fills', () => {
  test('a large area clipped to a circle: no line, the circle covered', () => {
    const [shape] = clipped(CIRCLE, '<rect width="100" height="100" fill="red"/>');
    expect(shape.subpaths).toEqual([]);
    expect(areaOf(shape)).toBeCloseTo(400 * Math.PI, 6);
    expect(shape.cover?.every((subpath) => subpath.curves.every((curve) => curve.kind === 'arc'))).toBe(true);
  });
  test('a half circle', () => {
    const [shape] = clipped('<rect width="50" height="100"/>', '<circle cx="50" cy="50" r="20" fill="red"/>');
    expect(areaOf(shape)).toBeCloseTo(200 * Math.PI, 6);
    expect(lengthOf(shape.subpaths)).toBeCloseTo(20 * Math.PI, 9);
  });
  test('the lens of two circles', () => {
    const [shape] = clipped(CIRCLE, '<circle cx="70" cy="50" r="20" fill="red"/>');
    // 2 r² acos(d / 2r) − d/2 √(4r² − d²)
    expect(areaOf(shape)).toBeCloseTo(800 * Math.acos(0.5) - 10 * Math.sqrt(1200), 6);
  });
  test('loops of a cover are closed to the last bit', () => {
    const shapes = clipped(
      '<path d="M10 10C90 10 10 90 90 90L10 90Z"/><circle cx="60" cy="40" r="25"/>',
      '<path d="M0 50C40 0 60 99 100 40V80H0Z" fill="red"/><ellipse cx="40" cy="40" rx="30" ry="15" transform="rotate(30 40 40)" fill="red"/>',
    );
    for (const subpath of shapes.flatMap((shape) => shape.cover ?? [])) {
      const { curves } = subpath;
      for (const [i, curve] of curves.entries())
        expect(curve.to).toEqual(curves[(i + 1) % curves.length].from);
    }
  });
  test('a fill that shows nothing is gone', () => {
    expect(clipped(CIRCLE, '<rect width="10" height="10"/>')).toEqual([]);
  });
});
