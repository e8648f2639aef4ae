/** The ear over a sound file, on the file's own clock; no browser, no microphone. */
import { ATTENTION, type AttentionOptions, type Sounding } from './attention.ts';
import { Listener, type Hearing } from './listener.ts';
import type { Pcm, Recogniser } from './port.ts';
import { SEGMENTER, type SegmenterOptions } from './vad/constants.ts';
import type { SpeechSegment } from './vad/segmenter.ts';
import { FRAME_SAMPLES } from './vad/constants.ts';
import type { SpeechWeights } from './vad/speech-network.ts';
import { VoiceActivity } from './vad/voice-activity.ts';

/** How things stand when a segment is judged. */
export interface Standing {
  /** JSGF text whose rule `<phrase>` is what may be said now. */
  readonly phrases: string;
  /** Calls begun since the last segment, with file times; empty when none. */
  readonly sounding: readonly Sounding[];
}

export interface OfflineOptions {
  readonly weights: SpeechWeights;
  /**
   * Asked just before each segment is judged, with the file time (ms) at which it was complete:
   * the caller runs its timers up to there and says how things stand.
   */
  readonly standing: (atMs: number) => Standing | Promise<Standing>;
  readonly attention?: Partial<AttentionOptions>;
  readonly segmenter?: Partial<SegmenterOptions>;
}

/** A {@link Hearing} with the file time at which the live ear would have begun to decode it. */
export interface OfflineHearing extends Hearing {
  readonly completeMs: number;
}

/**
 * Hears a whole sound, segment by segment in time order. Nothing runs ahead: the next segment is
 * cut and judged only when it is asked for, so the caller may act on each one first.
 * @throws what the recogniser throws, and JsgfError for phrases that are not JSGF.
 */
export async function* listenToPcm(
  pcm: Pcm,
  recogniser: Recogniser,
  options: OfflineOptions,
): AsyncGenerator<OfflineHearing, void, void> {
  const vad = new VoiceActivity(options.weights, { ...SEGMENTER, ...options.segmenter });
  let listener: Listener | null = null;
  const judge = async (segment: SpeechSegment, completeMs: number): Promise<OfflineHearing> => {
    const { phrases, sounding } = await options.standing(completeMs);
    listener ??= new Listener({
      recogniser,
      attention: { ...ATTENTION, ...options.attention },
      phrases,
      now: () => performance.now(),
      lateMs: Infinity,
    });
    listener.setPhrases(phrases);
    for (const call of sounding) listener.sounding(call);
    return { ...(await listener.hear(segment)), completeMs };
  };
  for (let at = 0; at < pcm.length; at += FRAME_SAMPLES) {
    const piece = pcm.subarray(at, at + FRAME_SAMPLES);
    const completeMs = (at + piece.length) / 16;
    for (const event of vad.push(piece))
      if (event.kind === 'segment') yield await judge(event, completeMs);
  }
  for (const event of vad.end())
    if (event.kind === 'segment') yield await judge(event, pcm.length / 16);
}
