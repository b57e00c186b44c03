import { demandText } from '../arguments.js';
import { PlystepError } from '../error.js';
import { IDENTITY, multiplyAffine } from '../geometry/affine.js';
import { markBackground } from './background.js';
import { boxRegion } from './clip/clip-region.js';
import { demandFewRepeats } from './count-repeats.js';
import { digestOf } from './digest.js';
import type { Drawing, Shape } from './drawing.js';
import { FindingLog } from './finding-log.js';
import { noteUnknownNames } from './names.js';
import { subpathBounds } from './outline.js';
import { type ReadOptions, type ResolvedReadOptions, resolveReadOptions } from './read-options.js';
import { type Context, indexById, type Scene } from './scene.js';
import { type PageSetup, setUpPage } from './size/page.js';
import { Cascade } from './style/cascade.js';
import { INITIAL_STYLE } from './style/computed-style.js';
import { readSheets } from './style/read-sheets.js';
import { NO_VARIABLES } from './style/variables.js';
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
  demandText(text, 'readDrawing', 'text', 'for bytes use decodeDrawing');
  const resolved = resolveReadOptions(options);
  const log = new FindingLog(resolved.limits.findings);
  const document = parseXml(text, resolved.limits, log);
  const { root } = document;
  if (root.name !== 'svg' || !isSvg(root)) {
    throw new PlystepError(
      'not-svg',
      `This is not an SVG drawing: its outermost element is <${root.name.slice(0, 40)}>, not <svg>. Save or export the drawing as SVG from the program that made it.`,
      { line: root.line, column: root.column },
    );
  }
  const cascade = makeCascade(document, resolved, log);
  const declared = cascade.declared(root);
  const stated = setUpPage(root, (name) => declared.get(name), resolved, log);
  const setup = scaled(stated, scaleFactor(stated, document, cascade, resolved));
  const scene = makeScene(document, cascade, setup, resolved, log);
  drawPage(document, setup, scene);
  const page = pageOf(setup, scene.shapes);
  const all = markBackground(scene.shapes, page);
  const shapes = resolved.background === 'drop' ? all.filter((shape) => !shape.background) : all;
  noteWhole(root, all, shapes, scene);
  return { unit: 'mm', page, shapes, labels: scene.labels, digest: digestOf(text), findings: log.findings() };
}

function makeCascade(document: XmlDocument, options: ResolvedReadOptions, log: FindingLog): Cascade {
  for (const link of document.styleSheetLinks) {
    log.add({
      rule: 'external-ignored',
      level: 'warning',
      message: `The linked style sheet (${link.slice(0, 80)}) is not read; no file or address is ever opened.`,
      fix: 'Put the style sheet into the file, in a <style> element.',
    });
  }
  return new Cascade(readSheets(document.elements, options, log), (element) => {
    log.addOnce(`inline ${element.index}`, {
      rule: 'style-fault',
      level: 'warning',
      message: `A part of the style attribute of <${element.name.slice(0, 40)}> cannot be read and is left out.`,
      source: placeOf(element),
    });
  });
}

function makeScene(
  document: XmlDocument,
  cascade: Cascade,
  { width, height }: PageSetup,
  options: ResolvedReadOptions,
  log: FindingLog,
): Scene {
  const sized = width !== null && height !== null;
  const overflows = cascade.declared(document.root).get('overflow') === 'visible';
  const clips = options.outsidePage === 'clip' && sized && !overflows;
  return {
    options,
    log,
    cascade,
    byId: indexById(document.elements),
    shapes: [],
    labels: [],
    counts: { drawn: 0, segments: 0, clipSteps: 0, translucent: 0, characters: 0 },
    seenNames: new Set(),
    page: clips ? boxRegion({ x: 0, y: 0, width, height }, IDENTITY, null) : null,
    clips: new Map(),
    prepared: new Map(),
    clipBoxes: new Map(),
    measure: null,
  };
}

