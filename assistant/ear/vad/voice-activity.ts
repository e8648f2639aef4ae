/** Sound in, in pieces of any length; speech segments out. One per stream. */
import type { Pcm } from '../port.ts';
import {
  FRAME_SAMPLES,
  framesIn,
  KEPT_BACK,
  SEGMENTER,
  type SegmenterOptions,
} from './constants.ts';
import { OwnLevel } from './own-level.ts';
import { QuietGate } from './quiet-gate.ts';
import { join, Segmenter, type VadEvent } from './segmenter.ts';
import { SpeechNetwork, type SpeechWeights } from './speech-network.ts';

/** The network is calm where it gives less than this for speech. */
const CALM_BELOW = 0.1;
/**
 * After so much calm it forgets what it made of the sound before: in suction that lasts it would no
 * longer believe in a short word (docs/ear.md).
 */
const CALM_FRAMES = framesIn(3);

interface Heard {
  readonly pcm: Pcm;
  readonly duringCall: boolean;
}

/** Tells which frames the network need not look at. */
export type Gate = Pick<QuietGate, 'mayHoldSpeech'>;

/** The gate for sound that was told apart before it came here (rest-keeper.ts). */
export const OPEN_GATE: Gate = { mayHoldSpeech: () => true };

export class VoiceActivity {
  readonly #network: SpeechNetwork;
  readonly #segmenter: Segmenter;
  readonly #gate: Gate;
  readonly #goOnAbove: number;
  readonly #own = new OwnLevel();
  #keptBack: Heard[] = [];
  #calmFrames = 0;
  #rest: Pcm = new Float32Array(0);

  constructor(
    weights: SpeechWeights,
    options: SegmenterOptions = SEGMENTER,
    gate: Gate = new QuietGate(),
  ) {
    this.#network = new SpeechNetwork(weights);
    this.#segmenter = new Segmenter(options);
    this.#goOnAbove = options.goOnAbove;
    this.#gate = gate;
  }

  /** True while somebody speaks. */
  get speaking(): boolean {
    return this.#segmenter.speaking;
  }

  /**
   * Takes the next piece of sound (16 kHz mono, any length; kept, not copied); `duringCall`: one of our
   * own calls, or its echo, may be in it.
   */
  push(pcm: Pcm, duringCall = false): VadEvent[] {
    const sound = this.#rest.length > 0 ? join([{ pcm: this.#rest }, { pcm }]) : pcm;
    const events: VadEvent[] = [];
    let at = 0;
    for (; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES)
      events.push(...this.#take({ pcm: sound.subarray(at, at + FRAME_SAMPLES), duringCall }));
    this.#rest = sound.subarray(at);
    return events;
  }

  /** So many samples passed in which nobody can have spoken; they do not come. */
  skip(samples: number): void {
    this.#segmenter.skip(samples);
  }

  /** Ends the stream; an open segment is given out, the last part of a frame with it. */
  end(): VadEvent[] {
    const rest = this.#rest;
    this.#rest = new Float32Array(0);
    const events = rest.length > 0 && this.speaking ? this.#segmenter.push(rest, 0) : [];
    return [...events, ...this.#segmenter.flush()];
  }

  #take(frame: Heard): VadEvent[] {
    this.#keptBack.push(frame);
    if (this.#gate.mayHoldSpeech(frame.pcm) || this.speaking) {
      const heard = this.#keptBack;
      this.#keptBack = [];
      return heard.flatMap((one) => this.#judge(one));
    }
    const oldest = this.#keptBack.length > KEPT_BACK ? this.#keptBack.shift() : undefined;
    return oldest === undefined ? [] : this.#segmenter.push(oldest.pcm, 0);
  }

  #judge({ pcm, duringCall }: Heard): VadEvent[] {
    const probability = this.#probability(pcm);
    const isSpeech = probability > this.#goOnAbove;
    const part = this.#own.take(pcm, duringCall, this.speaking, isSpeech);
    return this.#segmenter.push(pcm, probability, part);
  }

  #probability(frame: Pcm): number {
    const probability = this.#network.probability(frame);
    this.#calmFrames = probability < CALM_BELOW ? this.#calmFrames + 1 : 0;
    if (this.#calmFrames >= CALM_FRAMES) {
      this.#network.forget();
      this.#calmFrames = 0;
    }
    return probability;
  }
}
