import type { Scene } from './scene.js';
import { isSvg, textOf, type XmlElement } from './xml/xml-tree.js';

/** Names that a shape keeps at most: its own and those of the groups nearest to it. */
export const MAX_NAMES = 32;

/** Longest name that is kept. */
const MAX_NAME_LENGTH = 200;

/**
 * The names of an element, what is meant for people first: `aria-label`, then `title`, as the accessible name of an SVG
 * element is found (SVG Accessibility API Mappings); then what editors keep, `label` of any namespace and `data-name`;
 * its id last, which is an address that each element of a file may have.
 */
export function namesOf(element: XmlElement): string[] {
  const names: string[] = [];
  const { attributes } = element;
  if (attributes['aria-label']) addName(names, attributes['aria-label']);
  for (const child of element.children) {
    if (typeof child !== 'string' && child.name === 'title' && isSvg(child))
      addName(names, textOf(child, MAX_NAME_LENGTH));
  }
  for (const label of element.labels) addName(names, label);
  if (attributes['data-name']) addName(names, attributes['data-name']);
  if (attributes.id) addName(names, attributes.id);
  return names;
}

/** What programs call elements that nobody named: `path1042`, `rect12-3`, `g_7`. */
const NUMBERED =
  /^(path|rect|circle|ellipse|line|polyline|polygon|text|tspan|use|g|a|svg|symbol|switch)[-_]?\d+([-_.]\d+)*$/i;

/**
 * Own names before those from around, at most `MAX_NAMES`. Ids that only number elements come after all others: the
 * group around says more.
 */
export function withOuterNames(own: readonly string[], outer: readonly string[]): readonly string[] {
  if (own.length === 0) return outer;
  const numbered = own.filter((name) => NUMBERED.test(name));
  const words = numbered.length === 0 ? own : own.filter((name) => !numbered.includes(name));
  const before = outer.filter((name) => !NUMBERED.test(name));
  const after = before.length === outer.length ? [] : outer.filter((name) => NUMBERED.test(name));
  return [...new Set([...words, ...before, ...numbered, ...after])].slice(0, MAX_NAMES);
}

/** Marks that turn the direction of text (Unicode UAX #9): in a name they could turn the words around it. */
const TURNING = /[\u202a-\u202e\u2066-\u2069]/g;

function addName(names: string[], text: string): void {
  const name = text.replace(TURNING, '').trim().replace(/\s+/g, ' ').slice(0, MAX_NAME_LENGTH);
  if (name !== '' && !names.includes(name)) names.push(name);
}

/** Whether something with these names is to be read, by the options `include` and `exclude`. */
export function isWanted(names: readonly string[], scene: Scene): boolean {
  const { include, exclude } = scene.options;
  if (include === null && exclude.length === 0) return true;
  for (const name of names) scene.seenNames.add(name);
  if (include !== null && !names.some((name) => include.includes(name))) return false;
  return !names.some((name) => exclude.includes(name));
}

/** A name that was asked for and is nowhere is likely misspelt. */
export function noteUnknownNames(scene: Scene): void {
  for (const name of new Set([...(scene.options.include ?? []), ...scene.options.exclude])) {
    if (scene.seenNames.has(name)) continue;
    scene.log.add({
      rule: 'name-unknown',
      level: 'warning',
      message: `No visible shape or text is named "${name.slice(0, 80)}", nor is a group around one.`,
      fix: 'Look up the ids, labels and titles in the file; upper and lower case count.',
    });
  }
}
