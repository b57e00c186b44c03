import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { compareOutlines, describeOutline, ownOutlines } from './drawing/outline.js';
import { differingPart, fillsOf, pixelsOf } from './drawing/raster.js';
import { usvgOutlines } from './drawing/usvg-tree.js';

// Reference: @resvg/resvg-js as an independent reader of icons from heroicons (MIT; lines and filled shapes) and
// bootstrap-icons (MIT; filled shapes).
const SETS = [
  { name: 'heroicons, lines', at: 'heroicons/package.json', folder: '24/outline', every: 2, filled: false },
  { name: 'heroicons, filled', at: 'heroicons/package.json', folder: '24/solid', every: 2, filled: true },
  { name: 'bootstrap-icons', at: 'bootstrap-icons/package.json', folder: 'icons', every: 12, filled: true },
] as const;

/** Icons use half-size pixels, so the tolerance is a tenth of what it is for pages. */
const TOLERANCE = 0.005;

/** Part of 96² pixels: edges run through pixels. */
const SAME_PICTURE = 0.01;

const { resolve } = createRequire(import.meta.url);

describe.each(SETS)('$name', ({ at, folder, every, filled }) => {
  const root = join(dirname(resolve(at)), folder);
  const files = readdirSync(root)
    .filter((name) => name.endsWith('.svg'))
    .sort()
    .filter((_, i) => i % every === 0);

  test('cut lines have the boxes, lengths and areas that the other reader finds', () => {
    expect(files.length).toBeGreaterThan(100);
    for (const file of files) {
      const text = readFileSync(join(root, file), 'utf8');
      const drawing = readDrawing(text, { outsidePage: 'keep' });
      const theirs = usvgOutlines(new Resvg(text).toString());
      const { extra, missing } = compareOutlines(ownOutlines(drawing), theirs, TOLERANCE);
      expect({ file, extra: extra.map(describeOutline), missing: missing.map(describeOutline) }).toEqual({
        file,
        extra: [],
        missing: [],
      });
    }
  });

  test.runIf(filled)('fills paint the same picture', () => {
    for (const file of files.filter((_, i) => i % 6 === 0)) {
      const text = readFileSync(join(root, file), 'utf8');
      const own = fillsOf(readDrawing(text, { outsidePage: 'keep' }));
      const theirs = text.replace(/currentColor/g, '#000000');
      expect(differingPart(pixelsOf(theirs, 96), pixelsOf(own, 96)), file).toBeLessThan(SAME_PICTURE);
    }
  });
});