function drawPage({ root, elements }: XmlDocument, setup: PageSetup, scene: Scene): void {
  if (setup.blank) return;
  demandFewRepeats(root, elements, scene);
  const outer: Context = {
    matrix: setup.matrix,
    style: INITIAL_STYLE,
    lengths: {
      viewport: setup.viewport,
      fontSize: INITIAL_STYLE.fontSize,
      rootFontSize: INITIAL_STYLE.fontSize,
      page: setup.viewport,
      unitsPerInch: scene.options.unitsPerInch,
    },
    opacity: 1,
    names: [],
    depth: null,
    use: null,
    variables: NO_VARIABLES,
    clip: null,
  };
  const declared = scene.cascade.declared(root);
  if (declared.get('display') === 'none') return;
  const context = enter(root, declared, outer, scene);
  if (context === null) return;
  const { fontSize } = context.lengths;
  // The names of the file as a whole tell nothing about its parts.
  const inner: Context = { ...context, names: [], lengths: { ...context.lengths, rootFontSize: fontSize } };
  const children = root.children.filter((child): child is XmlElement => typeof child !== 'string');
  const tasks = children.map((element) => ({ element, context: inner }));
  drawAll(tasks, scene);
}

/** What was found about the drawing as a whole. */
function noteWhole(root: XmlElement, all: readonly Shape[], kept: readonly Shape[], scene: Scene): void {
  const { log, options } = scene;
  if (scene.counts.translucent > 0) {
    const hide = options.translucentFills === 'hide';
    log.add({
      rule: 'translucent-fill',
      level: 'note',
      message: `${scene.counts.translucent} fills let something shine through; they are read as ${hide ? 'hiding' : 'not hiding'} the lines under them.`,
      fix: `Read with translucentFills: "${hide ? 'see-through' : 'hide'}" for the other way.`,
    });
  }
  const background = all.find((shape) => shape.background);
  if (background) {
    const dropped = kept.length < all.length;
    log.add({
      rule: 'background',
      level: 'note',
      message: `A filled rectangle covers the whole page; its outline is ${dropped ? 'left out' : 'read as a frame'}.`,
      source: background.source,
      fix: `Read with background: "${dropped ? 'frame' : 'drop'}" for the other way.`,
    });
  }
  noteUnknownNames(scene);
  if (kept.some((shape) => shape.use === 'cut' && shape.subpaths.length > 0)) return;
  log.add({
    rule: 'no-lines',
    level: 'error',
    message: 'No line of the drawing is a cut line: there is nothing to cut.',
    source: placeOf(root),
    fix: 'Give the shapes a stroke or a fill, and check that they are not hidden, outside of the page, or dashed.',
  });
}

/** The page at the size that the caller asked for. */
function scaled(setup: PageSetup, factor: number): PageSetup {
  return {
    ...setup,
    width: setup.width === null ? null : setup.width * factor,
    height: setup.height === null ? null : setup.height * factor,
    matrix: multiplyAffine([factor, 0, 0, factor, 0, 0], setup.matrix),
  };
}

function scaleFactor(
  setup: PageSetup,
  document: XmlDocument,
  cascade: Cascade,
  options: ResolvedReadOptions,
): number {
  const { scaleTo } = options;
  if (scaleTo === null) return 1;
  if ('factor' in scaleTo) return scaleTo.factor;
  const side = 'width' in scaleTo ? 'width' : 'height';
  const wanted = 'width' in scaleTo ? scaleTo.width : scaleTo.height;
  let size = setup[side];
  if (size === null) {
    // The lines decide how large the page is, so they are drawn once to be measured. Nothing is reported twice.
    const trial = makeScene(document, cascade, setup, options, new FindingLog(1));
    drawPage(document, setup, trial);
    size = pageOf(setup, trial.shapes)[side];
  }
  return size > 0 ? wanted / size : 1;
}

/** The page as stated, or the box of all lines. */
function pageOf(setup: PageSetup, shapes: readonly Shape[]): Drawing['page'] {
  const { width, height } = setup;
  if (width !== null && height !== null) return { x: 0, y: 0, width, height };
  const bounds = subpathBounds(shapes.flatMap((shape) => shape.subpaths));
  const empty = !(bounds[2] >= bounds[0]);
  return {
    x: width === null && !empty ? bounds[0] : 0,
    y: height === null && !empty ? bounds[1] : 0,
    width: width ?? (empty ? 0 : bounds[2] - bounds[0]),
    height: height ?? (empty ? 0 : bounds[3] - bounds[1]),
  };
}
