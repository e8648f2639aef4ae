/** The detectors compared in docs/ear.md: each turns a frame of 512 samples into a probability. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import createModule from 'soundswallower';
import { FRAME_SAMPLES } from '../../assistant/ear/vad/constants.ts';
import { SpeechNetwork, readSpeechWeights } from '../../assistant/ear/vad/speech-network.ts';

/** Frame in, probability of speech out; a new one per stream. */
export type Detector = (frame: Float32Array) => number;

const resolve = createRequire(import.meta.url).resolve;

/** The network of `@ricky0123/vad-web`, by version of its weights. */
export function network(version: 'v5' | 'v6'): () => Detector {
  const file = resolve(`@ricky0123/vad-web/dist/silero_vad_${version}.onnx`);
  const weights = readSpeechWeights(readFileSync(file));
  return () => {
    const net = new SpeechNetwork(weights);
    return (frame) => net.probability(frame);
  };
}

/** Level over an adaptive noise floor: falls at once, rises 3 dB a second. */
export function level(overDb: number): () => Detector {
  return () => {
    let floor = Number.NaN;
    return (frame) => {
      let energy = 1e-9;
      // First difference: suction and hum are low, speech consonants are not.
      for (let i = 1; i < frame.length; i += 1)
        energy += ((frame[i] ?? 0) - (frame[i - 1] ?? 0)) ** 2;
      const db = 10 * Math.log10(energy / frame.length);
      floor = Number.isNaN(floor) || db < floor ? db : floor + 0.1;
      return 1 / (1 + Math.exp(-(db - floor - overDb) / 1.5));
    };
  };
}

/** The endpointer of `soundswallower`, asked in 30 ms pieces whether it is in speech. */
export async function endpointer(mode: number): Promise<() => Detector> {
  const module = await createModule();
  return () => {
    const point = new module.Endpointer({ samprate: 16_000, mode, window: 0.15, ratio: 0.8 });
    const size = point.get_frame_size();
    let rest: number[] = [];
    return (frame) => {
      rest.push(...frame);
      while (rest.length >= size) {
        point.process(Float32Array.from(rest.slice(0, size)));
        rest = rest.slice(size);
      }
      return point.get_in_speech() ? 1 : 0;
    };
  };
}

export { FRAME_SAMPLES };
