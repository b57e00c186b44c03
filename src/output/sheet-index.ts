import { demandRelief, demandText, demandTexts, refuseArgument, shown } from '../arguments.js';
import type { Joint, Relief } from '../relief/relief.js';
import { materialArea, NOTHING, sheetMaterial } from './sheet-material.js';
import { sheetPicture } from './sheet-picture.js';
import { escapeXml } from './svg-markup.js';
import { visibleTexts } from './visible-text.js';
import type { SheetDrawing } from './write-sheets.js';

/** One entry of the index of a set of sheets. */
export interface SheetIndexEntry {
  readonly name: string;
  readonly file: string;
  readonly title: string;
  /** Sheet id in the stack; null for the add-ons. */
  readonly sheet: string | null;
  readonly material: string | null;
  /** mm */
  readonly thickness: number | null;
  /** Ids of the regions whose material this sheet carries. */
  readonly regions: readonly string[];
  /** mm², of what is kept of this sheet. */
  readonly area: number;
}

/** A file that belongs to the sheets. */
export interface IndexedFile {
  /** Where it is, seen from the index: `drawing.svg`, `../plan.html`. */
  readonly file: string;
  /** What it is, in words. */
  readonly what: string;
}

/** What a set of sheets is, for a program. Plain data. */
export interface SheetIndex {
  readonly schemaVersion: '1.0';
  readonly unit: 'mm';
  readonly joint: Joint;
  readonly sheets: readonly SheetIndexEntry[];
  /** What else was written for the job. */
  readonly files: readonly IndexedFile[];
}

/**
 * The index of sheets written by `writeSheets` for the same relief.
 *
 * @param files what else was written: the drawing to stick on (`writeDrawing`), the plan. Default: none.
 * @throws PlystepError `bad-option` for another argument, or for sheets of another relief
 */
export function sheetIndex(
  from: { readonly relief: Relief },
  sheets: readonly SheetDrawing[],
  files: readonly IndexedFile[] = [],
): SheetIndex {
  return indexOf(from, sheets, files, 'sheetIndex');
}

function indexOf(
  from: { readonly relief: Relief },
  sheets: readonly SheetDrawing[],
  files: readonly IndexedFile[],
  call: string,
): SheetIndex {
  demandRelief(from, call);
  demandTexts(sheets, ['name', 'title'], call, 'sheets');
  demandTexts(files, ['file', 'what'], call, 'files');
  const { relief } = from;
  const stack = relief.stack.sheets.map((sheet) => sheet.id);
  const strange = sheets.find(({ sheet }) => sheet !== null && !stack.includes(sheet));
  if (strange !== undefined) {
    refuseArgument(call, `the stack has no sheet ${shown(strange.sheet)}; it has ${stack.join(', ')}`);
  }
  return visibleTexts({
    schemaVersion: '1.0',
    unit: 'mm',
    joint: relief.joint,
    sheets: sheets.map((sheet) => ({
      name: sheet.name,
      file: `${sheet.name}.svg`,
      title: sheet.title,
      ...(sheet.sheet === null ? addOnEntry(relief) : sheetEntry(relief, sheet.sheet)),
    })),
    files: files.map(({ file, what }) => ({ file, what })),
  });
}

type Content = Omit<SheetIndexEntry, 'name' | 'file' | 'title'>;

function sheetEntry(relief: Relief, id: string): Content {
  const place = relief.stack.sheets.findIndex((sheet) => sheet.id === id);
  const { material, thickness } = relief.stack.sheets[place];
  const carried = sheetMaterial(relief, place);
  const regions = relief.map.regions.filter((_, index) => carried[index] !== NOTHING);
  return {
    sheet: id,
    material,
    thickness,
    regions: regions.map((region) => region.id),
    area: materialArea(relief.map, carried),
  };
}

function addOnEntry(relief: Relief): Content {
  const regions = relief.addOns.map((addOn) => relief.map.regions[addOn.region]);
  return {
    sheet: null,
    material: null,
    thickness: null,
    regions: regions.map((region) => region.id),
    area: regions.reduce((sum, region) => sum + region.area, 0),
  };
}

/**
 * A self-contained page that shows all sheets side by side, what is kept of each in its colour.
 * @param files what else was written, to be linked to. Default: none.
 * @throws PlystepError `bad-option` for another argument, or for sheets of another relief
 */
export function sheetIndexHtml(
  from: { readonly relief: Relief },
  sheets: readonly SheetDrawing[],
  title: string,
  files: readonly IndexedFile[] = [],
): string {
  const index = indexOf(from, sheets, files, 'sheetIndexHtml');
  demandText(title, 'sheetIndexHtml', 'title');
  const cards = index.sheets.map((entry) => {
    // The picture goes in as an image, so nothing in it can act on the page.
    const image = `data:image/svg+xml,${encodeURIComponent(sheetPicture(from.relief, entry.sheet))}`;
    const area = `${Math.round(entry.area / 100)} cm\u00b2 kept, ${entry.regions.length} regions`;
    return [
      '<figure>',
      `<a href="${escapeXml(entry.file)}"><img src="${image}" alt="${escapeXml(entry.title)}"></a>`,
      `<figcaption><strong>${escapeXml(entry.file)}</strong><br>${escapeXml(entry.title)}<br>${area}</figcaption>`,
      '</figure>',
    ].join('\n');
  });
  const links = index.files.map(
    ({ file, what }) => `<li><a href="${escapeXml(file)}">${escapeXml(file)}</a>: ${escapeXml(what)}</li>`,
  );
  const list = links.length === 0 ? '' : `<ul>\n${links.join('\n')}\n</ul>\n`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeXml(title)}: sheets</title>
<style>
body { font: 16px/1.5 Helvetica, Arial, sans-serif; margin: 2rem; color: #101316; background: #f4f2ee; }
main { display: grid; grid-template-columns: repeat(auto-fill, minmax(20rem, 1fr)); gap: 1.5rem; }
figure { margin: 0; padding: 1rem; background: #fff; border: 1px solid #d8d4cc; break-inside: avoid; }
img { width: 100%; height: auto; display: block; }
figcaption { margin-top: 0.5rem; font-size: 0.875rem; }
@media print { body { margin: 0; background: none; } }
</style>
</head>
<body>
<h1>${escapeXml(title)}: sheets</h1>
<p>Joint: ${index.joint}. Print and cut each at 100 %: one unit is one millimetre.</p>
${list}<main>
${cards.join('\n')}
</main>
</body>
</html>
`;
}
