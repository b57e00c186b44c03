import { SaxesParser, type SaxesTagPlain } from 'saxes';
import { PlystepError } from '../../error.js';
import type { FindingLog } from '../finding-log.js';
import { limitError, type ReadLimits } from '../read-options.js';
import { ENTITY_MARK, EntityTable, readDeclarations } from './entities.js';
import type { XmlElement, XmlNode } from './xml-tree.js';

/** A file as a tree. */
export interface XmlDocument {
  readonly root: XmlElement;
  /** All elements in document order. */
  readonly elements: readonly XmlElement[];
  /** The encoding that the XML declaration names. */
  readonly encoding: string | null;
  /** Contents of the `xml-stylesheet` instructions. */
  readonly styleSheetLinks: readonly string[];
}

interface OpenElement extends XmlElement {
  readonly children: XmlNode[];
  readonly depth: number;
  readonly scope: Scope;
}

/** Namespace addresses by prefix, the default one under the empty prefix. */
type Scope = Readonly<Record<string, string>>;

const NO_SCOPE: Scope = Object.create(null) as Scope;

/** Faults after which the structure of the rest is still certain. */
const REPAIRABLE =
  /undefined entity|duplicate attribute|disallowed character\.|text data outside|only one root|XML declaration|processing instruction|whitespace|malformed comment|"\]\]>"|unquoted|without value|malformed character entity|empty entity|version number|encoding value|standalone value|expected the name|did not expect|disallowed in entity name|value required/;

/** Elements whose text matters. */
const KEEPS_TEXT = new Set(['text', 'tspan', 'textPath', 'tref', 'a', 'style', 'title', 'switch']);

/**
 * Reads XML text into a tree, without recursion. Entities of the internal subset are replaced, nothing outside
 * the text is read. Small faults are repaired with a finding `xml-repaired`.
 *
 * @throws PlystepError `not-xml` where the structure is broken, `limit` where a limit of `limits` is reached
 */
export function parseXml(text: string, limits: ReadLimits, log: FindingLog): XmlDocument {
  const elements: XmlElement[] = [];
  let entities: EntityTable | null = null;
  let root: XmlElement | null = null;
  let attributeCount = 0;

  /** Parses a file, or the replacement text of an entity (`inside`: the element it stands in). */
  function run(source: string, inside: OpenElement | null): string | null {
    const parser = new SaxesParser({ xmlns: false, position: inside === null, fragment: inside !== null });
    if (entities) parser.ENTITIES = entities.table;
    let top: OpenElement | null = inside;
    let line = inside?.line ?? 1;
    let column = inside?.column ?? 1;
    let depth = inside?.depth ?? 0;

    parser.on('error', (error) => {
      const message = error.message.replace(/^\d+:\d+: /, '');
      const at = inside ? { line, column } : { line: parser.line, column: parser.column + 1 };
      if (!REPAIRABLE.test(message)) throw notXml(message, top, at);
      log.add({
        rule: 'xml-repaired',
        level: 'warning',
        message: `The XML is faulty (${message.replace(/\.$/, '')}) and was read as well as possible.`,
        source: { ...at, element: top?.name ?? '' },
      });
    });
    parser.on('doctype', (doctype) => {
      const declared = readDeclarations(doctype, limits);
      for (const name of declared.external) {
        log.add({
          rule: 'external-ignored',
          level: 'warning',
          message: `The external or parameter entity "${name.slice(0, 80)}" is not read; no file or address is ever opened.`,
          source: { line: parser.line, column: parser.column + 1, element: '!DOCTYPE' },
        });
      }
      entities = new EntityTable(declared, limits, { amp: '&', gt: '>', lt: '<', quot: '"', apos: "'" });
      parser.ENTITIES = entities.table;
    });
    parser.on('opentagstart', (tag) => {
      if (inside) return;
      ({ line, column } = startOf(tag.name, parser, source));
    });
    parser.on('opentag', (tag) => {
      if (root !== null && top === null) {
        depth++;
        return;
      }
      // Web pages are seldom XML, so they would be told by some fault further on.
      if (root === null && /^html$/i.test(tag.name)) throw webPage({ line, column });
      depth++;
      if (depth > limits.depth)
        throw limitError('depth', limits, 'Elements are nested too deeply', { line, column });
      const element = open(tag, top, { index: elements.length, line, column, depth });
      attributeCount += element.attributeCount;
      if (attributeCount > limits.attributes) {
        throw limitError('attributes', limits, 'The file has too many attributes', { line, column });
      }
      elements.push(element);
      if (elements.length > limits.elements) {
        throw limitError('elements', limits, 'The file has too many elements', { line, column });
      }
      top?.children.push(element);
      root ??= element;
      top = element;
    });
    parser.on('closetag', () => {
      depth--;
      if (top !== null && top !== inside) top = top.parent as OpenElement | null;
    });
    const addText = (value: string): void => {
      if (top === null || value === '') return;
      if (value.includes(ENTITY_MARK)) expand(value, top);
      else if (KEEPS_TEXT.has(top.name)) top.children.push(value);
    };
    parser.on('text', addText);
    parser.on('cdata', addText);
    parser.write(source).close();
    return parser.xmlDecl.encoding ?? null;
  }

  /** Text with entities in it that stand for elements. */
  function expand(value: string, top: OpenElement): void {
    for (const [i, part] of value.split(ENTITY_MARK).entries()) {
      if (i % 2 === 1) run(entities?.markup(part) ?? '', top);
      else if (part !== '' && KEEPS_TEXT.has(top.name)) top.children.push(part);
    }
  }

  if (text.length > limits.textLength) {
    throw limitError('textLength', limits, `The file has ${text.length} characters`);
  }
  if (text.trim() === '')
    throw new PlystepError(
      'not-xml',
      'The file is empty: there is nothing in it to read. Export or download the drawing again.',
    );
  const encoding = run(text.replace(/^\uFEFF/, ''), null);
  if (root === null) throw notXml('no element', null, { line: 1, column: 1 });
  return { root, elements, encoding, styleSheetLinks: linksIn(text) };
}

