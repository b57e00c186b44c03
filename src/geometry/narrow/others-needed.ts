/** A cut between two loops of a boundary; both ends on one loop part the area at once. */
export interface LoopCut {
  readonly loop: number;
  readonly other: number;
}

/** Most cuts together that are looked for: a part held at more places than this is held well. */
export const MOST_CUTS = 8;

/**
 * For each cut, how many of the other cuts must be made with it to part the area: 0 when it does so by itself,
 * null when no 7 others do. Cuts part the area when they form a closed chain of loops, so this is the
 * shortest such chain through the cut, found by breadth-first search over the loops.
 */
export function othersNeeded(cuts: readonly LoopCut[]): (number | null)[] {
  const at = new Map<number, number[]>();
  const list = (loop: number): number[] => {
    const found = at.get(loop) ?? [];
    at.set(loop, found);
    return found;
  };
  cuts.forEach(({ loop, other }, k) => {
    if (loop === other) return;
    list(loop).push(k);
    list(other).push(k);
  });
  return cuts.map(({ loop, other }, k) => (loop === other ? 0 : chainLength(cuts, at, k)));
}

function chainLength(
  cuts: readonly LoopCut[],
  at: ReadonlyMap<number, readonly number[]>,
  without: number,
): number | null {
  const goal = cuts[without].other;
  const seen = new Set([cuts[without].loop]);
  let front = [cuts[without].loop];
  for (let steps = 1; steps < MOST_CUTS && front.length > 0; steps++) {
    const next: number[] = [];
    for (const loop of front) {
      for (const k of at.get(loop) ?? []) {
        if (k === without) continue;
        const beyond = cuts[k].loop === loop ? cuts[k].other : cuts[k].loop;
        if (beyond === goal) return steps;
        if (seen.has(beyond)) continue;
        seen.add(beyond);
        next.push(beyond);
      }
    }
    front = next;
  }
  return null;
}
