import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { describe, expect, test } from 'vitest';
import { decodeDrawing } from '../../src/drawing/decode-drawing.js';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { compareOutlines, describeOutline, ownOutlines } from './drawing/outline.js';
import { differingPart, fillsOf, NO_FONTS, pixelsOf } from './drawing/raster.js';
import { usvgOutlines } from './drawing/usvg-tree.js';

// Reference: about 200 test files of resvg (Apache-2.0 or MIT), each with its reading by usvg as bundled in
// @resvg/resvg-js 2.6.2. The folder comes from the environment and is never copied.
const folder = process.env.PLYSTEP_SVG_READING;

interface Reading {
  readonly file: string;
  readonly title: string;
  readonly usvg?: string;
  readonly error?: string;
}

/**
 * Files where we differ, and why. `clip`: usvg keeps the path and its clip, we keep what shows; the fills that
 * we find are compared with the file as resvg paints it. `newer`: usvg 2.6.2 is older than the feature; the
 * outlines that we find are listed, px.
 */
type Difference =
  | { readonly why: 'clip' }
  | { readonly why: 'newer' | 'choice'; readonly note: string; readonly ours: readonly string[] };

const CLIPPED = [
  'masking/clip-rule/clip-rule=evenodd.svg',
  'masking/clipPath/clip-path-on-child.svg',
  'masking/clipPath/clip-path-on-self-2.svg',
  'masking/clipPath/clip-path-with-transform.svg',
  'masking/clipPath/clipPathUnits=objectBoundingBox.svg',
  'masking/clipPath/nested-clip-path.svg',
  'masking/clipPath/recursive-on-self.svg',
  'masking/clipPath/self-recursive.svg',
  'painting/display/bBox-impact.svg',
  'painting/visibility/bbox-impact-1.svg',
  'structure/svg/nested-svg-with-rect-and-percent-values.svg',
  'structure/svg/nested-svg-with-rect-and-viewBox-2.svg',
  'structure/svg/nested-svg-with-rect-and-viewBox-and-percent-values.svg',
  'structure/symbol/indirect-symbol-reference.svg',
  'structure/symbol/with-viewBox-and-custom-use-size.svg',
  'structure/use/nested-xlink-to-svg-element-with-rect-and-size.svg',
  'structure/use/xlink-to-svg-element-with-rect-only-width.svg',
];

const ORIGIN = 'transform-origin is of SVG 2; the file has a red square where ours must lie';
const UNIT = 'a unit that usvg 2.6.2 does not know';

const DIFFERENCES: ReadonlyMap<string, Difference> = new Map<string, Difference>([
  ...CLIPPED.map((file): [string, Difference] => [file, { why: 'clip' }]),
  ...(
    [
      ['center', 'rect#rect1@8 [71.7 71.7 128.3 128.3] 160.0'],
      ['left', 'rect#rect1@8 [42.4 142.4 99.0 199.0] 160.0'],
      ['length-px', 'rect#rect1@8 [71.7 71.7 128.3 128.3] 160.0'],
      ['right', 'rect#rect1@8 [101.0 1.0 157.6 57.6] 160.0'],
      ['top', 'rect#rect1@8 [1.0 42.4 57.6 99.0] 160.0'],
      ['on-group', 'rect#rect1@5 [43.4 43.4 156.6 156.6] 320.0'],
      ['on-shape', 'rect#rect1@4 [43.4 43.4 156.6 156.6] 320.0'],
      ['on-clippath-objectBoundingBox', ''],
    ] as const
  ).map(([name, own]): [string, Difference] => [
    `structure/transform-origin/${name}.svg`,
    { why: 'newer', note: ORIGIN, ours: own === '' ? [] : [own] },
  ]),
  [
    'shapes/rect/q-values.svg',
    { why: 'newer', note: UNIT, ours: ['rect#rect1@4 [28.3 28.3 170.1 170.1] 566.9'] },
  ],
  [
    'shapes/rect/cap-values.svg',
    {
      why: 'newer',
      note: `${UNIT}; cap height taken as 0.7 em`,
      ours: ['rect#rect1@5 [224.0 224.0 1120.0 1120.0] 3584.0'],
    },
  ],
  [
    'shapes/rect/ic-values.svg',
    {
      why: 'newer',
      note: `${UNIT}; ic taken as 1 em`,
      ours: ['rect#rect1@5 [32.0 32.0 2912.0 2912.0] 11520.0'],
    },
  ],
  [
    'shapes/rect/rlh-values.svg',
    {
      why: 'newer',
      note: `${UNIT}; line height taken as 1.2 em`,
      ours: ['rect#rect1@5 [38.4 38.4 3878.4 3878.4] 15360.0'],
    },
  ],
  [
    'shapes/rect/vi-and-vb-values.svg',
    { why: 'newer', note: UNIT, ours: ['rect#rect1@4 [10.0 10.0 70.0 70.0] 240.0'] },
  ],
  [
    'shapes/rect/vw-and-vh-values.svg',
    { why: 'newer', note: UNIT, ours: ['rect#rect1@4 [10.0 10.0 70.0 70.0] 240.0'] },
  ],
  [
    'structure/svg/nested-svg-with-transform-and-opacity.svg',
    {
      why: 'newer',
      note: 'transform on a nested svg is of SVG 2; usvg 2.6.2 applies it twice',
      ours: ['rect#rect1@6 [50.0 50.0 150.0 150.0] 400.0'],
    },
  ],
  [
    'structure/symbol/with-transform.svg',
    {
      why: 'newer',
      note: 'transform on a symbol is of SVG 2, as the file itself says',
      ours: ['rect#rect1@11 [31.5 20.0 283.9 180.0] 689.5'],
    },
  ],
  [
    'structure/systemLanguage/on-svg.svg',
    {
      why: 'choice',
      note: 'a language on the outermost svg does not empty the drawing; usvg 2.6.2 shows nothing, later files paint it green',
      ours: ['rect#rect1@5 [20.0 20.0 180.0 180.0] 640.0', 'rect#frame@8 [1.0 1.0 199.0 199.0] 792.0'],
    },
  ],
]);

