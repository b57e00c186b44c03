/** Edits (insert, remove, replace one letter) that turn `a` into `b`. */
function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const swap = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      next.push(Math.min(row[j] + 1, next[j - 1] + 1, swap));
    }
    row = next;
  }
  return row[b.length];
}

/** The known name that was probably meant, or null: a third of its letters, rounded up, may differ. */
export function nearestName(wrong: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const name of known) {
    const edits = editDistance(wrong, name);
    if (edits < least && edits <= Math.ceil(name.length / 3)) {
      best = name;
      least = edits;
    }
  }
  return best;
}
