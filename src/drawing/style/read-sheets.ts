import type { FindingLog } from '../finding-log.js';
import { limitError, type ResolvedReadOptions } from '../read-options.js';
import { isSvg, placeOf, textOf, type XmlElement } from '../xml/xml-tree.js';
import type { SheetLookup } from './cascade.js';
import type { Declaration } from './declarations.js';
import { matchesSelector } from './match-selector.js';
import { mediaMatches } from './media.js';
import { type ParsedSelector, parseSelector } from './selector.js';
import { parseStyleSheet, type SheetFault } from './style-sheet.js';

interface RankedRule {
  readonly selector: ParsedSelector;
  readonly declarations: readonly Declaration[];
  readonly order: number;
}

const NONE: readonly Declaration[] = [];

/** Reads all `style` elements of a file; the result finds the declarations for an element, weakest first. */
export function readSheets(
  elements: readonly XmlElement[],
  options: ResolvedReadOptions,
  log: FindingLog,
): SheetLookup {
  const rules: RankedRule[] = [];
  for (const element of elements) {
    if (element.name === 'style' && isSvg(element)) addSheet(element, rules, options, log);
  }
  if (rules.length === 0) return () => NONE;
  const index = indexRules(rules);
  let steps = 0;
  const count = (more = 1): void => {
    steps += more;
    if (steps > options.limits.selectorSteps) {
      throw limitError('selectorSteps', options.limits, 'Matching the style sheets takes too long');
    }
  };
  return (element) => {
    const found: RankedRule[] = [];
    for (const rule of candidates(element, index)) {
      if (matchesSelector(element, rule.selector, count)) found.push(rule);
    }
    if (found.length === 0) return NONE;
    found.sort((a, b) => a.selector.specificity - b.selector.specificity || a.order - b.order);
    return found.flatMap((rule) => rule.declarations);
  };
}

function addSheet(
  element: XmlElement,
  rules: RankedRule[],
  options: ResolvedReadOptions,
  log: FindingLog,
): void {
  const { type, media } = element.attributes;
  if (type !== undefined && !/^\s*(text\/css)?\s*(;.*)?$/i.test(type)) {
    log.add({
      rule: 'style-fault',
      level: 'warning',
      message: `A style sheet of the type "${type.slice(0, 40)}" is not CSS and is left out.`,
      source: placeOf(element),
    });
    return;
  }
  if (media !== undefined && !mediaMatches(media, options.media)) return;
  const report = (fault: SheetFault): void => addFault(fault, element, log);
  for (const rule of parseStyleSheet(textOf(element), options.media, report)) {
    for (const text of rule.selectors) {
      const selector = parseSelector(text);
      if (selector === null) report({ kind: 'faulty', text });
      else rules.push({ selector, declarations: rule.declarations, order: rules.length });
      if (rules.length > options.limits.selectors) {
        throw limitError('selectors', options.limits, 'The style sheets have too many selectors');
      }
    }
  }
}

function addFault(fault: SheetFault, element: XmlElement, log: FindingLog): void {
  const text = fault.text.replace(/\s+/g, ' ').slice(0, 60);
  if (fault.kind === 'import') {
    log.add({
      rule: 'external-ignored',
      level: 'warning',
      message: `"${text}" in a style sheet is not read; no file or address is ever opened.`,
      source: placeOf(element),
    });
    return;
  }
  log.add({
    rule: 'style-fault',
    level: 'warning',
    message: `"${text}" in a style sheet ${fault.kind === 'at-rule' ? 'is not applied' : 'cannot be read and is left out, or in part'}.`,
    source: placeOf(element),
  });
}

/** Rules by what their rightmost compound asks for, so that few have to be tried on an element. */
interface RuleIndex {
  readonly byId: Map<string, RankedRule[]>;
  readonly byClass: Map<string, RankedRule[]>;
  readonly byType: Map<string, RankedRule[]>;
  readonly others: RankedRule[];
}

function indexRules(rules: readonly RankedRule[]): RuleIndex {
  const index: RuleIndex = { byId: new Map(), byClass: new Map(), byType: new Map(), others: [] };
  const file = (map: Map<string, RankedRule[]>, key: string, rule: RankedRule): void => {
    const list = map.get(key);
    if (list) list.push(rule);
    else map.set(key, [rule]);
  };
  for (const rule of rules) {
    const { tests } = rule.selector.compounds[0];
    const id = tests.find((t) => t.type === 'attribute' && t.name === 'id' && t.action === 'equals');
    const named = tests.find((t) => t.type === 'attribute' && t.name === 'class' && t.action === 'element');
    const type = tests.find((t) => t.type === 'tag');
    if (id?.type === 'attribute' && id.ignoreCase !== true) file(index.byId, id.value, rule);
    else if (named?.type === 'attribute' && named.ignoreCase !== true) file(index.byClass, named.value, rule);
    else if (type?.type === 'tag') file(index.byType, type.name, rule);
    else index.others.push(rule);
  }
  return index;
}

function* candidates(element: XmlElement, index: RuleIndex): Generator<RankedRule> {
  yield* index.others;
  yield* index.byType.get(element.name) ?? [];
  const { id, class: classes } = element.attributes;
  if (id !== undefined) yield* index.byId.get(id) ?? [];
  if (classes === undefined) return;
  for (const name of new Set(classes.trim().split(/\s+/))) yield* index.byClass.get(name) ?? [];
}