/** Files that usvg refuses, and what we make of them. */
const REFUSED: ReadonlyMap<string, readonly string[]> = new Map([
  // Negative sizes are invalid and count as absent (SVG 2).
  ['structure/svg/negative-size.svg', ['size-fault']],
  // Declared as Windows-1251, and all of it ASCII.
  ['structure/svg/not-UTF-8-encoding.svg', []],
]);

/** Strokes are taken out of the picture that fills are compared with. */
const STROKE = / stroke="[^"]*"/g;

/** Part of 200² pixels: edges run through pixels. */
const SAME_PICTURE = 0.004;

function readFiles(folder: string): void {
  const root = join(folder, 'resvg');
  const list = join(root, 'usvg-reading.jsonl');
  const lines = existsSync(list) ? readFileSync(list, 'utf8').trim().split('\n') : [];
  const readings = lines
    .map((line) => JSON.parse(line) as Reading)
    .filter((entry) => entry.file !== undefined);

  test('the folder has the files', () => {
    expect(readings.length).toBeGreaterThanOrEqual(200);
    for (const file of [...DIFFERENCES.keys()]) expect(readings.map((r) => r.file)).toContain(file);
  });

  for (const { file, usvg } of readings) {
    test(file, () => {
      const text = decodeDrawing(readFileSync(join(root, file)));
      const drawing = readDrawing(text, { outsidePage: 'keep' });
      if (usvg === undefined) {
        const rules = REFUSED.get(file);
        expect(rules).toBeDefined();
        expect(drawing.findings.map((finding) => finding.rule)).toEqual(
          expect.arrayContaining([...(rules ?? [])]),
        );
        return;
      }
      const { extra, missing } = compareOutlines(ownOutlines(drawing), usvgOutlines(usvg));
      const known = DIFFERENCES.get(file);
      if (known === undefined) {
        expect({ extra: extra.map(describeOutline), missing: missing.map(describeOutline) }).toEqual({
          extra: [],
          missing: [],
        });
        return;
      }
      expect(extra.length + missing.length, 'a listed difference that is none any more').toBeGreaterThan(0);
      if (known.why === 'clip') {
        const part = differingPart(pixelsOf(text.replace(STROKE, ''), 200), pixelsOf(fillsOf(drawing), 200));
        expect(part).toBeLessThan(SAME_PICTURE);
      } else expect(extra.map(describeOutline)).toEqual(known.ours);
    });
  }
}

test('a drawing of our own reads the same as by usvg', () => {
  const text = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 60" width="180" height="120"><style>.a{fill:none;stroke:red}</style><g transform="rotate(10) scale(2,1)"><rect class="a" x="5" y="5" width="20" height="10" rx="3"/><use href="#p" x="9"/></g><path id="p" class="a" d="M5 30q9 9 20 0t20-5a9 5 20 0110 5z"/></svg>`;
  const { extra, missing } = compareOutlines(
    ownOutlines(readDrawing(text, { outsidePage: 'keep' })),
    usvgOutlines(new Resvg(text, { font: NO_FONTS }).toString()),
  );
  expect([...extra, ...missing].map(describeOutline)).toEqual([]);
});

if (folder !== undefined) describe('resvg files', () => readFiles(folder));
