import { textOf, type XmlElement } from './xml/xml-tree.js';

/** Names that a shape keeps at most: its own and those of the groups nearest to it. */
export const MAX_NAMES = 32;

/** Longest name that is kept. */
const MAX_NAME_LENGTH = 200;

/** The names of an element: its id, `label` of any namespace, `data-name`, and its title. */
export function namesOf(element: XmlElement): string[] {
  const names: string[] = [];
  const { attributes } = element;
  if (attributes.id) addName(names, attributes.id);
  for (const name in attributes) {
    if (name === 'label' || name.endsWith(':label')) addName(names, attributes[name]);
  }
  if (attributes['data-name']) addName(names, attributes['data-name']);
  for (const child of element.children) {
    if (typeof child !== 'string' && child.name === 'title') addName(names, textOf(child));
  }
  return names;
}

/** Own names before those from around, at most `MAX_NAMES`. */
export function withOuterNames(own: readonly string[], outer: readonly string[]): readonly string[] {
  if (own.length === 0) return outer;
  const names = [...own];
  for (const name of outer) {
    if (names.length >= MAX_NAMES) break;
    if (!names.includes(name)) names.push(name);
  }
  return names;
}

function addName(names: string[], text: string): void {
  const name = text.trim().replace(/\s+/g, ' ').slice(0, MAX_NAME_LENGTH);
  if (name !== '' && !names.includes(name)) names.push(name);
}
