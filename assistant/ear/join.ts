/** Two segments parted by a pause inside one utterance, put together again. */
import { SAMPLE_RATE } from './port.ts';
import type { SpeechSegment } from './vad/segmenter.ts';

/** Longest pause inside one command, ms. */
export const JOIN_GAP_MS = 700;

/** Longest sound worth joining, ms: a command of ten words takes four seconds. */
export const JOIN_MAX_MS = 6_000;

/** True when `later` may go on with what `earlier` began. */
export function shouldJoin(earlier: SpeechSegment, later: SpeechSegment): boolean {
  return (
    later.speechStartMs - earlier.speechEndMs <= JOIN_GAP_MS &&
    later.endMs - earlier.startMs <= JOIN_MAX_MS
  );
}

/** The two as one; what both hold is taken once, silence between them is left out. */
export function joinSegments(earlier: SpeechSegment, later: SpeechSegment): SpeechSegment {
  const keepMs = Math.min(earlier.endMs, later.startMs) - earlier.startMs;
  const keep = Math.max(0, Math.round((keepMs * SAMPLE_RATE) / 1000));
  const head = earlier.pcm.subarray(0, keep);
  const pcm = new Float32Array(head.length + later.pcm.length);
  pcm.set(head);
  pcm.set(later.pcm, head.length);
  return {
    ...later,
    pcm,
    startMs: earlier.startMs,
    speechStartMs: earlier.speechStartMs,
  };
}
