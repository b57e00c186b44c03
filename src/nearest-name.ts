import { PlystepError } from './error.js';

/** The share of a name's letters, rounded up, that may be wrong for it to be suggested. */
const WRONG_LETTERS = 1 / 3;

/** The known name that is nearest to a mistyped one, or null where none is near. */
export function nearestName(typed: string, known: readonly string[]): string | null {
  if (typeof typed !== 'string' || !Array.isArray(known) || known.some((name) => typeof name !== 'string'))
    throw new PlystepError('bad-option', 'nearestName: a text and a list of texts are needed.');
  let best: string | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (const name of known) {
    const edits = editsBetween(typed.toLowerCase(), name.toLowerCase());
    if (edits < fewest && edits <= Math.ceil(name.length * WRONG_LETTERS)) {
      best = name;
      fewest = edits;
    }
  }
  return best;
}

/** Letters to insert, take out or replace (Levenshtein 1965). */
function editsBetween(a: string, b: string): number {
  let above = [...Array(b.length + 1).keys()];
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = above[j - 1] + Number(a[i - 1] !== b[j - 1]);
      row.push(Math.min(row[j - 1] + 1, above[j] + 1, replaced));
    }
    above = row;
  }
  return above[b.length];
}
