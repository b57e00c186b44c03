import type { Selector } from 'css-what';
import { isSvg, SVG_NAMESPACE, type XmlElement } from '../xml/xml-tree.js';
import type { ParsedSelector } from './selector.js';

/** Counts comparisons (a long attribute is more than one); called before each. Throws when there are too many. */
export type CountStep = (steps?: number) => void;

/** Characters of an attribute that weigh as much as a comparison. */
const CHARACTERS_PER_STEP = 64;

/** Whether an element matches a selector. */
export function matchesSelector(element: XmlElement, selector: ParsedSelector, count: CountStep): boolean {
  return matchesFrom(element, selector, 0, count);
}

/** Matches compounds from number `at` leftwards; depth of calls is the number of combinators. */
function matchesFrom(element: XmlElement, selector: ParsedSelector, at: number, count: CountStep): boolean {
  const { tests, relation } = selector.compounds[at];
  count();
  if (!tests.every((test) => matchesTest(element, test, count))) return false;
  if (relation === null) return true;
  const next = (candidate: XmlElement): boolean => matchesFrom(candidate, selector, at + 1, count);
  switch (relation) {
    case 'child':
      return element.parent !== null && next(element.parent);
    case 'descendant': {
      for (let around = element.parent; around !== null; around = around.parent)
        if (next(around)) return true;
      return false;
    }
    case 'adjacent': {
      const before = siblings(element, count);
      const place = before.indexOf(element);
      return place > 0 && next(before[place - 1]);
    }
    case 'sibling': {
      const all = siblings(element, count);
      return all.slice(0, all.indexOf(element)).some(next);
    }
  }
}

function siblings(element: XmlElement, count: CountStep): XmlElement[] {
  const list: XmlElement[] = [];
  for (const node of element.parent?.children ?? [element]) {
    count();
    if (typeof node !== 'string') list.push(node);
  }
  return list;
}

function matchesTest(element: XmlElement, test: Selector, count: CountStep): boolean {
  switch (test.type) {
    case 'universal':
      return true;
    case 'tag':
      return (
        element.name === test.name && (test.namespace === null || test.namespace === '*' || isSvg(element))
      );
    case 'attribute':
      count(1 + (element.attributes[test.name]?.length ?? 0) / CHARACTERS_PER_STEP);
      return matchesAttribute(element.attributes[test.name], test);
    case 'pseudo':
      return matchesPseudo(element, test, count);
    default:
      return false;
  }
}

function matchesAttribute(
  given: string | undefined,
  test: Extract<Selector, { type: 'attribute' }>,
): boolean {
  if (given === undefined) return false;
  const fold = test.ignoreCase === true;
  const value = fold ? given.toLowerCase() : given;
  const wanted = fold ? test.value.toLowerCase() : test.value;
  switch (test.action) {
    case 'exists':
      return true;
    case 'equals':
      return value === wanted;
    case 'element':
      return wanted !== '' && ` ${value.replace(/\s+/g, ' ')} `.includes(` ${wanted} `);
    case 'hyphen':
      return value === wanted || value.startsWith(`${wanted}-`);
    case 'start':
      return wanted !== '' && value.startsWith(wanted);
    case 'end':
      return wanted !== '' && value.endsWith(wanted);
    case 'any':
      return wanted !== '' && value.includes(wanted);
    default:
      return value !== wanted;
  }
}

function matchesPseudo(
  element: XmlElement,
  test: Extract<Selector, { type: 'pseudo' }>,
  count: CountStep,
): boolean {
  if (Array.isArray(test.data)) {
    const any = test.data.some((list) => list.every((part) => matchesTest(element, part, count)));
    if (test.name === 'not') return !any;
    return (test.name === 'is' || test.name === 'where' || test.name === 'matches') && any;
  }
  switch (test.name) {
    case 'root':
      return element.parent === null;
    case 'empty':
      return element.children.length === 0;
    case 'first-child':
      return siblings(element, count)[0] === element;
    case 'last-child':
      return siblings(element, count).at(-1) === element;
    case 'only-child':
      return siblings(element, count).length === 1;
    case 'first-of-type':
      return siblings(element, count).find((other) => other.name === element.name) === element;
    case 'last-of-type':
      return siblings(element, count).findLast((other) => other.name === element.name) === element;
    case 'nth-child':
      return isNth(siblings(element, count).indexOf(element) + 1, test.data ?? '');
    case 'link':
    case 'any-link':
      return element.name === 'a' && element.namespace === SVG_NAMESPACE;
    default:
      // :hover and its kin never hold on paper.
      return false;
  }
}

/** Whether `place`, from 1, is one of `an + b`. */
function isNth(place: number, formula: string): boolean {
  const text = formula.replace(/\s+/g, '').toLowerCase();
  if (text === 'odd') return place % 2 === 1;
  if (text === 'even') return place % 2 === 0;
  const found = /^(?:([+-]?\d*)n)?([+-]?\d+)?$/.exec(text);
  if (!found || text === '') return false;
  const [, step, offset] = found;
  const b = Number(offset ?? 0);
  if (step === undefined) return place === b;
  const a = step === '' || step === '+' ? 1 : step === '-' ? -1 : Number(step);
  const steps = place - b;
  return a === 0 ? steps === 0 : steps % a === 0 && steps / a >= 0;
}