/** How far into a file links to style sheets are looked for, characters; they stand before the first element. */
const PROLOG = 10_000;

/** Contents of the `xml-stylesheet` instructions. Handlers are dear: with one more, saxes runs at an eighth of its speed. */
function linksIn(text: string): string[] {
  return [...text.slice(0, PROLOG).matchAll(/<\?xml-stylesheet\s([^?]*)\?>/g)].map((found) => found[1]);
}

/** Attributes, and characters of attributes, that weigh as much as an element. */
const ATTRIBUTES_PER_WEIGHT = 8;
const CHARACTERS_PER_WEIGHT = 64;

/** Layer names that are kept of one element. */
const MOST_LABELS = 8;
const NO_LABELS: readonly string[] = [];

/** Line and column of the `<` of a tag; the parser has just read the character after its name. */
function startOf(
  name: string,
  parser: { line: number; column: number; position: number },
  source: string,
): { line: number; column: number } {
  // The characters of a name are seldom outside of the basic plane, and columns count whole characters.
  if (parser.column > 0) return { line: parser.line, column: parser.column - [...name].length - 1 };
  // That character was the end of the line.
  let end = parser.position - 1;
  if (source[end] === '\n' && source[end - 1] === '\r') end--;
  const start = end - name.length - 1;
  let before = start - 1;
  while (before >= 0 && source[before] !== '\n' && source[before] !== '\r') before--;
  return { line: parser.line - 1, column: start - before };
}

interface AttributeSurvey {
  readonly count: number;
  readonly weight: number;
  readonly labels: readonly string[];
  readonly scope: Scope;
}

/** Looks at all attributes once: there may be a million. Entities that stand for elements are taken out. */
function survey(attributes: Record<string, string>, outer: Scope): AttributeSurvey {
  let count = 0;
  let characters = 0;
  let labels = NO_LABELS;
  let own: Record<string, string> | null = null;
  for (const name in attributes) {
    const value = attributes[name];
    count++;
    characters += value.length;
    if (value.includes(ENTITY_MARK)) attributes[name] = value.split(ENTITY_MARK)[0];
    const isNamespace = name.startsWith('xmlns') && (name.length === 5 || name[5] === ':');
    if (isNamespace) {
      own ??= Object.assign(Object.create(null), outer) as Record<string, string>;
      own[name.slice(6)] = attributes[name];
    } else if (
      name.endsWith('label') &&
      (name.length === 5 || name.endsWith(':label')) &&
      labels.length < MOST_LABELS
    ) {
      labels = [...labels, value];
    }
  }
  const weight =
    1 + Math.floor(count / ATTRIBUTES_PER_WEIGHT) + Math.floor(characters / CHARACTERS_PER_WEIGHT);
  return { count, weight, labels, scope: own ?? outer };
}

function open(
  tag: SaxesTagPlain,
  parent: OpenElement | null,
  place: Pick<OpenElement, 'index' | 'line' | 'column' | 'depth'>,
): OpenElement {
  const { count, weight, labels, scope } = survey(tag.attributes, parent?.scope ?? NO_SCOPE);
  const colon = tag.name.indexOf(':');
  const prefix = colon < 0 ? '' : tag.name.slice(0, colon);
  return {
    name: colon < 0 ? tag.name : tag.name.slice(colon + 1),
    // A prefix that nothing declares is an address of its own, so that its elements are not taken for SVG.
    namespace: scope[prefix] ?? prefix,
    attributes: tag.attributes,
    parent,
    children: [],
    labels,
    attributeCount: count,
    weight,
    scope,
    ...place,
  };
}

function webPage(at: { line: number; column: number }): PlystepError {
  return new PlystepError(
    'not-svg',
    'This is a web page, not an SVG drawing: its outermost element is <html>. Save the drawing itself, not the page that shows it.',
    at,
  );
}

function notXml(message: string, top: XmlElement | null, at: { line: number; column: number }): PlystepError {
  if (/unclosed tag|unexpected end/.test(message)) {
    const where = top
      ? `inside <${top.name}> (opened in line ${top.line})`
      : 'before its first element is complete';
    return new PlystepError(
      'not-xml',
      `The file ends ${where}; it looks cut off. Export or download the drawing again.`,
      at,
    );
  }
  if (/root element|no element/.test(message)) {
    return new PlystepError(
      'not-xml',
      'This is not an SVG file: there is no XML element in it. Save or export the drawing as SVG from the program that made it.',
      {
        line: 1,
        column: 1,
      },
    );
  }
  return new PlystepError(
    'not-xml',
    `The file is not well-formed XML: ${message.replace(/\.$/, '')} (line ${at.line}, column ${at.column}). Open it in a vector editor and save it again as plain SVG, or mend it there.`,
    at,
  );
}
