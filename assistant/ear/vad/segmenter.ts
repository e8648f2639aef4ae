/**
 * Cuts a stream of frames, each with its probability of speech, into segments.
 * Pure: no clock; time is the number of samples seen.
 */
import { SAMPLE_RATE, type Pcm } from '../port.ts';
import type { Part } from './own-level.ts';
import { SEGMENTER, type SegmenterOptions } from './constants.ts';

/** A stretch of speech; times in ms since the stream began. */
export interface SpeechSegment {
  readonly kind: 'segment';
  readonly pcm: Pcm;
  /** Start and end of `pcm`, padding included. */
  readonly startMs: number;
  readonly endMs: number;
  /** Start of the first and end of the last frame that held speech. */
  readonly speechStartMs: number;
  readonly speechEndMs: number;
  /** True when the segment was cut for its length and speech goes on. */
  readonly cut: boolean;
}

export type VadEvent =
  | { readonly kind: 'speechStart'; readonly startMs: number }
  /** It is quiet for as long as is kept after speech: `segment` comes next, unless somebody goes on. */
  | { readonly kind: 'pause'; readonly segment: SpeechSegment }
  | SpeechSegment
  | { readonly kind: 'misfire'; readonly startMs: number; readonly endMs: number };

interface Frame {
  readonly pcm: Pcm;
  readonly probability: number;
  readonly startMs: number;
  readonly endMs: number;
}

const msOf = (samples: number): number => (samples * 1000) / SAMPLE_RATE;

const lengthOf = (frames: readonly Pick<Frame, 'pcm'>[]): number =>
  frames.reduce((sum, frame) => sum + frame.pcm.length, 0);

export function join(frames: readonly Pick<Frame, 'pcm'>[]): Pcm {
  const pcm = new Float32Array(lengthOf(frames));
  let at = 0;
  for (const frame of frames) {
    pcm.set(frame.pcm, at);
    at += frame.pcm.length;
  }
  return pcm;
}

export class Segmenter {
  readonly #options: SegmenterOptions;
  #samples = 0;
  /** While quiet: the padding to come. While speaking: the whole segment so far. */
  #frames: Frame[] = [];
  #speaking = false;
  #speechMs = 0;
  #speechStartMs = 0;
  #speechEndMs = 0;
  /** Whether the end of this segment lies in one of our calls. */
  #inCall = false;

  constructor(options: SegmenterOptions = SEGMENTER) {
    this.#options = options;
  }

  /** True from the first frame of speech to the end of its segment. */
  get speaking(): boolean {
    return this.#speaking;
  }

