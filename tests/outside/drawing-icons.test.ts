import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { expect, test } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { compareOutlines, describeOutline, ownOutlines } from './drawing/outline.js';
import { differingPart, fillsOf, NO_FONTS, pixelsOf } from './drawing/raster.js';
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

/** The icons of a set that are compared: name and text. */
function iconsOf({ at, folder, every }: (typeof SETS)[number]): [string, string][] {
  const root = join(dirname(resolve(at)), folder);
  return readdirSync(root)
    .filter((name) => name.endsWith('.svg'))
    .sort()
    .filter((_, i) => i % every === 0)
    .map((name) => [name, readFileSync(join(root, name), 'utf8')]);
}

test.each(SETS)('$name: cut lines have the boxes, lengths and areas that the other reader finds', (set) => {
  const icons = iconsOf(set);
  expect(icons.length).toBeGreaterThan(100);
  for (const [file, text] of icons) {
    const theirs = usvgOutlines(new Resvg(text, { font: NO_FONTS }).toString());
    const ours = ownOutlines(readDrawing(text, { outsidePage: 'keep' }));
    const { extra, missing } = compareOutlines(ours, theirs, TOLERANCE);
    expect([...extra, ...missing].map((outline) => `${file}: ${describeOutline(outline)}`)).toEqual([]);
  }
});

test.each(SETS.filter(({ filled }) => filled))('$name: fills paint the same picture', (set) => {
  for (const [file, text] of iconsOf(set).filter((_, i) => i % 6 === 0)) {
    const own = fillsOf(readDrawing(text, { outsidePage: 'keep' }));
    const theirs = text.replace(/currentColor/g, '#000000');
    expect(differingPart(pixelsOf(theirs, 96), pixelsOf(own, 96)), file).toBeLessThan(SAME_PICTURE);
  }
});
