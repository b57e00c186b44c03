import type { Context, Scene } from './scene.js';
import { referencedId } from './style/paint.js';
import { hrefOf, placeOf, type XmlElement } from './xml/xml-tree.js';

/** The element that a `use` names; null where it names none of this file. Nothing is reported. */
export function namedByUse(use: XmlElement, scene: Scene): XmlElement | null {
  return scene.byId.get(idOf(hrefOf(use) ?? '')) ?? null;
}

/** Whether an element stands in another one, or is it. */
export function standsIn(element: XmlElement, around: XmlElement): boolean {
  let at: XmlElement | null = element;
  while (at !== null && at !== around) at = at.parent;
  return at !== null;
}

/** The element that a `use` shows; null, with a finding, where it shows nothing. */
export function useTarget(element: XmlElement, context: Context, scene: Scene): XmlElement | null {
  const href = hrefOf(element);
  const note = (rule: string, message: string): null => {
    scene.log.addOnce(`use ${element.index}`, { rule, level: 'warning', message, source: placeOf(element) });
    return null;
  };
  if (href === null || href === '')
    return note('reference-missing', 'A use without a reference shows nothing.');
  const id = idOf(href);
  if (id === '') {
    return note(
      'external-ignored',
      `The use of "${href.slice(0, 80)}" leads out of the file; no file or address is ever opened.`,
    );
  }
  const target = scene.byId.get(id);
  if (target === undefined)
    return note(
      'reference-missing',
      `The use of "#${id.slice(0, 80)}" shows nothing: the file has no such element.`,
    );
  let frame = context.use;
  while (frame !== null && frame.target !== target) frame = frame.parent;
  if (frame !== null || standsIn(element, target))
    return note('reference-circular', `The use of "#${id.slice(0, 80)}" shows itself; it is left out.`);
  return target;
}

/** The id in a reference within the file; empty where it leads elsewhere. */
const idOf = (href: string): string => (href.startsWith('#') ? href.slice(1) : (referencedId(href) ?? ''));
