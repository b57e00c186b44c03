import { PlystepError } from '../error.js';
import { IDENTITY, multiplyAffine } from '../geometry/affine.js';
import { markBackground } from './background.js';
import { boxRegion } from './clip/clip-region.js';
import { digestOf } from './digest.js';
import type { Drawing, Shape } from './drawing.js';
import { FindingLog } from './finding-log.js';
import { subpathBounds } from './outline.js';
import { type ReadOptions, type ResolvedReadOptions, resolveReadOptions } from './read-options.js';
import { type Context, indexById, type Scene } from './scene.js';
import { type PageSetup, setUpPage } from './size/page.js';
import { Cascade } from './style/cascade.js';
import { INITIAL_STYLE } from './style/computed-style.js';
import { readSheets } from './style/read-sheets.js';
import { drawAll, enter } from './walk.js';
import { parseXml, type XmlDocument } from './xml/parse-xml.js';
import { isSvg, placeOf, type XmlElement } from './xml/xml-tree.js';

/**
 * Reads an SVG as a person sees it: every visible line at true size in mm, fills in paint order, and the text.
 *
 * 1. XML to a tree, with line and column. 2. Style sheets, the page and its scale. 3. A walk in paint order:
 * what shows becomes shapes and labels, what is not read becomes a finding. 4. The background is recognised.
 *
 * No file and no address is ever opened. Time and memory are bounded by `options.limits` and grow with the file.
 *
 * @param text - the SVG; for bytes see `decodeDrawing`
 * @throws PlystepError `not-xml` or `not-svg` when there is nothing to read, `limit` when a limit is reached,
 * `bad-option` for an option that makes no sense
 */
export function readDrawing(text: string, options: ReadOptions = {}): Drawing {
  const resolved = resolveReadOptions(options);
  const log = new FindingLog(resolved.limits.findings);
  const document = parseXml(text, resolved.limits, log);
  const { root } = document;
  if (root.name !== 'svg' || !isSvg(root)) {
    throw new PlystepError(
      'not-svg',
      `This is not an SVG drawing: its outermost element is <${root.name.slice(0, 40)}>, not <svg>.`,
      { line: root.line, column: root.column },
    );
  }
  const cascade = makeCascade(document, resolved, log);
  const declared = cascade.declared(root);
  const setup = scaled(
    setUpPage(root, (name) => declared.get(name), resolved, log),
    resolved,
  );
  const scene = makeScene(document, cascade, setup, resolved, log);
  if (!setup.blank) drawPage(root, setup, scene);
  const page = pageOf(setup, scene.shapes);
  const shapes = markBackground(scene.shapes, page).filter(
    (s) => !(s.background && resolved.background === 'drop'),
  );
  if (shapes.every((shape) => shape.subpaths.length === 0)) {
    log.add({
      rule: 'no-lines',
      level: 'error',
      message: 'Nothing in the drawing can be seen as a line: there is nothing to cut.',
      source: placeOf(root),
      fix: 'Give the shapes a stroke or a fill, and check that they are not hidden.',
    });
  }
  return { unit: 'mm', page, shapes, labels: scene.labels, digest: digestOf(text), findings: log.findings() };
}

function makeCascade(document: XmlDocument, options: ResolvedReadOptions, log: FindingLog): Cascade {
  const cascade = new Cascade(readSheets(document.elements, options, log), (element) => {
    log.addOnce(`inline ${element.index}`, {
      rule: 'style-fault',
      level: 'warning',
      message: `A part of the style attribute of <${element.name.slice(0, 40)}> cannot be read and is left out.`,
      source: placeOf(element),
    });
  });
  for (const link of document.styleSheetLinks) {
    log.add({
      rule: 'external-ignored',
      level: 'warning',
      message: `The linked style sheet (${link.slice(0, 80)}) is not read; no file or address is ever opened.`,
      fix: 'Put the style sheet into the file, in a <style> element.',
    });
  }
  return cascade;
}

function makeScene(
  document: XmlDocument,
  cascade: Cascade,
  setup: PageSetup,
  options: ResolvedReadOptions,
  log: FindingLog,
): Scene {
  const { width, height } = setup;
  const clipsPage =
    options.outsidePage === 'clip' &&
    width !== null &&
    height !== null &&
    cascade.declared(document.root).get('overflow') !== 'visible';
  return {
    options,
    log,
    cascade,
    page: clipsPage ? boxRegion({ x: 0, y: 0, width, height }, IDENTITY, null) : null,
    clips: new Map(),
    prepared: new Map(),
    measure: null,
    byId: indexById(document.elements),
    shapes: [],
    labels: [],
    counts: { drawn: 0, segments: 0, clipSteps: 0 },
  };
}

function drawPage(root: XmlElement, setup: PageSetup, scene: Scene): void {
  const { options } = scene;
  const outer: Context = {
    matrix: setup.matrix,
    style: INITIAL_STYLE,
    lengths: {
      viewport: setup.viewport,
      fontSize: INITIAL_STYLE.fontSize,
      rootFontSize: INITIAL_STYLE.fontSize,
      page: setup.viewport,
      unitsPerInch: options.unitsPerInch,
    },
    opacity: 1,
    names: [],
    depth: null,
    use: null,
    clip: null,
  };
  const declared = scene.cascade.declared(root);
  if (declared.get('display') === 'none') return;
  const context = enter(root, declared, outer, scene);
  if (context === null) return;
  const inner: Context = {
    ...context,
    names: [],
    lengths: { ...context.lengths, rootFontSize: context.lengths.fontSize },
  };
  const children = root.children.filter((child): child is XmlElement => typeof child !== 'string');
  drawAll(
    children.map((element) => ({ element, context: inner })),
    scene,
  );
}

/** The page at the size that the caller asked for. */
function scaled(setup: PageSetup, options: ResolvedReadOptions): PageSetup {
  const factor = scaleFactor(setup, options);
  return {
    ...setup,
    width: setup.width === null ? null : setup.width * factor,
    height: setup.height === null ? null : setup.height * factor,
    matrix: multiplyAffine([factor, 0, 0, factor, 0, 0], setup.matrix),
  };
}

function scaleFactor(setup: PageSetup, options: ResolvedReadOptions): number {
  const { scaleTo } = options;
  if (scaleTo === null) return 1;
  if ('factor' in scaleTo) return scaleTo.factor;
  if ('width' in scaleTo) return setup.width === null || setup.width === 0 ? 1 : scaleTo.width / setup.width;
  return setup.height === null || setup.height === 0 ? 1 : scaleTo.height / setup.height;
}

/** The page as stated, or the box of all lines. */
function pageOf(setup: PageSetup, shapes: readonly Shape[]): Drawing['page'] {
  const bounds = subpathBounds(shapes.flatMap((shape) => shape.subpaths));
  const empty = !(bounds[2] >= bounds[0]);
  const x = setup.width === null && !empty ? bounds[0] : 0;
  const y = setup.height === null && !empty ? bounds[1] : 0;
  const width = setup.width ?? (empty ? 0 : bounds[2] - bounds[0]);
  const height = setup.height ?? (empty ? 0 : bounds[3] - bounds[1]);
  return { x, y, width, height };
}
