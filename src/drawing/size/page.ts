import { type Affine, multiplyAffine } from '../../geometry/affine.js';
import type { FindingLog } from '../finding-log.js';
import type { ResolvedReadOptions } from '../read-options.js';
import { placeOf, type XmlElement } from '../xml/xml-tree.js';
import { absoluteMillimetres, splitLength } from './length.js';
import { type Box, parseAspect, parseViewBox, viewBoxMatrix } from './view-box.js';

/** The size that a percentage of a viewport without size is taken of (CSS: the default size of replaced content). */
const DEFAULT_VIEWPORT: Box = { x: 0, y: 0, width: 300, height: 150 };

/** The page as the outermost `svg` states it. */
export interface PageSetup {
  /** mm; null where the file states no size at all, so that the lines decide. */
  readonly width: number | null;
  readonly height: number | null;
  /** User units of the outermost `svg` to mm. */
  readonly matrix: Affine;
  /** The viewport in user units. */
  readonly viewport: Box;
  /** The page shows nothing: a size or `viewBox` of zero. */
  readonly blank: boolean;
}

/** Works out the size of the page; what had to be assumed is in the log. */
export function setUpPage(
  root: XmlElement,
  geometry: (name: string) => string | undefined,
  options: ResolvedReadOptions,
  log: FindingLog,
): PageSetup {
  const mmPerPixel = 25.4 / options.unitsPerInch;
  const viewBoxText = root.attributes.viewBox;
  let viewBox = parseViewBox(viewBoxText);
  if (viewBox === null && viewBoxText !== undefined) {
    addSizeFault(log, root, `the viewBox "${viewBoxText.slice(0, 60)}" cannot be read and is left out`);
  }
  const stated = {
    width: readSize(root, geometry('width'), 'width', options, log),
    height: readSize(root, geometry('height'), 'height', options, log),
  };
  let ratio = viewBox && viewBox.width > 0 && viewBox.height > 0 ? viewBox.width / viewBox.height : null;
  let { width, height } = viewBox && ratio !== null ? completed(stated, viewBox, ratio, mmPerPixel) : stated;
  if (Math.max(width ?? 0, height ?? 0) > options.limits.coordinate) {
    const limit = `more than ${options.limits.coordinate} mm (limit "coordinate")`;
    addSizeFault(log, root, `the viewBox makes it ${limit} and is left out`);
    ({ width, height } = stated);
    viewBox = null;
    ratio = null;
  }
  noteAssumption(root, geometry, { width, height }, options, log);
  const blank =
    width === 0 || height === 0 || (viewBox !== null && (viewBox.width === 0 || viewBox.height === 0));
  const toMm: Affine = [mmPerPixel, 0, 0, mmPerPixel, 0, 0];
  if (viewBox === null || ratio === null || width === null || height === null) {
    const viewport: Box = {
      x: 0,
      y: 0,
      width: width === null ? DEFAULT_VIEWPORT.width : width / mmPerPixel,
      height: height === null ? DEFAULT_VIEWPORT.height : height / mmPerPixel,
    };
    return { width, height, matrix: toMm, viewport, blank };
  }
  const pixels: Box = { x: 0, y: 0, width: width / mmPerPixel, height: height / mmPerPixel };
  const fit = viewBoxMatrix(viewBox, pixels, parseAspect(root.attributes.preserveAspectRatio));
  return { width, height, matrix: multiplyAffine(toMm, fit), viewport: viewBox, blank };
}

/** Sizes that are not stated, from the `viewBox`: a unit of it is a pixel, or its proportions hold. */
function completed(
  stated: { width: number | null; height: number | null },
  viewBox: Box,
  ratio: number,
  mmPerPixel: number,
): { width: number; height: number } {
  if (stated.width !== null) return { width: stated.width, height: stated.height ?? stated.width / ratio };
  const height = stated.height ?? viewBox.height * mmPerPixel;
  return { width: stated.height === null ? viewBox.width * mmPerPixel : height * ratio, height };
}

/** A stated size in mm; null where there is none that means a length by itself. */
function readSize(
  root: XmlElement,
  text: string | undefined,
  name: string,
  options: ResolvedReadOptions,
  log: FindingLog,
): number | null {
  if (text === undefined || text === 'auto') return null;
  const split = splitLength(text);
  if (split === null) {
    addSizeFault(log, root, `its ${name} "${text.slice(0, 60)}" is no length and is left out`);
    return null;
  }
  if (split.unit === '%') return null;
  const em = { em: 16, rem: 16, ex: 8, ch: 8 }[split.unit];
  const size =
    em === undefined
      ? absoluteMillimetres(text, options.unitsPerInch)
      : (split.value * em * 25.4) / options.unitsPerInch;
  if (size === null) {
    log.add({
      rule: 'unit-unknown',
      level: 'warning',
      message: `The unit "${split.unit}" of the page's ${name} is not known; the ${name} is left out.`,
      source: placeOf(root),
      fix: 'Give width and height in mm, cm, in, pt, pc, Q or px.',
    });
    return null;
  }
  if (size > options.limits.coordinate) {
    addSizeFault(
      log,
      root,
      `its ${name} is more than ${options.limits.coordinate} mm (limit "coordinate") and is left out`,
    );
    return null;
  }
  if (size < 0) {
    addSizeFault(log, root, `its ${name} is negative and is left out`);
    return null;
  }
  return size;
}

function noteAssumption(
  root: XmlElement,
  geometry: (name: string) => string | undefined,
  page: { width: number | null; height: number | null },
  options: ResolvedReadOptions,
  log: FindingLog,
): void {
  const physical = (name: string): boolean => {
    const unit = splitLength(geometry(name) ?? '')?.unit;
    return unit !== undefined && /^(mm|cm|in|pt|pc|q)$/.test(unit);
  };
  if (physical('width') || physical('height') || options.scaleTo !== null) return;
  const size =
    page.width === null || page.height === null
      ? 'the page is as large as its lines'
      : `the page is ${round(page.width)} × ${round(page.height)} mm`;
  log.add({
    rule: 'size-assumed',
    level: 'note',
    message: `The file states no physical size; at ${options.unitsPerInch} px an inch ${size}.`,
    source: placeOf(root),
    fix: 'Check the size; give width and height in mm in the file, or scale on reading.',
  });
}

function addSizeFault(log: FindingLog, root: XmlElement, what: string): void {
  log.add({
    rule: 'size-fault',
    level: 'warning',
    message: `The size of the page is faulty: ${what}.`,
    source: placeOf(root),
    fix: 'Give the outermost <svg> a width and height in mm, and a viewBox of four numbers.',
  });
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