  /**
   * Takes the next frame (any length, kept, not copied) with its probability of speech, and what it is
   * by its level: at an onset an open segment begins anew, and a call is no speech that goes on.
   */
  push(pcm: Pcm, probability: number, part: Part = 'unknown'): VadEvent[] {
    const startMs = msOf(this.#samples);
    this.#samples += pcm.length;
    const frame: Frame = { pcm, probability, startMs, endMs: msOf(this.#samples) };
    this.#frames.push(frame);
    if (part === 'onset' && this.#speaking) {
      this.#trimPadding(frame.startMs);
      this.#begin(frame);
    }
    if (!this.#speaking) return this.#wait(frame);
    // The soft beginning of a word is lost in it: more is waited for.
    if (part === 'call') this.#inCall = true;
    return part === 'call' ? this.#endIfDue(frame) : this.#goOn(frame);
  }

  /** So many samples pass without a frame; padding from before them is too old by what comes next. */
  skip(samples: number): void {
    this.#samples += samples;
  }

  /** Ends the stream: what is open becomes a segment or a misfire. */
  flush(): VadEvent[] {
    return this.#speaking ? [this.#close()] : [];
  }

  #wait(frame: Frame): VadEvent[] {
    if (frame.probability < this.#options.startAt) {
      this.#trimPadding();
      return [];
    }
    this.#speaking = true;
    this.#begin(frame);
    this.#hearSpeech(frame);
    return [{ kind: 'speechStart', startMs: frame.startMs }];
  }

  #goOn(frame: Frame): VadEvent[] {
    const { goOnAbove } = this.#options;
    if (frame.probability > goOnAbove) this.#hearSpeech(frame);
    return this.#endIfDue(frame);
  }

  #endIfDue(frame: Frame): VadEvent[] {
    const { maxMs } = this.#options;
    if (frame.endMs - this.#speechEndMs >= this.#redemptionMs()) return [this.#close()];
    const first = this.#frames[0] ?? frame;
    if (frame.endMs - first.startMs >= maxMs) return [this.#cut()];
    return this.#isWhole(frame)
      ? [{ kind: 'pause', segment: this.#segment(this.#kept(), false) }]
      : [];
  }

  /** A short beginning is more often half a command than a whole one, and decodes sooner. */
  #redemptionMs(): number {
    const { redemptionMs, callRedemptionMs, shortRedemptionMs, shortMs } = this.#options;
    if (this.#speechEndMs - this.#speechStartMs < shortMs) return shortRedemptionMs;
    return this.#inCall ? callRedemptionMs : redemptionMs;
  }

  /** True for the frame with which all is there that is kept after speech. */
  #isWhole({ startMs, endMs }: Frame): boolean {
    const keepTo = this.#keepToMs();
    return this.#speechMs >= this.#options.minSpeechMs && startMs < keepTo && endMs >= keepTo;
  }

  #keepToMs(): number {
    return this.#speechEndMs + this.#options.postPadMs;
  }

  #kept(): readonly Frame[] {
    const keepTo = this.#keepToMs();
    return this.#frames.filter((frame) => frame.startMs < keepTo);
  }

  #begin(frame: Frame): void {
    this.#inCall = false;
    this.#speechMs = 0;
    this.#speechStartMs = frame.startMs;
    this.#speechEndMs = frame.endMs;
  }

  #hearSpeech(frame: Frame): void {
    this.#speechMs += frame.endMs - frame.startMs;
    this.#speechEndMs = frame.endMs;
  }

  /** Keeps as much as comes before speech that begins at `startMs`. */
  #trimPadding(startMs = msOf(this.#samples)): void {
    const keepFrom = startMs - this.#options.prePadMs;
    while ((this.#frames[0]?.endMs ?? Infinity) <= keepFrom) this.#frames.shift();
  }

  #close(): VadEvent {
    const frames = this.#frames;
    const long = this.#speechMs >= this.#options.minSpeechMs;
    const kept = long ? this.#kept() : frames;
    this.#speaking = false;
    this.#frames = frames.slice();
    this.#trimPadding();
    return long ? this.#segment(kept, false) : { kind: 'misfire', ...spanOf(kept) };
  }

  /** Cuts at the least speech-like frame of the second half; the rest starts the next one. */
  #cut(): VadEvent {
    const half = Math.floor(this.#frames.length / 2);
    let at = half;
    this.#frames.forEach((frame, i) => {
      if (i >= half && frame.probability <= (this.#frames[at]?.probability ?? 1)) at = i;
    });
    const kept = this.#frames.slice(0, at + 1);
    this.#frames = this.#frames.slice(at + 1);
    const speechMs = this.#frames
      .filter((frame) => frame.probability > this.#options.goOnAbove)
      .reduce((sum, frame) => sum + frame.endMs - frame.startMs, 0);
    // The end of a word that the cut parted is no misfire, however short.
    this.#speechMs = speechMs > 0 ? Math.max(speechMs, this.#options.minSpeechMs) : 0;
    const segment = this.#segment(kept, true);
    this.#speechStartMs = segment.endMs;
    return segment;
  }

  #segment(frames: readonly Frame[], cut: boolean): SpeechSegment {
    const { startMs, endMs } = spanOf(frames);
    const speechEndMs = Math.min(endMs, this.#speechEndMs);
    const speechStartMs = this.#speechStartMs;
    const pcm = join(frames);
    return { kind: 'segment', pcm, startMs, endMs, speechStartMs, speechEndMs, cut };
  }
}

function spanOf(frames: readonly Frame[]): { startMs: number; endMs: number } {
  return { startMs: frames[0]?.startMs ?? 0, endMs: frames.at(-1)?.endMs ?? 0 };
}
