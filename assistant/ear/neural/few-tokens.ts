/** The decoder without the pieces of words that no English word is made of. */
import { UINT8 } from '../onnx/parts.ts';
import { onnxTensors, withoutShapes, withTensors } from '../onnx/tensors.ts';

/** The vocabulary's matrix: a row of whole numbers for each token, for reading and for writing it. */
const MATRIX = 'model.decoder.embed_tokens.weight_merged_0_quantized';
/** Numbers in a row. */
const WIDTH = 288;
/** What the graph's result is called whose length is the number of tokens. */
const SCORES = 'logits';

/**
 * The decoder's ONNX file with the vocabulary's rows `kept` alone: row i is what was row `kept[i]`.
 * Each step multiplies by the whole matrix, and two in five of its rows are of other scripts and of
 * program text, which is never said.
 * @throws Error when it is no such file.
 */
export function withTokens(decoder: Uint8Array, kept: readonly number[]): Uint8Array<ArrayBuffer> {
  const file = Uint8Array.from(decoder);
  const rows = onnxTensors(file).get(MATRIX);
  const last = Math.max(...kept);
  if (rows === undefined || rows.length % WIDTH > 0 || rows.length < (last + 1) * WIDTH)
    throw new Error(`the decoder's weights hold no ${MATRIX} of ${last + 1} tokens`);
  const bytes = new Uint8Array(kept.length * WIDTH);
  kept.forEach((token, row) =>
    bytes.set(rows.subarray(token * WIDTH, (token + 1) * WIDTH), row * WIDTH),
  );
  const fresh = { type: UINT8, dims: [kept.length, WIDTH], bytes };
  return withoutShapes(withTensors(file, new Map([[MATRIX, fresh]])), SCORES);
}
