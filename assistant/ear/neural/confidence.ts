import type { Decoded, Path } from './beam.ts';

/**
 * Confidence below which nothing is heard. Measured with the weights below; `docs/hearing.md` says
 * on what, and what it lets through.
 */
export const THRESHOLD = 0.45;
/** From here up to {@link THRESHOLD} what was heard is worth asking back. */
export const ASKED_FROM = 0.15;
/** From here on a first look is believed. */
const CLEAR = 0.7;
/** Below this a first look at clear speech finds nothing that a second one would make believable. */
const HOPELESS = 0.02;
/** Below this, of {@link Evidence.spoken}, the model would rather have heard nothing at all. */
const SILENT = Math.log(0.5);
/**
 * Where {@link Evidence.spoken} is below `spoken`, noise may have led a narrow search astray: it is believed
 * from `score` on. Measured: `docs/hearing.md`, "Several views".
 */
const HESITANT = { spoken: -0.1, score: 0.95 };

/**
 * What is this far behind the free transcript, natural logarithm, over all its tokens, is searched for anew.
 * Measured: `docs/hearing.md`, "Words lost in the middle".
 */
const FAR = 6;

/** Share of a sound that its words may leave unsaid: with more, more was said than was found. */
const MUCH_UNSAID = 0.3;
/** Seconds of quiet that a segment holds, and those a letter takes when it is said slowly. */
const AROUND = 0.55;
const LETTER = 0.075;

/** What separates speech inside the grammar from speech outside it, for the best path. */
export interface Evidence {
  /**
   * Log-probability short of the free transcript's, per token; 0 where they agree, and where the path is the
   * likelier: what is written freely takes the likeliest token each time, and of a sound that is no speech
   * comes to less than a phrase may. That speaks for neither.
   */
  readonly margin: number;
  /** Log-probability above that of the same words over near-silence, per token. */
  readonly heard: number;
  /** Natural logarithm of how likely anything was said at all, at least {@link LEAST_SPOKEN}. */
  readonly spoken: number;
}

const LEAST_SPOKEN = -8;

// A logistic regression over {@link Evidence}.
const WEIGHTS: Evidence = { margin: 2.67, heard: 0.685, spoken: 0.512 };
const BIAS = 0.618;

/** The evidence for the best path; decoding must have found a path. */
export function evidence({ free }: Decoded, best: Path): Evidence {
  const steps = best.tokens.length + 1;
  return {
    margin: Math.min(0, best.likelihood - free.likelihood) / steps,
    heard: (best.likelihood - best.prior) / steps,
    spoken: Math.max(LEAST_SPOKEN, free.spoken),
  };
}

/** Confidence from 0 to 1 that what `found` describes was said. */
export function confidence(found: Evidence): number {
  const sum =
    WEIGHTS.margin * found.margin + WEIGHTS.heard * found.heard + WEIGHTS.spoken * found.spoken;
  return 1 / (1 + Math.exp(-sum - BIAS));
}

/** Share of a sound of `seconds` that the words leave unsaid; below none for quick ones. */
export const unsaid = (words: readonly string[], seconds: number): number =>
  1 - (AROUND + LETTER * words.join(' ').length) / seconds;

/**
 * Whether a first look is worth a second one, given the confidence it came to (0 for nothing), how
 * likely anything was `spoken` (natural logarithm) and what share of the sound its words leave.
 * Talk that is no command is written freely as what it is, and is let go; where nothing at all would
 * be written, noise hides what was said; and in noise a search is ready to end after the call sign, or
 * loses what was said for another word that it is fairly sure of.
 */
export function isUnclear(score: number, spoken: number, left: number): boolean {
  if (score < CLEAR) return score >= HOPELESS || spoken < SILENT;
  const isLost = spoken < HESITANT.spoken && score < HESITANT.score;
  return isLost || left > MUCH_UNSAID;
}

/**
 * Whether `best` may have lost a word on the way: it stays so far behind what would be written freely that
 * a better path may be there, be it believable as it is.
 */
export const hasLost = ({ free }: Decoded, best: Path, score: number): boolean =>
  isWorthViews(score) && free.likelihood - best.likelihood > FAR;

/** Whether what was found at this confidence is worth other views of the sound: none makes the hopeless believable. */
export const isWorthViews = (score: number): boolean => score >= HOPELESS;
