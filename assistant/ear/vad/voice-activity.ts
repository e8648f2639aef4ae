/** Sound in, in pieces of any length; speech segments out. One per stream. */
import type { Pcm } from '../port.ts';
import { SEGMENTER, type SegmenterOptions } from './constants.ts';
import { QuietGate } from './quiet-gate.ts';
import { Segmenter, type VadEvent } from './segmenter.ts';
import { FRAME_SAMPLES, SpeechNetwork, type SpeechWeights } from './speech-network.ts';

/**
 * Frames of a room at rest kept back: when somebody may be speaking the network hears these first,
 * so that it knows the room and the first consonant is not lost. Half a second; at least the padding
 * before a segment.
 */
const KEPT_BACK = 16;
/**
 * When the network has been this sure of no speech for so long, it forgets what it made of the sound
 * before: after ten seconds of suction it would no longer believe in a short word (docs/ear.md).
 */
const CALM = { below: 0.1, frames: 94 };

/** Tells which frames the network need not look at. */
export type Gate = Pick<QuietGate, 'mayHoldSpeech'>;

export class VoiceActivity {
  readonly #network: SpeechNetwork;
  readonly #segmenter: Segmenter;
  readonly #gate: Gate;
  #keptBack: Pcm[] = [];
  #calmFrames = 0;
  #rest: Pcm = new Float32Array(0);

  constructor(
    weights: SpeechWeights,
    options: SegmenterOptions = SEGMENTER,
    gate: Gate = new QuietGate(),
  ) {
    this.#network = new SpeechNetwork(weights);
    this.#segmenter = new Segmenter(options);
    this.#gate = gate;
  }

  /** True while somebody speaks. */
  get speaking(): boolean {
    return this.#segmenter.speaking;
  }

  /** Takes the next piece of sound (16 kHz mono, any length). */
  push(pcm: Pcm): VadEvent[] {
    const sound = new Float32Array(this.#rest.length + pcm.length);
    sound.set(this.#rest);
    sound.set(pcm, this.#rest.length);
    const events: VadEvent[] = [];
    let at = 0;
    for (; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES)
      events.push(...this.#take(sound.slice(at, at + FRAME_SAMPLES)));
    this.#rest = sound.slice(at);
    return events;
  }

  /** Ends the stream; an open segment is given out, the last part of a frame with it. */
  end(): VadEvent[] {
    const rest = this.#rest;
    this.#rest = new Float32Array(0);
    const events = rest.length > 0 && this.speaking ? this.#segmenter.push(rest, 0) : [];
    return [...events, ...this.#segmenter.flush()];
  }

  #take(frame: Pcm): VadEvent[] {
    this.#keptBack.push(frame);
    if (this.#gate.mayHoldSpeech(frame) || this.speaking) {
      const heard = this.#keptBack;
      this.#keptBack = [];
      return heard.flatMap((one) => this.#segmenter.push(one, this.#probability(one)));
    }
    const oldest = this.#keptBack.length > KEPT_BACK ? this.#keptBack.shift() : undefined;
    return oldest === undefined ? [] : this.#segmenter.push(oldest, 0);
  }

  #probability(frame: Pcm): number {
    const probability = this.#network.probability(frame);
    this.#calmFrames = probability < CALM.below ? this.#calmFrames + 1 : 0;
    if (this.#calmFrames >= CALM.frames) {
      this.#network.forget();
      this.#calmFrames = 0;
    }
    return probability;
  }
}
