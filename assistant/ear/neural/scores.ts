import { LOGITS } from './network.ts';

/** Below this distance from the largest even 32,768 exponentials change the sum by a hundredth. */
const NEGLIGIBLE = 15;

/** The scores of one row and what normalises them: log p(token) = logits[token] - norm. */
export interface Row {
  readonly logits: Float32Array;
  readonly norm: number;
}

/**
 * Row `index` of a step's scores; `except` is a token that is out of the question: the others are as
 * likely as they would be if there were none.
 */
export function rowOf(all: Float32Array, index: number, except: number | null = null): Row {
  const own = all.subarray(index * LOGITS, (index + 1) * LOGITS);
  if (except === null) return { logits: own, norm: 0 };
  const logits = own.slice();
  logits[except] = -Infinity;
  return { logits, norm: logSum(logits) };
}

/** Natural logarithm of the sum of the exponentials. */
export function logSum(logits: Float32Array): number {
  // Indexed loops: there are as many as the vocabulary has tokens.
  let largest = -Infinity;
  for (let token = 0; token < logits.length; token++) {
    const value = logits[token] ?? -Infinity;
    if (value > largest) largest = value;
  }
  let sum = 0;
  const floor = largest - NEGLIGIBLE;
  for (let token = 0; token < logits.length; token++) {
    const value = logits[token] ?? -Infinity;
    if (value > floor) sum += Math.exp(value - largest);
  }
  return largest + Math.log(sum);
}

/** Natural logarithm of the probability of `token`. */
export function logProbability(row: Row, token: number): number {
  return (row.logits[token] ?? -Infinity) - row.norm;
}

/** The likeliest token. */
export function likeliest(row: Row): number {
  let best = 0;
  let largest = -Infinity;
  for (let token = 0; token < LOGITS; token++) {
    const value = row.logits[token] ?? -Infinity;
    if (value > largest) {
      largest = value;
      best = token;
    }
  }
  return best;
}
