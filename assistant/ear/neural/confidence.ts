import type { Decoded, Path } from './beam.ts';

/**
 * Confidence below which nothing is heard. Measured with the weights below; `docs/hearing.md` says
 * on what, and what it lets through.
 */
export const THRESHOLD = 0.6;

/** What separates speech inside the grammar from speech outside it, for the best path. */
export interface Evidence {
  /** Log-probability short of the free transcript's, per token; 0 where they agree. */
  readonly margin: number;
  /** The least likely token's log-probability. */
  readonly worst: number;
  /** Log-probability above that of the same words over near-silence, per token. */
  readonly heard: number;
  /** The same, in all: tens, at most {@link MOST_HEARD}. */
  readonly heardInAll: number;
  /** Lead over the next phrase: 0 to 1, 1 being 10 or more. */
  readonly lead: number;
  /** Tenths of a second of sound for each letter, at most {@link SLOWEST}. */
  readonly slowness: number;
}

const MOST_HEARD = 6;
const SLOWEST = 3;

// A logistic regression over {@link Evidence}.
const WEIGHTS: Evidence = {
  margin: 0.529,
  worst: 0.223,
  heard: 0.772,
  heardInAll: 0.778,
  lead: 1,
  slowness: -0.463,
};
const BIAS = -1.586;

/** The evidence for the best path of a segment of `seconds`; decoding must have found a path. */
export function evidence({ paths, free }: Decoded, best: Path, seconds: number): Evidence {
  const steps = best.tokens.length + 1;
  const gain = best.likelihood - best.prior;
  const letters = best.words.join(' ').length;
  const next = paths[1]?.score ?? -Infinity;
  return {
    margin: (best.likelihood - free.likelihood) / steps,
    worst: best.worst,
    heard: gain / steps,
    heardInAll: Math.min(MOST_HEARD, gain / 10),
    lead: Math.min(1, (best.score - next) / 10),
    slowness: Math.min(SLOWEST, (seconds * 10) / Math.max(4, letters)),
  };
}

/** Confidence from 0 to 1 that what `found` describes was said. */
export function confidence(found: Evidence): number {
  const sum =
    WEIGHTS.margin * found.margin +
    WEIGHTS.worst * found.worst +
    WEIGHTS.heard * found.heard +
    WEIGHTS.heardInAll * found.heardInAll +
    WEIGHTS.lead * found.lead +
    WEIGHTS.slowness * found.slowness;
  return 1 / (1 + Math.exp(-sum - BIAS));
}
