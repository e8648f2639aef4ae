/**
 * Runs in the audio thread: gathers the microphone's samples into frames and hands them over. In a room
 * at rest several go together, so that the page is not woken thirty times a second, all day, for sound in
 * which nobody speaks; the first frame that rises above the room goes at once, those kept before it with it.
 */
import { SAMPLE_RATE } from './port.ts';
import { FRAME_SAMPLES } from './vad/constants.ts';
import { QuietGate } from './vad/quiet-gate.ts';

// The DOM library describes the page, not the audio thread's scope.
declare const sampleRate: number;
declare const registerProcessor: (
  name: string,
  processor: new () => { process(inputs: readonly (readonly Float32Array[])[]): boolean },
) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/** As long as a frame of voice activity, whatever the device's rate. */
const FRAME = Math.round((FRAME_SAMPLES * sampleRate) / SAMPLE_RATE);
/** Frames of a room at rest that go together: a quarter of a second. */
const TOGETHER = 8;

class FrameSender extends AudioWorkletProcessor {
  readonly #gate = new QuietGate();
  readonly #kept = new Float32Array(FRAME * TOGETHER);
  #filled = 0;

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    // No channel at all: the source has ended; the page hears of that from the track.
    const samples = inputs[0]?.[0];
    if (samples === undefined) return true;
    let taken = 0;
    while (taken < samples.length) {
      const part = samples.subarray(taken, taken + FRAME - (this.#filled % FRAME));
      this.#kept.set(part, this.#filled);
      this.#filled += part.length;
      taken += part.length;
      if (this.#filled % FRAME === 0) this.#endFrame();
    }
    return true;
  }

  #endFrame(): void {
    const frame = this.#kept.subarray(this.#filled - FRAME, this.#filled);
    const rests = !this.#gate.mayHoldSpeech(frame);
    if (rests && this.#filled < this.#kept.length) return;
    const sound = this.#kept.slice(0, this.#filled);
    this.port.postMessage(sound, [sound.buffer]);
    this.#filled = 0;
  }
}

registerProcessor('frame-sender', FrameSender);
