import { applyToPoint } from '../../geometry/affine.js';
import { type Bounds, EMPTY_BOUNDS, joinBounds, type Point } from '../../geometry/point.js';
import { preparedClip } from '../clip/apply-clip.js';
import type { Label } from '../drawing.js';
import { isWanted } from '../names.js';
import type { Context, Scene } from '../scene.js';
import { parseLength } from '../size/length.js';
import type { Style } from '../style/computed-style.js';
import { placeOf, type XmlElement } from '../xml/xml-tree.js';
import { glyphWidth } from './glyph-width.js';
import { type Glyph, readGlyphs } from './text-runs.js';

/** A character with the place where it is drawn, user units. */
interface PlacedGlyph {
  readonly glyph: Glyph;
  /** Start of the character on its baseline. */
  x: number;
  y: number;
  readonly width: number;
}

/** A gap or a step of the baseline of more than this many em parts one label from the next. */
const LABEL_GAP = 1;
/** A gap of more than this many em reads as a space. */
const SPACE_GAP = 0.2;

/** Reads a `text` element into labels: one for each piece that stands by itself. */
export function readText(element: XmlElement, context: Context, scene: Scene): void {
  if (scene.measure !== null || !isWanted(context.names, scene)) return;
  const glyphs = readGlyphs(element, context, scene);
  if (glyphs.length === 0) return;
  const placed = layOut(glyphs, stretchOf(element, glyphs, context));
  for (const piece of piecesOf(placed)) {
    const label = labelOf(piece, context);
    if (label === null) continue;
    const [x, y] = label.at;
    const { coordinate } = scene.options.limits;
    if (Math.abs(x) <= coordinate && Math.abs(y) <= coordinate && label.size <= coordinate) {
      if (isSeen(label, element, context, scene)) scene.labels.push(label);
    } else {
      scene.log.addOnce(`range ${element.index}`, {
        rule: 'out-of-range',
        level: 'error',
        message: `A text has a position that is no number or lies beyond ${coordinate} mm (limit "coordinate"); it is left out.`,
        source: placeOf(element),
        fix: 'Give the page its true size (width and height in mm), or mend the numbers of the element.',
      });
    }
  }
}

/** Whether the middle of a label is neither clipped away nor outside of the page. */
function isSeen(label: Label, element: XmlElement, context: Context, scene: Scene): boolean {
  if (context.clip !== null && preparedClip(context.clip, scene).sideOf(label.at) < 0) return false;
  if (scene.page === null || preparedClip(scene.page, scene).sideOf(label.at) >= 0) return true;
  scene.log.addOnce(`outside ${element.index}`, {
    rule: 'outside-page',
    level: 'warning',
    message: `The text "${label.text.slice(0, 40)}" lies outside of the page and is left out.`,
    source: placeOf(element),
    at: label.at,
  });
  return false;
}

function advance(glyph: Glyph): number {
  return glyphWidth(glyph.character) * glyph.style.fontSize + glyph.style.letterSpacing;
}

/** `textLength` stretches or squeezes the text. */
function stretchOf(element: XmlElement, glyphs: readonly Glyph[], context: Context): number {
  const stated = element.attributes.textLength;
  const length = stated === undefined ? null : parseLength(stated, 'width', context.lengths);
  if (length === null || length <= 0) return 1;
  const natural = glyphs.reduce((sum, glyph) => sum + advance(glyph), 0);
  return natural > 0 ? length / natural : 1;
}

