import { visibleText } from './visible-text.js';

/** Decimals of a written length: 0.0001 mm is a tenth of the map's grid step. */
const DECIMALS = 4;

/** A number as SVG writes it: at most four decimals, no exponent, no negative zero. */
export function svgNumber(value: number, decimals: number = DECIMALS): string {
  const text = value.toFixed(decimals);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}

/**
 * Text made safe for XML content and double-quoted attributes. What has no look is dropped (`visibleText`); else
 * characters that XML 1.0 forbids (section 2.2) become U+FFFD.
 */
export function escapeXml(text: string): string {
  return visibleText(text)
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replace(/[&<>"']/g, (c) => `&#${c.charCodeAt(0)};`);
}

/** The attributes of an element; numbers are lengths in mm, undefined ones are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** One element. `children` is markup already; pass text through `escapeXml` first. */
export function element(name: string, attributes: Attributes, children?: string): string {
  const list = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(
      ([key, value]) =>
        ` ${key}="${typeof value === 'number' ? svgNumber(value) : escapeXml(value as string)}"`,
    )
    .join('');
  return children === undefined ? `<${name}${list}/>` : `<${name}${list}>${children}</${name}>`;
}

/** A group with one child a line; an empty group is left out. */
export function group(attributes: Attributes, children: readonly string[]): string {
  if (children.length === 0) return '';
  return element('g', attributes, `\n${children.join('\n')}\n`);
}

/** A text with plain content. */
export function textElement(x: number, y: number, content: string, attributes: Attributes = {}): string {
  return element('text', { x, y, ...attributes }, escapeXml(content));
}

/** An area of the page, mm. */
export interface PageBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A whole document at true size: one user unit is one mm. */
export function svgDocument(page: PageBox, title: string, style: string, body: readonly string[]): string {
  const box = [page.x, page.y, page.width, page.height].map((value) => svgNumber(value)).join(' ');
  const head = element('title', {}, escapeXml(title));
  const lines = body.filter((part) => part !== '');
  const root = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: `${svgNumber(page.width)}mm`,
      height: `${svgNumber(page.height)}mm`,
      viewBox: box,
    },
    `\n${[head, element('style', {}, style), ...lines].join('\n')}\n`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${root}\n`;
}
