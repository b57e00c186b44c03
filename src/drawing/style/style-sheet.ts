import { type CSSToken, TokenType, tokenize } from '@csstools/css-tokenizer';
import { type Declaration, nesting, parseDeclarations } from './declarations.js';
import { mediaMatches } from './media.js';

/** A rule of a style sheet: its selectors as written, its declarations. */
export interface SheetRule {
  readonly selectors: readonly string[];
  readonly declarations: readonly Declaration[];
}

/** What is left out of a style sheet, for a finding. */
export interface SheetFault {
  readonly kind: 'import' | 'at-rule' | 'faulty';
  readonly text: string;
}

/** At-rules that cannot change what is seen as a line. */
const HARMLESS = new Set([
  '@charset',
  '@namespace',
  '@font-face',
  '@page',
  '@keyframes',
  '@-webkit-keyframes',
  '@property',
]);

/** At-rules whose inside counts as if it stood outside. */
const TRANSPARENT = new Set(['@layer']);

/**
 * Reads a style sheet into rules in order, those of `@media` blocks that match `medium` included. Nothing is
 * imported. What cannot be read is left out, by the error handling of CSS Syntax 3, and reported to `fault`.
 */
export function parseStyleSheet(
  css: string,
  medium: 'print' | 'screen',
  fault: (fault: SheetFault) => void,
): SheetRule[] {
  const rules: SheetRule[] = [];
  const tokens = tokenize({ css });
  let i = 0;
  // Blocks of at-rules that apply are walked into, so this counts their closing brackets.
  let open = 0;
  while (i < tokens.length && tokens[i][0] !== TokenType.EOF) {
    const type = tokens[i][0];
    if (isBlank(type) || type === TokenType.CDO || type === TokenType.CDC || type === TokenType.Semicolon) {
      i++;
      continue;
    }
    if (type === TokenType.CloseCurly) {
      if (open === 0) fault({ kind: 'faulty', text: '}' });
      open = Math.max(0, open - 1);
      i++;
      continue;
    }
    const atRule = type === TokenType.AtKeyword;
    const prelude = findEnd(tokens, i, atRule);
    const head = textBetween(tokens, i, prelude);
    const hasBlock = tokens[prelude]?.[0] === TokenType.OpenCurly;
    if (atRule) {
      const name = tokens[i][1].toLowerCase();
      if (hasBlock && (TRANSPARENT.has(name) || (name === '@media' && mediaMatches(head.slice(6), medium)))) {
        open++;
        i = prelude + 1;
        continue;
      }
      if (name === '@import') fault({ kind: 'import', text: head });
      else if (name !== '@media' && !HARMLESS.has(name)) fault({ kind: 'at-rule', text: head });
      i = hasBlock ? blockEnd(tokens, prelude) + 1 : prelude + 1;
      continue;
    }
    if (!hasBlock) {
      fault({ kind: 'faulty', text: head });
      i = prelude + 1;
      continue;
    }
    const end = blockEnd(tokens, prelude);
    const { declarations, faulty } = parseDeclarations(textBetween(tokens, prelude + 1, end));
    if (faulty) fault({ kind: 'faulty', text: head });
    rules.push({ selectors: splitSelectors(tokens, i, prelude), declarations });
    i = end + 1;
  }
  return rules;
}

function isBlank(type: TokenType): boolean {
  return type === TokenType.Whitespace || type === TokenType.Comment;
}

/** The index of the `{` that ends a prelude, of the `;` that ends an at-rule without block, or of the end. */
function findEnd(tokens: readonly CSSToken[], start: number, atRule: boolean): number {
  let depth = 0;
  for (let i = start; i < tokens.length; i++) {
    const type = tokens[i][0];
    if (type === TokenType.EOF || (depth === 0 && type === TokenType.OpenCurly)) return i;
    if (depth === 0 && (type === TokenType.CloseCurly || (atRule && type === TokenType.Semicolon))) return i;
    depth = Math.max(0, depth + nesting(type));
  }
  return tokens.length;
}

/** The index of the bracket that closes the block opened at `start`, or of the end. */
function blockEnd(tokens: readonly CSSToken[], start: number): number {
  let depth = 0;
  for (let i = start; i < tokens.length; i++) {
    const type = tokens[i][0];
    if (type === TokenType.EOF) return i;
    if (type === TokenType.OpenCurly) depth++;
    else if (type === TokenType.CloseCurly && --depth === 0) return i;
  }
  return tokens.length;
}

function textBetween(tokens: readonly CSSToken[], start: number, end: number): string {
  const parts: string[] = [];
  for (let i = start; i < end; i++) parts.push(tokens[i][0] === TokenType.Comment ? ' ' : tokens[i][1]);
  return parts.join('').trim();
}

/** Parts a list of selectors at the commas outside of brackets. */
function splitSelectors(tokens: readonly CSSToken[], start: number, end: number): string[] {
  const selectors: string[] = [];
  let depth = 0;
  let from = start;
  for (let i = start; i < end; i++) {
    depth = Math.max(0, depth + nesting(tokens[i][0]));
    if (depth > 0 || tokens[i][0] !== TokenType.Comma) continue;
    selectors.push(textBetween(tokens, from, i));
    from = i + 1;
  }
  selectors.push(textBetween(tokens, from, end));
  return selectors;
}
