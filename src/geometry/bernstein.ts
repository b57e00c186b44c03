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
  const product: number[] = [];
  for (let k = a.length + b.length - 2; k >= 0; k--) product.push(0);
  addProduct(a, b, product);
  return product;
}

/** Adds the product of two polynomials to a third, which has the degree of that product. */
export function addProduct(a: Bernstein, b: Bernstein, sum: number[]): void {
  const m = a.length - 1;
  const n = b.length - 1;
  const rowA = binomials(m);
  const rowB = binomials(n);
  const row = binomials(m + n);
  for (let k = 0; k <= m + n; k++) {
    let part = 0;
    const last = k < m ? k : m;
    for (let i = k > n ? k - n : 0; i <= last; i++) part += rowA[i] * rowB[k - i] * a[i] * b[k - i];
    sum[k] += part / row[k];
  }
}

/** `x a + y b`, for polynomials with the same number of coefficients. */
export function combineBernstein(x: number, a: Bernstein, y: number, b: Bernstein): number[] {
  const sum: number[] = [];
  for (let i = 0; i < a.length; i++) sum.push(x * a[i] + y * b[i]);
  return sum;
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
  return evaluateIn([...b], b, t);
}

/** The same, with room for the steps. */
function evaluateIn(v: number[], b: Bernstein, t: number): number {
  const degree = b.length - 1;
  const u = 1 - t;
  for (let i = 0; i < degree; i++) v[i] = b[i] * u + b[i + 1] * t;
  for (let n = degree - 1; n > 0; n--) {
    for (let i = 0; i < n; i++) v[i] = v[i] * u + v[i + 1] * t;
  }
  return degree === 0 ? b[0] : v[0];
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
  const room = [...b];
  let low = 0;
  let high = 1;
  let f = b[0];
  let g = b[b.length - 1];
  let side = 0;
  // Illinois' rule keeps the secant from sticking to one end; 80 steps are bisection's worst case and more.
  for (let step = 0; step < 80 && high - low > 2 ** -52; step++) {
    const secant = (low * g - high * f) / (g - f);
    const t = step % 4 === 3 || !(secant > low && secant < high) ? (low + high) / 2 : secant;
    const value = evaluateIn(room, b, t);
    if (value === 0) return t;
    if (value > 0 === g > 0) {
      high = t;
      g = value;
      if (side > 0) f /= 2;
      side = 1;
    } else {
      low = t;
      f = value;
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

/** Binomial coefficients of small degrees, by row. */
const BINOMIALS: readonly (readonly number[])[] = Array.from({ length: 16 }, (_, n) => binomialRow(n));

function binomials(n: number): readonly number[] {
  return n < BINOMIALS.length ? BINOMIALS[n] : binomialRow(n);
}

function binomialRow(n: number): number[] {
  const row = [1];
  for (let k = 1; k <= n; k++) row.push((row[k - 1] * (n - k + 1)) / k);
  return row;
}
