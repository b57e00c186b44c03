import { parse, type Selector } from 'css-what';

/** Selectors longer than this are left out; css-what nests calls by their brackets. */
export const MAX_SELECTOR_LENGTH = 1000;

/** One compound selector (`rect.wall#a`) and how it hangs on the one to its left. */
export interface Compound {
  readonly tests: readonly Selector[];
  /** Relation of the element to one that matches the compound on the left; null at the left end. */
  readonly relation: 'descendant' | 'child' | 'adjacent' | 'sibling' | null;
}

/** A selector without commas, rightmost compound first. */
export interface ParsedSelector {
  readonly compounds: readonly Compound[];
  /** Comparable: ids, then classes with attributes and pseudo-classes, then types (Selectors 4, section 17). */
  readonly specificity: number;
}

/** Reads one selector; null when it is not valid, or names what is never in a drawing (pseudo-elements). */
export function parseSelector(text: string): ParsedSelector | null {
  if (text === '' || text.length > MAX_SELECTOR_LENGTH) return null;
  let lists: Selector[][];
  try {
    lists = parse(text);
  } catch {
    // css-what throws plain errors for whatever it cannot read.
    return null;
  }
  if (lists.length !== 1) return null;
  const compounds: Compound[] = [];
  let tests: Selector[] = [];
  let relation: Compound['relation'] = null;
  for (const part of lists[0]) {
    switch (part.type) {
      case 'descendant':
      case 'child':
      case 'adjacent':
      case 'sibling':
        if (tests.length === 0) return null;
        compounds.push({ tests, relation });
        tests = [];
        relation = part.type;
        break;
      case 'tag':
      case 'universal':
      case 'attribute':
      case 'pseudo':
        if (part.type === 'attribute' && part.name === 'class' && part.value === '') return null;
        tests.push(part);
        break;
      default:
        return null;
    }
  }
  if (tests.length === 0) return null;
  compounds.push({ tests, relation });
  return { compounds: compounds.reverse(), specificity: specificityOf(lists[0]) };
}

const ID_WEIGHT = 2 ** 20;
const CLASS_WEIGHT = 2 ** 10;

function specificityOf(parts: readonly Selector[]): number {
  let sum = 0;
  for (const part of parts) {
    if (part.type === 'tag') sum += 1;
    else if (part.type === 'attribute')
      sum +=
        part.name === 'id' && part.action === 'equals' && part.ignoreCase === 'quirks'
          ? ID_WEIGHT
          : CLASS_WEIGHT;
    else if (part.type === 'pseudo') sum += pseudoWeight(part);
  }
  return sum;
}

/** `:is` and `:not` weigh as their heaviest argument, `:where` nothing. */
function pseudoWeight(part: Extract<Selector, { type: 'pseudo' }>): number {
  if (part.name === 'where') return 0;
  if (!Array.isArray(part.data)) return CLASS_WEIGHT;
  return Math.max(0, ...part.data.map(specificityOf));
}
