/** Published source: the network's own file, run by onnxruntime-web as its maker means it to be. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { InferenceSession, Tensor, env } from 'onnxruntime-web';
import { describe, expect, it } from 'vitest';
import { readOnnxConstants } from '../../assistant/ear/vad/onnx-constants.ts';
import { FRAME_SAMPLES } from '../../assistant/ear/vad/constants.ts';
import { readSpeechWeights, SpeechNetwork } from '../../assistant/ear/vad/speech-network.ts';
import { speak } from '../speech/index.ts';
import { suction } from '../speech/noise.ts';

const file = (version: string): Uint8Array =>
  readFileSync(
    createRequire(import.meta.url).resolve(`@ricky0123/vad-web/dist/silero_vad_${version}.onnx`),
  );

env.wasm.numThreads = 1;

/** The model as its own runtime runs it: 64 samples of context before each frame. */
async function reference(model: Uint8Array, sound: Float32Array): Promise<number[]> {
  const session = await InferenceSession.create(model);
  const sr = new Tensor('int64', BigInt64Array.of(16_000n), [1]);
  let state = new Tensor('float32', new Float32Array(256), [2, 1, 128]);
  const probabilities: number[] = [];
  const input = new Float32Array(64 + FRAME_SAMPLES);
  for (let at = 0; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES) {
    input.copyWithin(0, FRAME_SAMPLES);
    input.set(sound.subarray(at, at + FRAME_SAMPLES), 64);
    const { output, stateN } = await session.run({
      input: new Tensor('float32', input.slice(), [1, input.length]),
      state,
      sr,
    });
    if (!output || !stateN) throw new Error('the model gave no output');
    if (!(stateN.data instanceof Float32Array)) throw new Error('state is not float');
    state = new Tensor('float32', stateN.data.slice(), [2, 1, 128]);
    probabilities.push(Number(output.data[0]));
  }
  await session.release();
  return probabilities;
}

describe.each(['v5', 'v6'])('the speech network %s', (version) => {
  it('gives what onnxruntime-web gives, frame by frame', async () => {
    const voice = await speak('lantern, porcelain etch off', 'scottishMan');
    const noise = suction(voice.length + 16_000, 16_000, 3);
    const sound = noise.map((x, i) => 0.01 * x + (voice[i - 8_000] ?? 0));
    const network = new SpeechNetwork(readSpeechWeights(file(version)));
    const ours: number[] = [];
    for (let at = 0; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES)
      ours.push(network.probability(sound.subarray(at, at + FRAME_SAMPLES)));
    const theirs = await reference(file(version), sound);
    expect(Math.max(...theirs)).toBeGreaterThan(0.9);
    expect(Math.min(...theirs)).toBeLessThan(0.1);
    expect(ours.map((p) => Math.round(p * 1e4))).toEqual(theirs.map((p) => Math.round(p * 1e4)));
  });
});

describe('what is not the network', () => {
  it('is refused by the name of what is missing', () => {
    expect(() => readSpeechWeights(new Uint8Array(0))).toThrow(
      'speech weights: no tensor If_0_then_branch__Inline_0__decoder.rnn.bias_ih',
    );
    const cut = file('v5').slice(0, 100_000);
    expect(() => readOnnxConstants(cut)).toThrow('ends in the middle of a field');
  });

  it('a frame of another length is refused', () => {
    const network = new SpeechNetwork(readSpeechWeights(file('v5')));
    expect(() => network.probability(new Float32Array(480))).toThrow('512 samples, not 480');
  });

  it('after a reset it answers as at the start', () => {
    const network = new SpeechNetwork(readSpeechWeights(file('v5')));
    const frame = suction(FRAME_SAMPLES, 16_000, 1).map((x) => x / 10);
    const first = network.probability(frame);
    expect(network.probability(frame)).not.toBe(first);
    network.reset();
    expect(network.probability(frame)).toBe(first);
  });
});
