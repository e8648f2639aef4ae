/** The decoder with fewer tokens says of those it kept what the package's own says. */
import * as ort from 'onnxruntime-web/wasm';
import { expect, it } from 'vitest';
import { withTokens } from '../../assistant/ear/neural/few-tokens.ts';
import { type Encoded, Network } from '../../assistant/ear/neural/network.ts';
import { KEPT, textOf } from '../../assistant/ear/neural/vocabulary.ts';
import { loadGivenDecoder, loadNeuralWeights } from '../../assistant/ear/neural/weights-node.ts';
import { speak } from '../speech/index.ts';

/** What the package's decoder expects at the beginning, for each token of the tokenizer. */
async function givenScores({ hidden }: Encoded): Promise<Float32Array> {
  const decoder = await ort.InferenceSession.create(await loadGivenDecoder());
  const nothing = new ort.Tensor('float32', new Float32Array(0), [1, 8, 0, 36]);
  const output = await decoder.run({
    ...Object.fromEntries(
      decoder.inputNames.filter((name) => name.startsWith('past')).map((name) => [name, nothing]),
    ),
    input_ids: new ort.Tensor('int64', BigInt64Array.of(1n), [1, 1]),
    encoder_hidden_states: hidden,
    use_cache_branch: new ort.Tensor('bool', Uint8Array.of(0), [1]),
  });
  await decoder.release();
  const scores = output['logits']?.data;
  if (!(scores instanceof Float32Array)) throw new Error('the decoder gave no logits');
  return scores;
}

it('the decoder says of the tokens kept what it said before', async () => {
  const decoder = withTokens(await loadGivenDecoder(), KEPT);
  const network = await Network.load({ ...(await loadNeuralWeights()), decoder });
  const encoded = await network.encode(await speak('lantern, cleaner on', 'americanMan'));
  const { logits } = await network.begin(encoded);
  const given = await givenScores(encoded);
  await network.close();
  expect(logits).toHaveLength(KEPT.length);
  const apart = KEPT.map((number, token) =>
    Math.abs((given[number] ?? NaN) - (logits[token] ?? NaN)),
  );
  expect(Math.max(...apart)).toBeLessThan(0.01);
  const best = logits.indexOf(Math.max(...logits));
  expect(textOf(best)).toBe('▁Lan');
});

it('refuses what is no such decoder', async () => {
  expect(() => withTokens(Uint8Array.of(1, 2, 3), [1])).toThrow(/ONNX/u);
  const decoder = await loadGivenDecoder();
  expect(() => withTokens(decoder, [40_000])).toThrow(/40001 tokens/u);
});
