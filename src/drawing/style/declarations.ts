import { TokenType, tokenize } from '@csstools/css-tokenizer';

/** One CSS declaration. */
export interface Declaration {
  /** Lower-case property name. */
  readonly name: string;
  readonly value: string;
  readonly important: boolean;
}

/** A declaration without quotes, brackets, comments or escapes: what nearly all `style` attributes are made of. */
const SIMPLE = /^[^"'(){}[\]\\/@!]*$/;

/** Reads a declaration list (the content of a `style` attribute or of a rule); faulty parts are left out. */
export function parseDeclarations(text: string): { declarations: Declaration[]; faulty: boolean } {
  return SIMPLE.test(text) ? simpleList(text) : tokenList(text);
}

function simpleList(text: string): { declarations: Declaration[]; faulty: boolean } {
  const declarations: Declaration[] = [];
  let faulty = false;
  for (const part of text.split(';')) {
    const colon = part.indexOf(':');
    const name = part.slice(0, Math.max(colon, 0)).trim().toLowerCase();
    const value = part.slice(colon + 1).trim();
    if (colon > 0 && name !== '' && value !== '') declarations.push({ name, value, important: false });
    else if (part.trim() !== '') faulty = true;
  }
  return { declarations, faulty };
}

/** Splits by tokens, so that semicolons in strings, brackets and comments do not count. */
function tokenList(text: string): { declarations: Declaration[]; faulty: boolean } {
  const declarations: Declaration[] = [];
  let faulty = false;
  let name = '';
  let value: string[] = [];
  let state: 'name' | 'colon' | 'value' | 'skip' = 'name';
  let depth = 0;
  const finish = (): void => {
    const whole = value.join('').trim();
    const important = /!\s*important$/i.test(whole);
    const kept = important ? whole.replace(/!\s*important$/i, '').trim() : whole;
    if (state === 'value' && kept !== '') declarations.push({ name, value: kept, important });
    else if (state !== 'name') faulty = true;
    name = '';
    value = [];
    state = 'name';
  };
  for (const token of tokenize({ css: text })) {
    const [type, source] = token;
    if (type === TokenType.Comment || type === TokenType.EOF) continue;
    if (type === TokenType.Semicolon && depth === 0) {
      finish();
      continue;
    }
    depth = Math.max(0, depth + nesting(type));
    if (type === TokenType.Whitespace && state !== 'value') continue;
    if (state === 'name' && type === TokenType.Ident) {
      name = source.toLowerCase();
      state = 'colon';
    } else if (state === 'colon' && type === TokenType.Colon) state = 'value';
    else if (state === 'value') value.push(type === TokenType.Whitespace ? ' ' : source);
    else state = 'skip';
  }
  finish();
  return { declarations, faulty };
}

/** How a token changes the depth of brackets. */
export function nesting(type: TokenType): number {
  switch (type) {
    case TokenType.OpenParen:
    case TokenType.OpenSquare:
    case TokenType.OpenCurly:
    case TokenType.Function:
      return 1;
    case TokenType.CloseParen:
    case TokenType.CloseSquare:
    case TokenType.CloseCurly:
      return -1;
    default:
      return 0;
  }
}
