import { normalDeviate, twoSidedP } from './gamma.ts';
import { inverse, solve } from './solve.ts';

/** Subjects who share every covariate, together. */
export interface Cell {
  /** Values of the covariates, in the order of their names. */
  readonly values: readonly number[];
  readonly events: number;
  readonly exposure: number;
}

/** A hazard ratio: what one unit more of the covariate multiplies the rate by, the others the same. */
export interface Ratio {
  readonly name: string;
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
  readonly p: number;
}

const MOST_TURNS = 60;
const STILL = 1e-10;
/** A log ratio beyond this is running away: its covariate divides events from none. */
const RUNAWAY = 15;

/**
 * Log-linear regression of a rate (Poisson, log of the exposure as offset; one constant hazard
 * within each cell) by Newton's method, with Wald intervals at `level`. The first covariate should
 * be the constant 1. Null when it does not converge: too few events, or covariates that say the same.
 * Source: Frome EL. Biometrics 1983;39:665-674 (from memory).
 */
export function rateRegression(
  names: readonly string[],
  cells: readonly Cell[],
  level = 0.95,
): readonly Ratio[] | null {
  const used = cells.filter(({ exposure }) => exposure > 0);
  const events = used.reduce((sum, cell) => sum + cell.events, 0);
  const exposure = used.reduce((sum, cell) => sum + cell.exposure, 0);
  if (events === 0) return null;
  let beta = names.map((_, i) => (i === 0 ? Math.log(events / exposure) : 0));
  for (let turn = 0; turn < MOST_TURNS; turn += 1) {
    const { score, information } = derivatives(used, beta);
    const step = solve(information, score);
    if (step === null) return null;
    const largest = Math.max(...step.map(Math.abs));
    // A long step would overshoot into numbers that overflow.
    const damp = largest > 2 ? 2 / largest : 1;
    beta = beta.map((value, i) => value + damp * (step[i] ?? 0));
    if (beta.slice(1).some((value) => Math.abs(value) > RUNAWAY)) return null;
    if (largest < STILL) return ratios(names, beta, information, normalDeviate(level));
  }
  return null;
}

function derivatives(cells: readonly Cell[], beta: readonly number[]) {
  const score = beta.map(() => 0);
  const information = beta.map(() => beta.map(() => 0));
  for (const { values, events, exposure } of cells) {
    const linear = values.reduce((sum, value, i) => sum + value * (beta[i] ?? 0), 0);
    const expected = exposure * Math.exp(linear);
    for (const [i, value] of values.entries()) {
      if (value === 0) continue;
      score[i] = (score[i] ?? 0) + value * (events - expected);
      const row = information[i] ?? [];
      for (const [j, other] of values.entries()) row[j] = (row[j] ?? 0) + value * other * expected;
    }
  }
  return { score, information };
}

function ratios(
  names: readonly string[],
  beta: readonly number[],
  information: readonly (readonly number[])[],
  z: number,
): readonly Ratio[] | null {
  const covariance = inverse(information);
  if (covariance === null) return null;
  return names.map((name, i) => {
    const value = beta[i] ?? 0;
    const se = Math.sqrt(covariance[i]?.[i] ?? 0);
    return {
      name,
      ratio: Math.exp(value),
      lower: Math.exp(value - z * se),
      upper: Math.exp(value + z * se),
      p: twoSidedP(value / se),
    };
  });
}
