/** Sound in, in pieces of any length; speech segments out. One per stream. */
import type { Pcm } from '../port.ts';
import { SEGMENTER, type SegmenterOptions } from './constants.ts';
import { Segmenter, type VadEvent } from './segmenter.ts';
import { FRAME_SAMPLES, SpeechNetwork, type SpeechWeights } from './speech-network.ts';

export class VoiceActivity {
  readonly #network: SpeechNetwork;
  readonly #segmenter: Segmenter;
  #rest: Pcm = new Float32Array(0);

  constructor(weights: SpeechWeights, options: SegmenterOptions = SEGMENTER) {
    this.#network = new SpeechNetwork(weights);
    this.#segmenter = new Segmenter(options);
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
    for (; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES) {
      const frame = sound.slice(at, at + FRAME_SAMPLES);
      events.push(...this.#segmenter.push(frame, this.#network.probability(frame)));
    }
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
}
