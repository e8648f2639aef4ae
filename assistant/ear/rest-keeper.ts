/**
 * Runs in the audio thread: keeps back the sound of a room at rest, so that the page is neither woken nor
 * handed sound all day in which nobody speaks. The first frame that rises above the room goes at once,
 * half a second of what was kept back before it.
 */
import { type Level, levelOf } from './level.ts';
import type { Pcm } from './port.ts';
import { KEPT_BACK } from './vad/constants.ts';
import { QuietGate } from './vad/quiet-gate.ts';

export type Handed =
  /** Sound, and how many samples passed before it that are not handed over. */
  | { readonly kind: 'sound'; readonly sound: Pcm; readonly rested: number }
  /** The room rests: its level since the last such, and how many samples passed since the last sound. */
  | { readonly kind: 'rest'; readonly level: Level; readonly rested: number };

export interface RestKeeperOptions {
  /** Samples of a frame: 32 ms at the rate of the sound. */
  readonly frameSamples: number;
  /** True where all sound is wanted: that of a room at rest then goes too, half a second at a time. */
  readonly whole: boolean;
  readonly onHanded: (handed: Handed) => void;
}

export class RestKeeper {
  readonly #options: RestKeeperOptions;
  readonly #gate = new QuietGate();
  /** The frames kept back and the one that comes in, used over and over: nothing is made while the room rests. */
  readonly #frames: readonly Pcm[];
  /** Which frame comes in, and how much of it is there. */
  #at = 0;
  #filled = 0;
  /** Frames at rest since the last that was handed over. */
  #rested = 0;
  /** While true nothing is kept back: somebody speaks, however softly. */
  open = false;

  constructor(options: RestKeeperOptions) {
    this.#options = options;
    const { frameSamples } = options;
    this.#frames = Array.from({ length: KEPT_BACK + 1 }, () => new Float32Array(frameSamples));
  }

  /** Takes the next samples, any number; they are copied. */
  push(samples: Pcm): void {
    const { frameSamples } = this.#options;
    let rest = samples;
    while (rest.length > 0) {
      const missing = frameSamples - this.#filled;
      const part = rest.length > missing ? rest.subarray(0, missing) : rest;
      this.#frames[this.#at]?.set(part, this.#filled);
      this.#filled += part.length;
      if (this.#filled === frameSamples) this.#endFrame();
      if (part === rest) return;
      rest = rest.subarray(missing);
    }
  }

  #endFrame(): void {
    const frame = this.#frames[this.#at];
    const mayHoldSpeech = frame !== undefined && this.#gate.mayHoldSpeech(frame);
    this.#at = (this.#at + 1) % this.#frames.length;
    this.#filled = 0;
    if (mayHoldSpeech || this.open) this.#handOver(this.#rested + 1);
    else this.#rest();
  }

  #rest(): void {
    const { frameSamples, whole, onHanded } = this.#options;
    this.#rested += 1;
    if (this.#rested % KEPT_BACK > 0) return;
    if (whole) return this.#handOver(KEPT_BACK);
    const level = levelOf(...this.#newest(KEPT_BACK));
    onHanded({ kind: 'rest', level, rested: this.#rested * frameSamples });
  }

  /** Hands over the last of the `frames` that were not yet. */
  #handOver(frames: number): void {
    const { frameSamples, onHanded } = this.#options;
    const newest = this.#newest(Math.min(frames, KEPT_BACK + 1));
    const sound = new Float32Array(newest.length * frameSamples);
    newest.forEach((frame, at) => sound.set(frame, at * frameSamples));
    this.#rested = 0;
    onHanded({ kind: 'sound', sound, rested: (frames - newest.length) * frameSamples });
  }

  #newest(count: number): readonly Pcm[] {
    const all = [...this.#frames.slice(this.#at), ...this.#frames.slice(0, this.#at)];
    return all.slice(-count);
  }
}
