/** The networks say in whole numbers what they say in floats, and refuse what is not theirs. */
import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { fitEncoder } from '../../assistant/ear/neural/fit/fit.ts';
import { withTokens } from '../../assistant/ear/neural/few-tokens.ts';
import { Network } from '../../assistant/ear/neural/network.ts';
import { prepare } from '../../assistant/ear/neural/prepare.ts';
import { logSum } from '../../assistant/ear/neural/scores.ts';
import { KEPT } from '../../assistant/ear/neural/vocabulary.ts';
import {
  loadGivenDecoder,
  loadGivenEncoder,
  loadNeuralWeights,
} from '../../assistant/ear/neural/weights-node.ts';
import { withWholeConvolutions } from '../../assistant/ear/neural/whole-convolutions.ts';
import { withWholeScores } from '../../assistant/ear/neural/whole-scores.ts';
import { type Room, saidInRoom } from '../bench/surgery.ts';

const FIT = new URL('../../assistant/ear/neural/fit/encoder.fit', import.meta.url);
const ROOMS: readonly Room[] = [
  { noise: null, decibels: 0 },
  { noise: 'suction', decibels: 10 },
];

const size = (numbers: Iterable<number>): number => Math.hypot(...numbers);
const apart = (ones: Float32Array, others: Float32Array): Float32Array =>
  ones.map((one, at) => one - (others[at] ?? NaN));

async function inFloats(): Promise<Network> {
  return Network.load({
    ...(await loadNeuralWeights()),
    encoder: fitEncoder(await loadGivenEncoder(), await readFile(FIT)),
    decoder: withTokens(await loadGivenDecoder(), KEPT),
  });
}

it('the encoder and the scores are off by no more than the rounding of the rest', async () => {
  const floats = await inFloats();
  const whole = await Network.load(await loadNeuralWeights());
  for (const room of ROOMS) {
    const sound = prepare(await saidInRoom('lantern, rinsing now', 'scottishWoman', room, 3));
    const wanted = (await floats.encode(sound)).hidden;
    const given = (await whole.encode(sound)).hidden;
    const values = Float32Array.from(wanted.data, Number);
    // What the rounding of all other products amounts to is 4 in a hundred too (docs/hearing.md).
    const off = size(apart(Float32Array.from(given.data, Number), values)) / size(values);
    expect(off).toBeLessThan(0.05);
    // The package's are not normalised.
    const { logits } = await floats.begin({ hidden: wanted });
    const scores = logits.map((one) => one - logSum(logits));
    const scoresOff = apart((await whole.begin({ hidden: wanted })).logits, scores);
    // In all twelve voices and both rooms 0.030 to 0.069.
    expect(size(scoresOff) / Math.sqrt(scoresOff.length)).toBeLessThan(0.08);
    expect(scoresOff.reduce((most, one) => Math.max(most, Math.abs(one)), 0)).toBeLessThan(0.3);
  }
  await floats.close();
  await whole.close();
});

it('refuses what is not the encoder, or not the decoder', async () => {
  const [encoder, decoder] = [await loadGivenEncoder(), await loadGivenDecoder()];
  expect(() => withWholeConvolutions(Uint8Array.from(decoder))).toThrow(/no conv2/u);
  expect(() => withWholeScores(Uint8Array.from(encoder))).toThrow(/no node \/proj_out/u);
  expect(() => withWholeScores(Uint8Array.of(1, 2, 3))).toThrow(/ONNX/u);
});
