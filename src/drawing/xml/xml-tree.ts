import type { SourcePlace } from '../../finding.js';

/** An element of the file. Text matters in few elements only, and is kept in those. */
export interface XmlElement {
  /** Name without prefix. */
  readonly name: string;
  /** Namespace address; the empty string where the file declares none. */
  readonly namespace: string;
  /** Values by name as written, prefix included. */
  readonly attributes: Readonly<Record<string, string>>;
  readonly parent: XmlElement | null;
  readonly children: readonly XmlNode[];
  /** Position among the elements of the file, from 0 in document order. */
  readonly index: number;
  /** Of the opening `<`, from 1. */
  readonly line: number;
  readonly column: number;
  /** Values of `label` attributes of any namespace, as editors name layers by. */
  readonly labels: readonly string[];
  readonly attributeCount: number;
  /** How much work the element is each time it is shown: 1, and more for many or long attributes. */
  readonly weight: number;
}

export type XmlNode = XmlElement | string;

export const SVG_NAMESPACE = 'http://www.w3.org/2000/svg';

/** True for elements of SVG; a file that declares no namespace at all is taken for SVG. */
export function isSvg(element: XmlElement): boolean {
  return element.namespace === SVG_NAMESPACE || element.namespace === '';
}

/** The place of an element for findings: `path#roof` with line and column. */
export function placeOf(element: XmlElement): SourcePlace {
  const id = element.attributes.id;
  return {
    line: element.line,
    column: element.column,
    element: id ? `${element.name}#${id.slice(0, 80)}` : element.name,
  };
}

/** The text in an element and all elements in it, in document order, up to about `enough` characters. */
export function textOf(element: XmlElement, enough = Number.POSITIVE_INFINITY): string {
  const parts: string[] = [];
  let length = 0;
  const stack: XmlNode[] = [element];
  for (let node = stack.pop(); node !== undefined; node = stack.pop()) {
    if (typeof node === 'string') {
      length += node.length;
      parts.push(node.length > enough ? node.slice(0, enough) : node);
      if (length > enough) break;
    } else for (let i = node.children.length - 1; i >= 0; i--) stack.push(node.children[i]);
  }
  return parts.join('');
}

/** Where a reference points: `href`, or that of the older link namespace under whatever prefix. */
export function hrefOf(element: XmlElement): string | null {
  const plain = element.attributes.href;
  if (plain !== undefined) return plain.trim();
  for (const name in element.attributes) {
    if (name.endsWith(':href')) return element.attributes[name].trim();
  }
  return null;
}
