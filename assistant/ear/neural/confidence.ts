import type { Decoded, Path } from './beam.ts';

/**
 * Confidence below which nothing is heard. Measured with the weights below; `docs/hearing.md` says
 * on what, and what it lets through.
 */
export const THRESHOLD = 0.55;
/** From here up to {@link THRESHOLD} what was heard is worth asking back. */
export const ASKED_FROM = 0.15;
/** From here on a first look is believed, unless too little was heard for so much sound. */
const SURE = 0.85;
/** Below this a first look at clear speech finds nothing that a second one would make believable. */
const HOPELESS = 0.02;
/** So few tokens are no transcript: a stop, or the first of a word. */
const NOTHING_WRITTEN = 1;
/** So little heard, in tens, while so many seconds stay unsaid: more was said than was found. */
const LITTLE_HEARD = 3.5;
const MUCH_UNSAID = 0.35;

/** What separates speech inside the grammar from speech outside it, for the best path. */
export interface Evidence {
  /** Log-probability short of the free transcript's, per token; 0 where they agree. */
  readonly margin: number;
  /** Log-probability above that of the same words over near-silence, per token. */
  readonly heard: number;
  /** The same, in all: tens, at most {@link MOST_HEARD}. */
  readonly heardInAll: number;
  /** Lead over the next phrase: 0 to 1, 1 being 10 or more. */
  readonly lead: number;
  /** Seconds of sound beyond what the words take, at most {@link MOST_UNSAID}. */
  readonly unsaid: number;
}

const MOST_HEARD = 6;
const MOST_UNSAID = 2;
/** Seconds of quiet that a segment holds, and those a letter takes when it is said slowly. */
const AROUND = 0.55;
const LETTER = 0.075;

// A logistic regression over {@link Evidence}.
const WEIGHTS: Evidence = {
  margin: 0.925,
  heard: 0.522,
  heardInAll: 1.675,
  lead: 1.795,
  unsaid: -2.541,
};
const BIAS = -4.22;

/** The evidence for the best path of a segment of `seconds`; decoding must have found a path. */
export function evidence({ paths, free }: Decoded, best: Path, seconds: number): Evidence {
  const steps = best.tokens.length + 1;
  const gain = best.likelihood - best.prior;
  const letters = best.words.join(' ').length;
  const next = paths[1]?.score ?? -Infinity;
  return {
    margin: (best.likelihood - free.likelihood) / steps,
    heard: gain / steps,
    heardInAll: Math.min(MOST_HEARD, gain / 10),
    lead: Math.min(1, (best.score - next) / 10),
    // In noise the model would rather end: a bare call sign does not take two seconds.
    unsaid: Math.min(MOST_UNSAID, Math.max(0, seconds - AROUND - LETTER * letters)),
  };
}

/** Confidence from 0 to 1 that what `found` describes was said. */
export function confidence(found: Evidence): number {
  const sum =
    WEIGHTS.margin * found.margin +
    WEIGHTS.heard * found.heard +
    WEIGHTS.heardInAll * found.heardInAll +
    WEIGHTS.lead * found.lead +
    WEIGHTS.unsaid * found.unsaid;
  return 1 / (1 + Math.exp(-sum - BIAS));
}

/**
 * Whether a first look is worth a second one, given what it found with confidence `score` (null and
 * 0 for nothing) and how many tokens it would write if no grammar held it. Talk that is no command is written
 * freely as what it is, and is let go; where nothing at all is written, noise hides what was said.
 */
export function isWorthAnother(found: Evidence | null, score: number, written: number): boolean {
  if (score >= SURE) {
    return found !== null && found.heardInAll < LITTLE_HEARD && found.unsaid > MUCH_UNSAID;
  }
  return score >= HOPELESS || written <= NOTHING_WRITTEN;
}
