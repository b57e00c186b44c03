/**
 * Polynomials on [0, 1] as Bernstein coefficients: `[b0 … bn]` stands for Σ bᵢ C(n,i) tⁱ (1−t)ⁿ⁻ⁱ. The graph
 * lies in the hull of its coefficients, so their signs tell where there can be no root (Farouki, The Bernstein
 * polynomial basis: a centennial retrospective, CAGD 29, 2012).
 */
export type Bernstein = readonly number[];

/** Coefficients below this part of the scale are rounding of what they were computed from. */
const NOISE = 2 ** -46;

/** Narrowest piece of [0, 1] that is searched on: roots nearer than this come out as one. */
const NARROWEST = 2 ** -30;

/** The product of two polynomials. */
export function multiplyBernstein(a: Bernstein, b: Bernstein): number[] {
  const product = new Array<number>(a.length + b.length - 1).fill(0);
  const [m, n] = [a.length - 1, b.length - 1];
  for (let i = 0; i <= m; i++) {
    for (let j = 0; j <= n; j++) product[i + j] += binomial(m, i) * binomial(n, j) * a[i] * b[j];
  }
  return product.map((v, k) => v / binomial(m + n, k));
}

/** `x a + y b`, for polynomials with the same number of coefficients. */
export function combineBernstein(x: number, a: Bernstein, y: number, b: Bernstein): number[] {
  return a.map((v, i) => x * v + y * b[i]);
}

/** Coefficients of a polynomial given in powers of `v` in [−1, 1] (`powers[i]` for vⁱ), v = 2t − 1. */
export function bernsteinFromPowers(powers: readonly number[]): number[] {
  // Each power of (2t − 1) is raised to the full degree by factors of 1.
  const degree = powers.length - 1;
  let sum = new Array<number>(degree + 1).fill(0);
  powers.forEach((factor, i) => {
    let term: number[] = [factor];
    for (let k = 0; k < degree; k++) term = multiplyBernstein(term, k < i ? [-1, 1] : [1, 1]);
    sum = combineBernstein(1, sum, 1, term);
  });
  return sum;
}

/** The value at `t`, by de Casteljau. */
export function evaluateBernstein(b: Bernstein, t: number): number {
  const v = [...b];
  for (let n = v.length - 1; n > 0; n--) {
    for (let i = 0; i < n; i++) v[i] = v[i] * (1 - t) + v[i + 1] * t;
  }
  return v[0];
}

/**
 * All roots in (0, 1), increasing, each once: pieces without a change of sign are dropped, pieces with one are
 * searched by bisection and secant, others are halved. Roots nearer than 2⁻³⁰, and stretches where the polynomial
 * is rounding noise of `scale` (default: its largest coefficient), come out as one root in the middle. Roots at
 * exactly 0 or 1 may be missing. Zero polynomial: none.
 */
export function bernsteinRoots(b: Bernstein, scale = Math.max(...b.map(Math.abs))): number[] {
  const roots: number[] = [];
  const noise = NOISE * scale;
  const search = (piece: Bernstein, t0: number, t1: number): void => {
    const changes = signChanges(piece);
    if (changes === 0) return;
    if (changes === 1 && piece[0] !== 0 && piece[piece.length - 1] !== 0) {
      roots.push(t0 + (t1 - t0) * singleRoot(piece));
      return;
    }
    const middle = (t0 + t1) / 2;
    if (t1 - t0 <= NARROWEST || piece.every((v) => Math.abs(v) <= noise)) {
      roots.push(middle);
      return;
    }
    const [left, right] = split(piece);
    search(left, t0, middle);
    if (right[0] === 0) roots.push(middle);
    search(right, middle, t1);
  };
  if (scale > 0 && Number.isFinite(scale)) search(b, 0, 1);
  return roots;
}

/** The only root of a polynomial with values of opposite sign at 0 and 1. */
function singleRoot(b: Bernstein): number {
  let [low, high] = [0, 1];
  let [f, g] = [b[0], b[b.length - 1]];
  let side = 0;
  // Illinois' rule keeps the secant from sticking to one end; 80 steps are bisection's worst case and more.
  for (let step = 0; step < 80 && high - low > 2 ** -52; step++) {
    const secant = (low * g - high * f) / (g - f);
    const t = step % 4 === 3 || !(secant > low && secant < high) ? (low + high) / 2 : secant;
    const value = evaluateBernstein(b, t);
    if (value === 0) return t;
    if (value > 0 === g > 0) {
      [high, g] = [t, value];
      if (side > 0) f /= 2;
      side = 1;
    } else {
      [low, f] = [t, value];
      if (side < 0) g /= 2;
      side = -1;
    }
  }
  return (low + high) / 2;
}

function signChanges(b: Bernstein): number {
  let changes = 0;
  let last = 0;
  for (const v of b) {
    if (v === 0) continue;
    if (last !== 0 && v > 0 !== last > 0) changes++;
    last = v;
  }
  return changes;
}

function split(b: Bernstein): [number[], number[]] {
  const v = [...b];
  const left = [v[0]];
  const right = [v[v.length - 1]];
  for (let n = v.length - 1; n > 0; n--) {
    for (let i = 0; i < n; i++) v[i] = (v[i] + v[i + 1]) / 2;
    left.push(v[0]);
    right.push(v[n - 1]);
  }
  return [left, right.reverse()];
}

function binomial(n: number, k: number): number {
  let value = 1;
  for (let i = 1; i <= k; i++) value = (value * (n - k + i)) / i;
  return value;
}
