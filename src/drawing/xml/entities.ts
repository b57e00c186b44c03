import type { PlystepError } from '../../error.js';
import { limitError, type ReadLimits } from '../read-options.js';

/**
 * Brackets the name of an entity that stands for elements, in the text that the XML parser hands over. A
 * noncharacter that XML forbids in a file, so that no file can forge one.
 */
export const ENTITY_MARK = '\uFFFE';

/** What a document type declaration declares. */
export interface Declarations {
  /** Replacement text by name, references inside not yet replaced. The first declaration of a name counts. */
  readonly texts: ReadonlyMap<string, string>;
  /** Names of external and parameter entities, which are not read. */
  readonly external: readonly string[];
}

const DECLARATION = /^<!ENTITY\s+(%\s+)?([^\s%"'<>]+)\s+(?:"([^"]*)"|'([^']*)'|(?:SYSTEM|PUBLIC)\s)/;
const REFERENCE = /&(#x[0-9a-fA-F]+|#[0-9]+|[^\s&;#]+);/g;

/**
 * Reads the entity declarations of an internal subset. Nothing outside of the text is ever read: external and
 * parameter entities are only listed.
 */
export function readDeclarations(doctype: string, limits: ReadLimits): Declarations {
  const texts = new Map<string, string>();
  const external: string[] = [];
  let faulty = 0;
  let i = doctype.indexOf('[');
  while (i >= 0 && i < doctype.length) {
    const next = doctype.indexOf('<!', i);
    if (next < 0) break;
    if (doctype.startsWith('<!--', next)) {
      const end = doctype.indexOf('-->', next + 4);
      i = end < 0 ? doctype.length : end + 3;
      continue;
    }
    i = next + 2;
    if (!doctype.startsWith('<!ENTITY', next)) continue;
    const found = DECLARATION.exec(doctype.slice(next, next + limits.entityLength + 1000));
    if (!found) {
      faulty++;
      if (faulty > limits.entities) throw tooMany(limits);
      continue;
    }
    const [whole, parameter, name, double, single] = found;
    const text = double ?? single;
    i = next + whole.length;
    if (parameter !== undefined || text === undefined) external.push(name);
    else if (!texts.has(name)) texts.set(name, text);
    if (texts.size + external.length > limits.entities) throw tooMany(limits);
  }
  return { texts, external };
}

function tooMany(limits: ReadLimits): PlystepError {
  return limitError('entities', limits, 'The file declares too many entities');
}

/**
 * The table that the XML parser looks references up in. Each look-up is counted, so that a file cannot grow
 * beyond `entityLength` characters however its entities nest.
 */
export class EntityTable {
  readonly table: Record<string, string>;
  readonly #declared: Declarations;
  readonly #limits: ReadLimits;
  readonly #expanded = new Map<string, string>();
  readonly #builtIn: Readonly<Record<string, string>>;
  #used = 0;

  constructor(declared: Declarations, limits: ReadLimits, builtIn: Readonly<Record<string, string>>) {
    this.#declared = declared;
    this.#limits = limits;
    this.#builtIn = builtIn;
    this.table = Object.create(builtIn) as Record<string, string>;
    for (const name of declared.texts.keys()) {
      Object.defineProperty(this.table, name, { get: () => this.#lookUp(name), enumerable: true });
    }
    for (const name of declared.external) {
      if (!declared.texts.has(name)) Object.defineProperty(this.table, name, { value: '' });
    }
  }

  /** The full replacement text of an entity that stands for elements. */
  markup(name: string): string {
    return this.#expand(name, []);
  }

  #lookUp(name: string): string {
    const text = this.#expand(name, []);
    this.#count(text.length);
    return text.includes('<') ? `${ENTITY_MARK}${name}${ENTITY_MARK}` : text;
  }

  #expand(name: string, open: readonly string[]): string {
    const done = this.#expanded.get(name);
    if (done !== undefined) return done;
    if (open.includes(name)) return '';
    let length = 0;
    const text = (this.#declared.texts.get(name) ?? '').replace(REFERENCE, (whole, reference: string) => {
      const part = this.#replacement(whole, reference, [...open, name]);
      length += part.length;
      if (length > this.#limits.entityLength) this.#count(length);
      return part;
    });
    this.#count(0, text.length);
    this.#expanded.set(name, text);
    return text;
  }

  #replacement(whole: string, reference: string, open: readonly string[]): string {
    if (reference.startsWith('#')) return characterOf(reference) ?? whole;
    if (this.#declared.texts.has(reference)) return this.#expand(reference, open);
    return this.#builtIn[reference] === undefined ? '' : whole;
  }

  #count(length: number, atOnce = 0): void {
    this.#used += length;
    if (Math.max(this.#used, atOnce) > this.#limits.entityLength) {
      throw limitError('entityLength', this.#limits, 'The entities of the file stand for too much text');
    }
  }
}

function characterOf(reference: string): string | null {
  const code = reference.startsWith('#x')
    ? Number.parseInt(reference.slice(2), 16)
    : Number(reference.slice(1));
  if (!(code > 0 && code <= 0x10ffff) || (code >= 0xd800 && code <= 0xdfff)) return null;
  return String.fromCodePoint(code);
}
