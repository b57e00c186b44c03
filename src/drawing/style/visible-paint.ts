import type { Scene } from '../scene.js';
import { hrefOf, placeOf, type XmlElement } from '../xml/xml-tree.js';
import { parseColor, parseOpacity } from './color.js';
import type { Paint } from './paint.js';

/** What is left of a paint once it is known whether anything shows. */
export interface VisiblePaint {
  /** Lower-case `#rrggbb`; null where it is no plain colour. */
  readonly color: string | null;
  /** Opacity of the paint itself, above 0. */
  readonly alpha: number;
}

/** A gradient takes its stops from another one, that from a third …: more than this is a circle or a prank. */
const MAX_GRADIENT_LINKS = 20;

/**
 * What a paint shows, or null for nothing. `flat`: the shape has no width or no height, so that a gradient or
 * pattern that is measured by its box cannot paint it.
 */
export function visiblePaint(
  paint: Paint,
  flat: boolean,
  element: XmlElement,
  scene: Scene,
): VisiblePaint | null {
  if (paint.kind === 'none') return null;
  if (paint.kind === 'color') {
    return paint.color.alpha > 0 ? { color: paint.color.hex, alpha: paint.color.alpha } : null;
  }
  const target = scene.byId.get(paint.id);
  const fallback = (): VisiblePaint | null => visiblePaint(paint.fallback, flat, element, scene);
  if (target?.name === 'linearGradient' || target?.name === 'radialGradient') {
    const chain = linkChain(target, scene);
    if (flat && inherited(chain, 'gradientUnits') !== 'userSpaceOnUse') return fallback();
    const alpha = gradientAlpha(chain, scene);
    return alpha === null ? null : { color: null, alpha };
  }
  if (target?.name === 'pattern') {
    const chain = linkChain(target, scene);
    if (flat && inherited(chain, 'patternUnits') !== 'userSpaceOnUse') return fallback();
    scene.log.addOnce(`pattern ${element.index}`, {
      rule: 'effect-ignored',
      level: 'warning',
      message:
        'The pattern that paints this shape is not read: only the outline of the shape counts, and it hides nothing.',
      source: placeOf(element),
    });
    // What shows between the parts of a pattern is not known.
    return { color: null, alpha: PATTERN_ALPHA };
  }
  if (paint.id !== '' && paint.fallback.kind === 'none') {
    scene.log.addOnce(`paint ${element.index} ${paint.id}`, {
      rule: 'reference-missing',
      level: 'warning',
      message: `The paint "#${paint.id.slice(0, 80)}" is not in the file, so it paints nothing.`,
      source: placeOf(element),
    });
  }
  return fallback();
}

/** Patterns count as half-transparent. */
const PATTERN_ALPHA = 0.5;

function linkChain(start: XmlElement, scene: Scene): XmlElement[] {
  const chain: XmlElement[] = [];
  let at: XmlElement | undefined = start;
  while (at !== undefined && !chain.includes(at) && chain.length < MAX_GRADIENT_LINKS) {
    chain.push(at);
    const href = hrefOf(at);
    at = href?.startsWith('#') ? scene.byId.get(href.slice(1)) : undefined;
  }
  return chain;
}

function inherited(chain: readonly XmlElement[], name: string): string | undefined {
  return chain.find((element) => element.attributes[name] !== undefined)?.attributes[name];
}

/** The least opacity among the stops: 1 only if nothing shines through. Null: no stops, or none that shows. */
function gradientAlpha(chain: readonly XmlElement[], scene: Scene): number | null {
  for (const gradient of chain) {
    const stops = gradient.children.filter(
      (c): c is XmlElement => typeof c !== 'string' && c.name === 'stop',
    );
    if (stops.length === 0) continue;
    const alphas = stops.map((stop) => {
      const declared = scene.cascade.declared(stop);
      const opacity = parseOpacity(declared.get('stop-opacity') ?? '1') ?? 1;
      return opacity * (parseColor(declared.get('stop-color') ?? 'black')?.alpha ?? 1);
    });
    if (alphas.every((alpha) => alpha <= 0)) return null;
    return alphas.reduce((least, alpha) => Math.max(Math.min(least, alpha), LEAST_ALPHA), 1);
  }
  return null;
}

/** A gradient that fades out altogether at one stop still shows at others. */
const LEAST_ALPHA = 1 / 255;
