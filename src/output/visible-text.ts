import { demandText } from '../arguments.js';

/**
 * What a reader can't see and what acts on the text around it: controls but for line ends and tabs, the marks that turn
 * the direction of text (Unicode UAX #9), and all else that by default has no look (Default_Ignorable_Code_Point,
 * UAX #44), with the anchors of annotations. Kept are those that letters are written with: joiners (U+200C, U+200D),
 * the grapheme joiner (U+034F) and variation selectors.
 */
const UNSEEN =
  /(?!\p{Variation_Selector}|\u034f|[\t\n\r\u200c\u200d])[\p{Default_Ignorable_Code_Point}\p{Bidi_Control}\p{Cc}\ufff9-\ufffb]/gu;

const PLAIN = /^[\t\n\r\u0020-\u007e]*$/;

/**
 * A text as all writers show it: without controls, marks of direction and other characters that have no look; the line
 * and paragraph separators become spaces. So no name or label turns the words around it, hides a part of itself, or acts
 * on a terminal.
 */
export function visibleText(text: string): string {
  demandText(text, 'visibleText');
  return PLAIN.test(text) ? text : text.replace(/[\u2028\u2029]/g, ' ').replace(UNSEEN, '');
}

/** Plain data with all texts in it as `visibleText` has them; the same object where nothing changes. */
export function visibleTexts<T>(data: T): T {
  return cleaned(data) as T;
}

function cleaned(value: unknown): unknown {
  if (typeof value === 'string') return visibleText(value);
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return value;
  if (Array.isArray(value)) {
    const items = value.map(cleaned);
    return items.some((item, i) => item !== value[i]) ? items : value;
  }
  const members = Object.entries(value).map(([key, member]) => [key, cleaned(member)] as const);
  const isSame = members.every(([key, member]) => member === (value as Record<string, unknown>)[key]);
  return isSame ? value : Object.fromEntries(members);
}
