import type { Region } from '../plane/region-map.js';
import { edgePath, regionPath } from './map-paths.js';
import { type OverviewScene, regionFill, shownDepth, shownHeight } from './overview-scene.js';
import { INK } from './palette.js';
import { element, escapeXml, group } from './svg-markup.js';

/** Pattern of openings: paper with fine slanted lines. */
export function openingPattern(unit: number): string {
  const step = unit * 1.1;
  const line = element('path', {
    d: `M0 0V${step.toFixed(4)}`,
    stroke: INK.soft,
    'stroke-width': unit * 0.16,
    'stroke-opacity': '0.75',
  });
  const paper = element('rect', { width: step, height: step, fill: INK.paper });
  const pattern = element(
    'pattern',
    {
      id: 'opening',
      width: step,
      height: step,
      patternUnits: 'userSpaceOnUse',
      patternTransform: 'rotate(45)',
    },
    paper + line,
  );
  return element('defs', {}, pattern);
}

/** All regions with their tints; add-ons, which lie over the others, last. */
export function regionFills(scene: OverviewScene): string {
  const { map } = scene;
  const order = map.regions
    .map((_, index) => index)
    .sort((a, b) => Number(map.regions[a].addOn) - Number(map.regions[b].addOn));
  const paths = order.map((index) => {
    const region = map.regions[index];
    const attributes = {
      d: regionPath(map, region),
      fill: regionFill(scene, index),
      'data-region': region.id,
    };
    return element('path', attributes, element('title', {}, escapeXml(tooltip(scene, region, index))));
  });
  return group({ id: 'regions', 'fill-rule': 'evenodd' }, paths);
}

function tooltip(scene: OverviewScene, region: Region, index: number): string {
  const number = scene.relief?.regions[index];
  const parts = [region.id];
  if (number?.label != null) parts.push(`number ${number.label}`);
  if (number?.name != null) parts.push(number.name);
  if (number?.height != null && !scene.assumedStack) parts.push(`${number.height.toFixed(1)} mm high`);
  return parts.join(', ');
}

/**
 * The lines, the bolder the higher the step between the two sides, so that the relief reads without colour;
 * lines of one piece with the same height on both sides are thin.
 */
export function borderLines(scene: OverviewScene): string {
  const { map, unit } = scene;
  const classes = {
    flat: [] as string[],
    step: [] as string[],
    cliff: [] as string[],
    addOn: [] as string[],
  };
  const highest = (scene.relief?.regions ?? []).reduce((most, { height }) => Math.max(most, height ?? 0), 0);
  map.edges.forEach((edge, index) => {
    if (edge.kind !== 'border') return;
    const path = edgePath(map, index);
    if ([edge.left, edge.right].some((side) => side >= 0 && isAddOn(scene, side))) classes.addOn.push(path);
    else classes[stepClass(scene, edge.left, edge.right, highest)].push(path);
  });
  const widths = { flat: 0.12, step: 0.2, cliff: 0.28, addOn: 0.26 } as const;
  const paths = (Object.keys(classes) as (keyof typeof classes)[]).flatMap((key) =>
    classes[key].length === 0
      ? []
      : [element('path', { d: classes[key].join(''), 'stroke-width': widths[key] * unit })],
  );
  return group(
    { id: 'lines', fill: 'none', stroke: INK.line, 'stroke-linejoin': 'round', 'stroke-linecap': 'round' },
    paths,
  );
}

function isAddOn(scene: OverviewScene, region: number): boolean {
  return scene.relief?.regions[region].role === 'add-on';
}

function stepClass(
  scene: OverviewScene,
  left: number,
  right: number,
  highest: number,
): 'flat' | 'step' | 'cliff' {
  const [a, b] = [shownHeight(scene, left), shownHeight(scene, right)];
  if (a === null || b === null || highest === 0) return 'step';
  const part = Math.abs(a - b) / highest;
  return part === 0 ? 'flat' : part < 0.4 ? 'step' : 'cliff';
}

/** Lines that bound nothing: sawn for detail, or left open by mistake. */
export function veinLines(scene: OverviewScene): string {
  const { map, unit } = scene;
  const edges = [...map.regions.flatMap((region) => region.veins), ...map.outsideVeins];
  const paths = edges.map((edge) => element('path', { d: edgePath(map, edge) }));
  return group(
    {
      id: 'veins',
      fill: 'none',
      stroke: INK.vein,
      'stroke-width': 0.2 * unit,
      'stroke-linecap': 'round',
      'stroke-dasharray': `${(0.7 * unit).toFixed(4)} ${(0.45 * unit).toFixed(4)}`,
    },
    paths,
  );
}

/** Regions without a depth, for the legend: those that still want a number, and those whose number cannot be used. */
export function depthlessCounts(scene: OverviewScene): {
  readonly unnumbered: number;
  readonly unusable: number;
} {
  const without = scene.map.regions.flatMap((_, index) => (shownDepth(scene, index) === null ? [index] : []));
  const unusable = without.filter((index) => (scene.relief?.regions[index].label ?? null) !== null).length;
  return { unnumbered: without.length - unusable, unusable };
}
