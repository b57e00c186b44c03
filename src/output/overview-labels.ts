import type { Bounds } from '../geometry/point.js';
import { flattenedEdges } from './map-paths.js';
import { type OverviewScene, shownDepth } from './overview-scene.js';
import { depthTint, INK, inkOn } from './palette.js';
import {
  ID_PART,
  type LabelRequest,
  type LabelSizes,
  labelExtent,
  type PlacedLabel,
  placeLabels,
} from './place-labels.js';
import { segmentField } from './segment-field.js';
import { element, group, textElement } from './svg-markup.js';
import { BASELINE, textWidth } from './text-width.js';

/** Every region's number and id, at a place where it can be read. `taken` are boxes to keep off. */
export function regionLabels(scene: OverviewScene, taken: readonly Bounds[]): string {
  const { map, unit, drawing } = scene;
  const requests = map.regions.map(
    (region, index): LabelRequest => ({
      number: scene.relief?.regions[index].label?.replace('-', '\u2212') ?? null,
      id: region.id,
      at: region.labelPoint,
      room: region.labelRoom,
    }),
  );
  const field = segmentField(flattenedEdges(map, unit * 0.05));
  const pad = unit * 4;
  const area: Bounds = [
    drawing.x - pad,
    drawing.y - pad,
    drawing.x + drawing.width + pad,
    drawing.y + drawing.height + pad,
  ];
  const placed = placeLabels(requests, field, labelSizes(unit), taken, area);
  const leaders = placed.flatMap((label) => (label.form === 'callout' ? [leader(scene, label)] : []));
  const texts = placed.map((label, index) => labelMarkup(scene, label, index));
  return group(
    { id: 'labels', class: 'type' },
    [group({ id: 'leaders', stroke: INK.line }, leaders), ...texts].filter(Boolean),
  );
}

function labelSizes(unit: number): LabelSizes {
  return { largest: unit * 2.6, smallest: unit * 0.95, callout: unit * 1.05 };
}

/** A line from the callout to a dot in the region that it speaks of. */
function leader(scene: OverviewScene, label: PlacedLabel): string {
  const [x, y] = label.request.at;
  const line = element('line', {
    x1: x,
    y1: y,
    x2: label.at[0],
    y2: label.at[1],
    'stroke-width': 0.12 * scene.unit,
  });
  return (
    line +
    element('circle', {
      cx: x,
      cy: y,
      r: 0.22 * scene.unit,
      fill: INK.line,
      stroke: INK.paper,
      'stroke-width': 0.08 * scene.unit,
    })
  );
}

function labelMarkup(scene: OverviewScene, label: PlacedLabel, index: number): string {
  const { request, form, at, size } = label;
  const [x, y] = at;
  const ink = form === 'callout' ? INK.line : regionInk(scene, index);
  if (request.number === null) {
    return (
      plate(scene, label) +
      textElement(x, y + size * BASELINE, request.id, {
        'font-size': size,
        'text-anchor': 'middle',
        fill: ink,
      })
    );
  }
  const halo = form === 'callout' ? undefined : haloOf(scene, index, ink);
  const bold = { 'font-size': size, 'font-weight': 'bold', fill: ink, ...halo };
  const small = { 'font-size': size * ID_PART, fill: ink, ...halo };
  if (form === 'stacked') {
    const [, height] = labelExtent(request, form, size);
    const top = y - height / 2 + size * 0.74;
    const bottom = y + height / 2;
    const middle = { 'text-anchor': 'middle' };
    return (
      textElement(x, top, request.number, { ...bold, ...middle }) +
      textElement(x, bottom, request.id, { ...small, ...middle })
    );
  }
  const numberWidth = textWidth(request.number, size, true);
  const left = x - (numberWidth + size * 0.3 + textWidth(request.id, size * ID_PART)) / 2;
  const base = y + size * BASELINE;
  return (
    plate(scene, label) +
    textElement(left, base, request.number, bold) +
    textElement(left + numberWidth + size * 0.3, base, request.id, small)
  );
}

/** The plate behind a callout, edged in the tint of its region. */
function plate(scene: OverviewScene, label: PlacedLabel): string {
  if (label.form !== 'callout') return '';
  const [x, y] = label.at;
  const [width, height] = labelExtent(label.request, 'callout', label.size);
  return element('rect', {
    x: x - width / 2,
    y: y - height / 2,
    width,
    height,
    rx: height / 2,
    fill: INK.paper,
    stroke: INK.line,
    'stroke-width': 0.1 * scene.unit,
  });
}

function regionInk(scene: OverviewScene, index: number): string {
  const depth = shownDepth(scene, index);
  return depth === null || depth === 0 ? INK.line : inkOn(depthTint(depth, scene.sheets));
}

/** On the hatch of an opening, letters need a rim of paper. */
function haloOf(scene: OverviewScene, index: number, ink: string) {
  if (shownDepth(scene, index) !== 0 || ink !== INK.line) return undefined;
  return {
    stroke: INK.paper,
    'stroke-width': 0.35 * scene.unit,
    'paint-order': 'stroke',
    'stroke-linejoin': 'round',
  };
}
