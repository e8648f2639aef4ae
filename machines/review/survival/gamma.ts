/** Lanczos' coefficients for g = 7, n = 9 (from memory; the outside tests hold the results to another program's). */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313,
  -176.61502916214059, 12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6,
  1.5056327351493116e-7,
] as const;
const TINY = 1e-300;
const ENOUGH = 1e-15;
const MOST_TERMS = 10_000;

/** Natural logarithm of the gamma function, for x > 0. */
function lnGamma(x: number): number {
  const z = x - 1;
  const sum = LANCZOS.reduce<number>((so, c, i) => so + (i === 0 ? c : c / (z + i)), 0);
  const t = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Lower regularised incomplete gamma by its series; good for x < a + 1. */
function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_TERMS && term > sum * ENOUGH; n += 1) {
    term *= x / (a + n);
    sum += term;
  }
  return sum * Math.exp(-x + a * Math.log(x) - lnGamma(a));
}

/** Upper regularised incomplete gamma by its continued fraction (Lentz); good for x >= a + 1. */
function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < MOST_TERMS; n += 1) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (Math.abs(an * d + b) < TINY ? TINY : an * d + b);
    c = Math.abs(b + an / c) < TINY ? TINY : b + an / c;
    h *= d * c;
    if (Math.abs(d * c - 1) < ENOUGH) break;
  }
  return h * Math.exp(-x + a * Math.log(x) - lnGamma(a));
}

/** Probability that a chi-square variable with `df` degrees of freedom exceeds `x`. @throws RangeError for df <= 0. */
export function chiSquareP(x: number, df: number): number {
  if (!(df > 0)) throw new RangeError(`Degrees of freedom must be above 0, not ${df}.`);
  if (x <= 0) return 1;
  const a = df / 2;
  return x / 2 < a + 1 ? 1 - series(a, x / 2) : fraction(a, x / 2);
}

/** The value that a chi-square variable with `df` degrees of freedom exceeds with probability `p`, 0 < p < 1. */
export function chiSquareAbove(p: number, df: number): number {
  let low = 0;
  let high = Math.max(1, df);
  while (chiSquareP(high, df) > p) high *= 2;
  for (let turns = 0; turns < 200 && high - low > ENOUGH * high; turns += 1) {
    const middle = (low + high) / 2;
    if (chiSquareP(middle, df) > p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The normal deviate z with P(|Z| <= z) = `level`: 1.959964 for 0.95. */
export function normalDeviate(level: number): number {
  return Math.sqrt(chiSquareAbove(1 - level, 1));
}

/** P(|Z| >= |z|) for a standard normal Z. */
export function twoSidedP(z: number): number {
  return chiSquareP(z * z, 1);
}
