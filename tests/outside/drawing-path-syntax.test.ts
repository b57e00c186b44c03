import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import type { Drawing } from '../../src/drawing/drawing.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { compareOutlines, describeOutline, type Outline, ownOutlines } from './drawing/outline.js';
import { NO_FONTS } from './drawing/raster.js';
import { usvgOutlines } from './drawing/usvg-tree.js';

// Reference: path strings of the tests of svgpath and svg-pathdata (both MIT) with the normal form or the error
// that they expect, and @resvg/resvg-js as an independent reader of the same strings.
const folder = process.env.PLYSTEP_SVG_READING;

interface Case {
  readonly id: string;
  readonly d: string;
  readonly title?: string;
  readonly normal?: string;
  readonly error?: string;
  readonly throws?: boolean;
}

/** Where SVG 2 and a reference part, or the case is about something else. */
const EXPLAINED: ReadonlyMap<string, string> = new Map([
  ['svgpath/parse/12', 'R is no command of SVG 2: drawn up to it, with a fault'],
  ['svgpath/parse/18', '00 is one number in SVG 2, so the line has one coordinate: a fault, nothing drawn'],
  ['svgpath/parse/20', 'a line with one coordinate is a fault'],
  ['svgpath/parse/22', '.e3 is no number: a fault'],
  ['svg-pathdata/arc/100', 'a negative radius counts by its absolute value (SVG 2)'],
  ['svg-pathdata/matrix/184', 'about arguments of a function of that library'],
  ['svg-pathdata/matrix/186', 'about arguments of a function of that library'],
  ['svg-pathdata/matrix/188', 'about arguments of a function of that library'],
  ['svg-pathdata/skew/346', 'about arguments of a function of that library'],
]);

/** Coordinates too large for a page: left out with a finding that names the limit. */
const OUT_OF_RANGE = new Set(['svg-pathdata/numbers/220']);

/** px: they draw arcs of some hundred px radius with cubics. */
const TOLERANCE = 0.2;

/** Lines shorter than this, px, are points to both. */
const POINT = 1e-6;
const isSeen = ({ length }: Outline): boolean => length > POINT;

function page(d: string): string {
  const escaped = d.replace(/&/g, '&amp;').replace(/"/g, '&quot;').replace(/</g, '&lt;');
  return `<svg xmlns="http://www.w3.org/2000/svg" width="1000" height="1000"><path fill="none" stroke="#000" d="${escaped}"/></svg>`;
}

function read(d: string): Drawing {
  return readDrawing(page(d), { outsidePage: 'keep', limits: { coordinate: 1e9 } });
}

function hasFault(drawing: Drawing): boolean {
  return drawing.findings.some((finding) => finding.rule === 'path-fault');
}

function readFiles(folder: string): void {
  const file = join(folder, 'path-syntax.jsonl');
  const lines = existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : [];
  const cases = lines.map((line) => JSON.parse(line) as Case).filter((entry) => entry.id !== undefined);

  test('the file has the cases', () => {
    expect(cases.length).toBeGreaterThan(150);
    for (const id of [...EXPLAINED.keys(), ...OUT_OF_RANGE]) expect(cases.map((c) => c.id)).toContain(id);
  });

  test('what the libraries refuse is a fault here too', () => {
    for (const { id, d, error, throws: refused } of cases) {
      if (EXPLAINED.has(id) || (error === undefined && refused !== true)) continue;
      expect(hasFault(read(d)), `${id}: ${d}`).toBe(true);
    }
  });

  test('the normal form draws the same', () => {
    let compared = 0;
    for (const { id, d, normal } of cases) {
      if (normal === undefined || EXPLAINED.has(id)) continue;
      expect(
        read(d).shapes.map((shape) => shape.subpaths),
        id,
      ).toEqual(read(normal).shapes.map((s) => s.subpaths));
      compared++;
    }
    expect(compared).toBeGreaterThan(5);
  });

  test('the explained cases are read as explained', () => {
    for (const id of ['svgpath/parse/12', 'svgpath/parse/18', 'svgpath/parse/20', 'svgpath/parse/22']) {
      const drawing = read(cases.find((c) => c.id === id)?.d ?? '');
      expect(hasFault(drawing), id).toBe(true);
      expect(drawing.shapes, id).toEqual([]);
    }
    expect(hasFault(read(`M0 0${cases.find((c) => c.id === 'svg-pathdata/arc/100')?.d}`))).toBe(false);
  });

  test('an independent reader draws the same lines', () => {
    let compared = 0;
    for (const { id, d } of cases) {
      if (OUT_OF_RANGE.has(id)) continue;
      let theirs: ReturnType<typeof usvgOutlines>;
      try {
        theirs = usvgOutlines(new Resvg(page(d), { font: NO_FONTS }).toString());
      } catch {
        // It refuses drawings without anything to draw.
        theirs = [];
      }
      const { extra, missing } = compareOutlines(ownOutlines(read(d)).filter(isSeen), theirs, TOLERANCE);
      expect({ id, extra: extra.map(describeOutline), missing: missing.map(describeOutline) }).toEqual({
        id,
        extra: [],
        missing: [],
      });
      compared += theirs.length;
    }
    expect(compared).toBeGreaterThan(80);
  });
}

test('strings of our own draw the same lines', () => {
  for (const d of [
    'M1 1h9v9z',
    'M5 5a4 2 30 1010 3q9 9 1 1t5 5s1 2 9 4',
    'm9 9.5.5-.5l3e1 0zm5 5h4',
    'M9 9L30 9 9 30ZL50 50',
  ]) {
    const { extra, missing } = compareOutlines(
      ownOutlines(read(d)),
      usvgOutlines(new Resvg(page(d), { font: NO_FONTS }).toString()),
      TOLERANCE,
    );
    expect([...extra, ...missing].map(describeOutline), d).toEqual([]);
  }
});

if (folder !== undefined) describe('path data', () => readFiles(folder));
