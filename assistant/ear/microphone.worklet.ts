/** Runs in the audio thread: gathers the microphone's samples into frames and hands them over. */

// The DOM library describes the page, not the audio thread's scope.
declare const registerProcessor: (
  name: string,
  processor: new () => { process(inputs: readonly (readonly Float32Array[])[]): boolean },
) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

const FRAME = 512;

class FrameSender extends AudioWorkletProcessor {
  #frame = new Float32Array(FRAME);
  #filled = 0;

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    // No channel at all: the source has ended; the page hears of that from the track.
    const samples = inputs[0]?.[0];
    if (samples === undefined) return true;
    let taken = 0;
    while (taken < samples.length) {
      const part = samples.subarray(taken, taken + FRAME - this.#filled);
      this.#frame.set(part, this.#filled);
      this.#filled += part.length;
      taken += part.length;
      if (this.#filled === FRAME) {
        this.port.postMessage(this.#frame, [this.#frame.buffer]);
        this.#frame = new Float32Array(FRAME);
        this.#filled = 0;
      }
    }
    return true;
  }
}

registerProcessor('frame-sender', FrameSender);
