import type { Bounds } from '../geometry/point.js';
import { segmentField } from '../geometry/segment-field.js';
import type { LabelRequest, LabelSizes, PlacedLabel } from './label-request.js';
import { DIGIT_HEIGHT, labelExtent, lineWidth, WORD_GAP } from './label-shape.js';
import { flattenedEdges } from './map-paths.js';
import { type OverviewScene, shownDepth } from './overview-scene.js';
import { depthTint, INK, inkOn } from './palette.js';
import { placeLabels } from './place-labels.js';
import { element, group, textElement } from './svg-markup.js';
import { BASELINE, textWidth } from './text-width.js';

/** How closely the straight pieces that labels keep off follow the curves, in units of the scene. */
const FLATNESS = 0.05;

/** Every region's number and id, at a place where it can be read. `taken` are boxes to keep off. */
export function regionLabels(scene: OverviewScene, taken: readonly Bounds[]): string {
  const { map, unit, drawing } = scene;
  const ids = pieceIds(scene);
  const requests = map.regions.map((region, index): LabelRequest => {
    const number = scene.relief?.regions[index].label?.replace('-', '\u2212') ?? null;
    const place = { number, at: region.labelPoint, room: region.labelRoom };
    const piece = ids.get(index);
    return piece === undefined
      ? { ...place, id: region.id }
      : { ...place, id: `${piece} ${region.id}`, short: { number, id: piece } };
  });
  const lines = segmentField(flattenedEdges(map, map.edges, unit * FLATNESS));
  const borders = segmentField(
    flattenedEdges(
      map,
      map.edges.filter((edge) => edge.kind === 'border'),
      unit * FLATNESS,
    ),
  );
  const pad = unit * 4;
  const area: Bounds = [
    drawing.x - pad,
    drawing.y - pad,
    drawing.x + drawing.width + pad,
    drawing.y + drawing.height + pad,
  ];
  const placed = placeLabels(requests, { lines, borders, taken, area }, labelSizes(unit));
  const leaders = placed.flatMap((label) => (label.form === 'callout' ? [leader(scene, label)] : []));
  const texts = placed.map((label, index) => labelMarkup(scene, label, index));
  return group(
    { id: 'labels', class: 'type' },
    [group({ id: 'leaders', stroke: INK.line }, leaders), ...texts].filter(Boolean),
  );
}

/** What a plan calls the regions that are pieces or add-ons; before there is a plan they go by their own ids alone. */
function pieceIds({ plan }: OverviewScene): ReadonlyMap<number, string> {
  if (plan === null) return new Map();
  const pieces = plan.relief.joint === 'pieces' ? plan.pieces : [];
  return new Map([...pieces, ...plan.relief.addOns].map(({ id, region }) => [region, id]));
}

function labelSizes(unit: number): LabelSizes {
  return {
    largest: unit * 2.6,
    smallest: unit * 0.85,
    smallestId: unit * 0.68,
    smallestLong: unit * 1.35,
    callout: unit * 1.1,
    calloutId: unit * 0.85,
    clearance: unit * 0.2,
  };
}

/** A line from the callout to a dot in the region that it speaks of. */
function leader({ unit }: OverviewScene, label: PlacedLabel): string {
  const [x, y] = label.request.at;
  const ends = { x1: x, y1: y, x2: label.at[0], y2: label.at[1] };
  const dot = {
    cx: x,
    cy: y,
    r: 0.22 * unit,
    fill: INK.line,
    stroke: INK.paper,
    'stroke-width': 0.08 * unit,
  };
  return element('line', { ...ends, 'stroke-width': 0.12 * unit }) + element('circle', dot);
}

function labelMarkup(scene: OverviewScene, label: PlacedLabel, index: number): string {
  const { request, form, at, size, idSize } = label;
  const [x, y] = at;
  const ink = form === 'callout' ? INK.line : regionInk(scene, index);
  const halo = form === 'callout' ? undefined : haloOf(scene, index);
  const big = { 'font-size': size, fill: ink, ...halo };
  const small = { 'font-size': idSize, fill: ink, ...halo };
  const middle = { 'text-anchor': 'middle' };
  const base = y + size * BASELINE;
  if (request.number === null) {
    return plate(scene, label) + textElement(x, base, request.id, { ...big, ...middle });
  }
  const bold = { ...big, 'font-weight': 'bold' };
  if (form === 'stacked') {
    const half = labelExtent(request, label)[1] / 2;
    const number = textElement(x, y - half + size * DIGIT_HEIGHT, request.number, { ...bold, ...middle });
    return number + textElement(x, y + half, request.id, { ...small, ...middle });
  }
  const left = x - lineWidth(request, label) / 2;
  const idLeft = left + textWidth(request.number, size, true) + size * WORD_GAP;
  const number = textElement(left, base, request.number, bold);
  return plate(scene, label) + number + textElement(idLeft, base, request.id, small);
}

/** The plate behind a callout. */
function plate({ unit }: OverviewScene, label: PlacedLabel): string {
  if (label.form !== 'callout') return '';
  const [x, y] = label.at;
  const [width, height] = labelExtent(label.request, label);
  return element('rect', {
    x: x - width / 2,
    y: y - height / 2,
    width,
    height,
    rx: height / 2,
    fill: INK.paper,
    stroke: INK.line,
    'stroke-width': 0.1 * unit,
  });
}

function regionInk(scene: OverviewScene, index: number): string {
  const depth = shownDepth(scene, index);
  return depth === null || depth === 0 ? INK.line : inkOn(depthTint(depth, scene.sheets));
}

/** On the hatch of an opening, letters need a rim of paper. */
function haloOf(scene: OverviewScene, index: number) {
  if (shownDepth(scene, index) !== 0) return undefined;
  const rim = { stroke: INK.paper, 'stroke-width': 0.35 * scene.unit, 'stroke-linejoin': 'round' };
  return { ...rim, 'paint-order': 'stroke' };
}
