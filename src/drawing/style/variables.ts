/** Custom properties (`--name`) that an element has. */
export type Variables = ReadonlyMap<string, string>;

export const NO_VARIABLES: Variables = new Map();

/** A value longer than this, or with more references in each other, is not worked out. */
const MAX_LENGTH = 1000;
const MAX_ROUNDS = 10;

/** An innermost `var()`. */
const REFERENCE = /var\(\s*(--[^\s,()]+)\s*(?:,([^()]*(?:\([^()]*\)[^()]*)*))?\)/g;

/**
 * Replaces `var()` in declarations by what they stand for (CSS Custom Properties 1), in place, and returns the
 * custom properties in force inside the element. A declaration with a reference that leads nowhere is void.
 */
export function resolveVariables(declared: Map<string, string>, outer: Variables): Variables {
  let own: Map<string, string> | null = null;
  for (const name of declared.keys()) {
    if (!name.startsWith('--')) continue;
    own ??= new Map(outer);
    own.set(name, declared.get(name)!);
  }
  const variables = own ?? outer;
  for (const name of declared.keys()) {
    const value = declared.get(name)!;
    if (name.startsWith('--') || !value.includes('var(')) continue;
    const resolved = replaceAll(value, variables);
    if (resolved === null) declared.delete(name);
    else declared.set(name, resolved);
  }
  return variables;
}

function replaceAll(value: string, variables: Variables): string | null {
  let text = value;
  for (let round = 0; round < MAX_ROUNDS && text.length <= MAX_LENGTH; round++) {
    if (!text.includes('var(')) return text.trim();
    let missing = false;
    text = text.replace(REFERENCE, (_, name: string, fallback: string | undefined) => {
      const found = variables.get(name) ?? fallback;
      if (found === undefined) missing = true;
      return found ?? '';
    });
    if (missing) return null;
  }
  return null;
}
