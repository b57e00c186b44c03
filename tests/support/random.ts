/** Numbers in [0, 1), the same for the same seed on every machine. */
export type RandomSource = () => number;

/**
 * A seeded source of numbers: the "mulberry32" mixing of a 32-bit counter (public domain, Tommy Ettinger).
 * Good enough to scatter shapes, not for anything secret.
 */
export function randomSource(seed: number): RandomSource {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 15), z | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A whole number from 0 to `below` − 1. */
export function randomInteger(random: RandomSource, below: number): number {
  return Math.floor(random() * below);
}

/** The same items in another order (Fisher–Yates). */
export function shuffled<T>(items: readonly T[], random: RandomSource): T[] {
  const out = [...items];
  for (let i = out.length - 1; i > 0; i--) {
    const j = randomInteger(random, i + 1);
    const held = out[i];
    out[i] = out[j];
    out[j] = held;
  }
  return out;
}
