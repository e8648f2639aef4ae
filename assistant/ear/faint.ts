/** Whether speech comes in too softly to be relied on; pure. */
import { levelOf } from './level.ts';
import { SAMPLE_RATE } from './port.ts';
import type { SpeechSegment } from './vad/segmenter.ts';

/**
 * Speech below this is faint, dB below full scale (rms of its speech). Down to here voice activity
 * cuts recorded orders about as well as loud ones; then it begins to lose their beginnings: of 25,
 * 2 at -30 dB, 4 here, 6 at -55, 9 at -60, 19 at -65 (`npx tsx tests/bench/faint.ts`). The room
 * check gives the same advice from the same level on.
 */
export const FAINT_DBFS = -50;
/**
 * So many in a row, as many as the room check has phrases read: one may be said aside. Chosen, not
 * measured.
 */
export const FAINT_SEGMENTS = 3;

/** Level of the speech in a segment, its padding left out, dB below full scale (rms). */
export function speechLevel({ pcm, startMs, speechStartMs, speechEndMs }: SpeechSegment): number {
  const at = (ms: number): number => Math.round(((ms - startMs) * SAMPLE_RATE) / 1000);
  return levelOf(pcm.subarray(Math.max(0, at(speechStartMs)), at(speechEndMs))).rmsDbfs;
}

/**
 * How many segments in a row have been faint after one of `dbfs`, when `before` were until then;
 * speech is faint from {@link FAINT_SEGMENTS} on, and one that is loud enough ends it.
 */
export const faintInARow = (before: number, dbfs: number): number =>
  dbfs < FAINT_DBFS ? before + 1 : 0;
