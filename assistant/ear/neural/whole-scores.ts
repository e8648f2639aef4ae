/**
 * The decoder's last product, by the vocabulary's matrix, in whole numbers. The package keeps that matrix
 * in whole numbers too, but has the runtime unpack it, twice, and multiply floats. What comes out are the
 * logarithms of probabilities.
 */
import { type FreshNode, withNodes } from '../onnx/nodes.ts';
import type { Bytes } from '../onnx/written.ts';
import { inSteps, multiplied, STEP_TENSORS, stepsOf, type Whole } from './whole-numbers.ts';

const EMBEDDING = 'model.decoder.embed_tokens.weight';
/** Its columns are the tokens. */
const VOCABULARY: Whole = {
  values: `${EMBEDDING}_transposed_quantized`,
  none: `${EMBEDDING}_merged_0_zero_point`,
  step: `${EMBEDDING}_merged_0_scale`,
};
/** What is multiplied: rows by 1 by the width of the model. */
const ROWS = '/model/decoder/norm/Mul_output_0';

const NODES: readonly FreshNode[] = [
  { op: 'Abs', from: [ROWS], to: ['scores.sizes'] },
  {
    op: 'ReduceMax',
    from: ['scores.sizes'],
    to: ['scores.largest'],
    attributes: { axes: [2], keepdims: 1 },
  },
  ...inSteps(ROWS, ['scores.largest'], 'scores.rows'),
  ...multiplied(stepsOf('scores.rows'), VOCABULARY, 'scores.logits'),
  // In one go, and with the processor's wide registers, instead of row by row afterwards.
  { op: 'LogSoftmax', from: ['scores.logits'], to: ['logits'], attributes: { axis: 2 } },
];

/**
 * The decoder's ONNX file with scores that are made in whole numbers.
 * @throws Error when it is no such file.
 */
export const withWholeScores = (decoder: Bytes): Bytes =>
  withNodes(decoder, {
    instead: new Map<string, readonly FreshNode[]>([
      ['/proj_out/MatMul', NODES],
      [`${EMBEDDING}_transposed_DequantizeLinear`, []],
    ]),
    tensors: STEP_TENSORS,
    without: new Set(),
  });
