/** Runs in the audio thread: gathers the microphone's samples and hands over what the page needs of them. */
import type { Pcm } from './port.ts';
import { SAMPLE_RATE } from './port.ts';
import { RestKeeper } from './rest-keeper.ts';
import { FRAME_SAMPLES } from './vad/constants.ts';

/** Of the page: while true nothing is kept back. */
export type ToWorklet = boolean;

export interface WorkletOptions {
  /** True where the page wants all sound. */
  readonly whole: boolean;
}

// The DOM library describes the page, not the audio thread's scope.
declare const sampleRate: number;
declare const registerProcessor: (
  name: string,
  processor: new (options: { readonly processorOptions: WorkletOptions }) => {
    process(inputs: readonly (readonly Pcm[])[]): boolean;
  },
) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

class FrameSender extends AudioWorkletProcessor {
  readonly #keeper: RestKeeper;

  constructor({ processorOptions }: { readonly processorOptions: WorkletOptions }) {
    super();
    this.#keeper = new RestKeeper({
      // As long as a frame of voice activity, whatever the device's rate.
      frameSamples: Math.round((FRAME_SAMPLES * sampleRate) / SAMPLE_RATE),
      whole: processorOptions.whole,
      onHanded: (handed) =>
        this.port.postMessage(handed, handed.kind === 'sound' ? [handed.sound.buffer] : []),
    });
    this.port.addEventListener('message', ({ data }: MessageEvent<ToWorklet>) => {
      this.#keeper.open = data;
    });
    this.port.start();
  }

  process(inputs: readonly (readonly Pcm[])[]): boolean {
    // No channel at all: the source has ended; the page hears of that from the track.
    const samples = inputs[0]?.[0];
    if (samples !== undefined) this.#keeper.push(samples);
    return true;
  }
}

registerProcessor('frame-sender', FrameSender);
