import { LOGITS } from './network.ts';

/** Below this distance from the largest, an exponential adds less than 32-bit rounding. */
const NEGLIGIBLE = 20;

/** The scores of one row and what normalises them: log p(token) = logits[token] - norm. */
export interface Row {
  readonly logits: Float32Array;
  readonly norm: number;
}

/** Row `index` of a step's scores, with its log-sum-exp. */
export function rowOf(all: Float32Array, index: number): Row {
  const logits = all.subarray(index * LOGITS, (index + 1) * LOGITS);
  let largest = -Infinity;
  for (const value of logits) if (value > largest) largest = value;
  let sum = 0;
  const floor = largest - NEGLIGIBLE;
  for (const value of logits) if (value > floor) sum += Math.exp(value - largest);
  return { logits, norm: largest + Math.log(sum) };
}

/** Natural logarithm of the probability of `token`. */
export function logProbability(row: Row, token: number): number {
  return (row.logits[token] ?? -Infinity) - row.norm;
}

/** The likeliest token. */
export function likeliest(row: Row): number {
  let best = 0;
  let largest = -Infinity;
  row.logits.forEach((value, token) => {
    if (value > largest) {
      largest = value;
      best = token;
    }
  });
  return best;
}