/** Puts the characters in their places: chunks begin at absolute positions and are shifted by their anchor. */
function layOut(glyphs: readonly Glyph[], stretch: number): PlacedGlyph[] {
  const placed: PlacedGlyph[] = [];
  let x = 0;
  let y = 0;
  let chunk = 0;
  const finishChunk = (): void => {
    if (chunk === placed.length) return;
    const { style } = placed[chunk].glyph;
    const share = { start: 0, middle: 0.5, end: 1 }[style.textAnchor];
    const from = style.vertical ? placed[chunk].y : placed[chunk].x;
    const shift = share * ((style.vertical ? y : x) - from);
    for (let i = chunk; i < placed.length; i++) {
      if (style.vertical) placed[i].y -= shift;
      else placed[i].x -= shift;
    }
    chunk = placed.length;
  };
  for (const glyph of glyphs) {
    if (glyph.x !== undefined || glyph.y !== undefined) {
      finishChunk();
      x = glyph.x ?? x;
      y = glyph.y ?? y;
    }
    x += glyph.dx ?? 0;
    y += glyph.dy ?? 0;
    const width = advance(glyph) * stretch;
    placed.push({ glyph, x, y, width });
    if (glyph.style.vertical) y += glyph.style.fontSize;
    else x += width;
  }
  finishChunk();
  return placed;
}

/** Parts the characters where a reader would see separate labels. */
function piecesOf(placed: readonly PlacedGlyph[]): PlacedGlyph[][] {
  const pieces: PlacedGlyph[][] = [];
  let last: PlacedGlyph | null = null;
  for (const next of placed) {
    const em = next.glyph.style.fontSize;
    const steps = next.glyph.style.vertical
      ? [0, 0]
      : last
        ? [next.x - (last.x + last.width), next.y - last.y]
        : [0, 0];
    if (
      last === null ||
      steps[0] > LABEL_GAP * em ||
      steps[0] < -LABEL_GAP * em ||
      Math.abs(steps[1]) > em / 2
    ) {
      pieces.push([]);
    }
    pieces[pieces.length - 1].push(next);
    last = next;
  }
  return pieces;
}

function labelOf(piece: readonly PlacedGlyph[], context: Context): Label | null {
  const shown = piece.filter(({ glyph }) => glyph.visible && glyph.style.fontSize > 0);
  const inked = shown.filter(({ glyph }) => glyph.character.trim() !== '');
  if (inked.length === 0) return null;
  let text = '';
  let last: PlacedGlyph | null = null;
  for (const next of shown) {
    const gap = last === null || next.glyph.style.vertical ? 0 : next.x - (last.x + last.width);
    if (gap > SPACE_GAP * next.glyph.style.fontSize) text += ' ';
    text += next.glyph.character;
    last = next;
  }
  const box = inked.reduce((all, placed) => joinBounds(all, inkBox(placed)), EMPTY_BOUNDS);
  const middle: Point = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
  const [a, b, c, d] = context.matrix;
  return {
    text: text.replace(/\s+/g, ' ').trim(),
    at: applyToPoint(context.matrix, middle),
    size: inked[0].glyph.style.fontSize * Math.sqrt(Math.abs(a * d - b * c)),
    source: placeOf(inked[0].glyph.source),
  };
}

/** Height of capitals and digits, em. */
const CAP_HEIGHT = 0.7;

function inkBox({ glyph, x, y, width }: PlacedGlyph): Bounds {
  const em = glyph.style.fontSize;
  if (glyph.style.vertical) return [x - width / 2, y, x + width / 2, y + em];
  const base = y + baselineOffset(glyph.style) - glyph.shift;
  return [x, base - CAP_HEIGHT * em, x + width - glyph.style.letterSpacing, base];
}

/** How far the alphabetic baseline lies below the given one, in em by common fonts (ascent 0.8, descent 0.2). */
const BASELINES: Readonly<Record<string, number>> = {
  middle: 0.25,
  central: 0.3,
  mathematical: 0.35,
  hanging: 0.8,
  'text-before-edge': 0.8,
  'text-top': 0.8,
  'before-edge': 0.8,
  'text-after-edge': -0.2,
  'text-bottom': -0.2,
  'after-edge': -0.2,
  ideographic: -0.2,
};

function baselineOffset(style: Style): number {
  return (BASELINES[style.dominantBaseline] ?? 0) * style.fontSize;
}
