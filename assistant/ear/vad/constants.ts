import { SAMPLE_RATE } from '../port.ts';

/** Samples that are looked at together: 32 ms at 16 kHz, as the network wants them. */
export const FRAME_SAMPLES = 512;

export const framesIn = (seconds: number): number =>
  Math.ceil((seconds * SAMPLE_RATE) / FRAME_SAMPLES);

/**
 * Sound of a room at rest kept back, frames: when somebody may be speaking the network hears this first,
 * so that it knows the room and the first consonant is not lost. At least the padding before a segment.
 */
export const KEPT_BACK = framesIn(0.5);

/**
 * How speech is cut into segments. Every figure was chosen by the table in docs/ear.md,
 * which `npx tsx tests/bench/vad.ts` prints.
 */
export interface SegmenterOptions {
  /** Speech begins at this probability. */
  readonly startAt: number;
  /** Speech goes on while the probability is above this. */
  readonly goOnAbove: number;
  /** Sound kept from before the first frame of speech, ms: unvoiced plosives score low. */
  readonly prePadMs: number;
  /** Quiet that ends a segment, ms. */
  readonly redemptionMs: number;
  /** What ends a segment in one of our calls, where the soft beginning of a word is lost, ms. */
  readonly callRedemptionMs: number;
  /** Quiet that ends a segment whose speech is shorter than `shortMs` so far, ms. */
  readonly shortRedemptionMs: number;
  readonly shortMs: number;
  /** Sound kept after the last frame of speech, ms; when so much is there decoding begins: less than `redemptionMs`. */
  readonly postPadMs: number;
  /** Less speech than this is a misfire, ms. */
  readonly minSpeechMs: number;
  /** A segment is cut at the quietest place of its second half when it gets this long, ms. */
  readonly maxMs: number;
}

export const SEGMENTER = {
  startAt: 0.4,
  goOnAbove: 0.35,
  prePadMs: 320,
  redemptionMs: 192,
  callRedemptionMs: 256,
  shortRedemptionMs: 288,
  shortMs: 600,
  postPadMs: 96,
  minSpeechMs: 96,
  maxMs: 8_000,
} as const satisfies SegmenterOptions;
