import { SHAPE_ELEMENTS } from './path/basic-shapes.js';
import type { Scene } from './scene.js';
import { isSvg, type XmlElement } from './xml/xml-tree.js';

/** What a `switch` may choose beside shapes; of `foreignObject` nothing could be read, so its substitute is taken. */
const BRANCHES = new Set(['g', 'a', 'svg', 'switch', 'use', 'text', 'image']);

/** The child that a `switch` shows: the first whose conditions hold (SVG 2, conditional processing). */
export function chooseBranch(element: XmlElement, scene: Scene): XmlElement[] {
  for (const child of element.children) {
    if (typeof child === 'string' || !isSvg(child)) continue;
    if (!BRANCHES.has(child.name) && !SHAPE_ELEMENTS.has(child.name)) continue;
    if (conditionsHold(child, scene)) return [child];
  }
  return [];
}

/** `systemLanguage` against the languages asked for; extensions are never there; features always are. */
export function conditionsHold(element: XmlElement, scene: Scene): boolean {
  const { requiredExtensions, systemLanguage } = element.attributes;
  if (requiredExtensions !== undefined && requiredExtensions.trim() !== '') return false;
  if (systemLanguage === undefined) return true;
  const wanted = scene.options.languages.map((language) => language.toLowerCase());
  return systemLanguage.split(',').some((entry) => {
    const offered = entry.trim().toLowerCase();
    return offered !== '' && wanted.some((w) => offered === w || offered.startsWith(`${w}-`));
  });
}
