/**
 * The speech / non-speech network of `@ricky0123/vad-web` (Silero, 16 kHz branch), run in
 * plain arithmetic. It is small (0.4 million multiplications a frame), so it needs no
 * runtime, gives the same answer in Node, page and worker, and answers at once.
 * tests/outside/speech-network.sound.test.ts holds it to onnxruntime-web on the same file.
 */
import { FRAME_SAMPLES } from './constants.ts';
import { readOnnxConstants, type Tensor } from './onnx-constants.ts';
import { BINS, readWindow, Spectrum, WINDOW } from './spectrum.ts';

const CONTEXT = 64;
const HIDDEN = 128;
const KERNEL = 3;

interface Convolution {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
  readonly inputs: number;
  readonly outputs: number;
  readonly stride: number;
}

/** Weights of the network, shared by any number of {@link SpeechNetwork}s. */
export interface SpeechWeights {
  /** What each window of the sound is weighed with before its spectrum. */
  readonly window: Float32Array;
  readonly encoder: readonly Convolution[];
  readonly inputGates: Float32Array;
  readonly hiddenGates: Float32Array;
  readonly gateBias: Float32Array;
  readonly output: Float32Array;
  readonly outputBias: number;
}

/**
 * Takes the 16 kHz weights out of a Silero v5 or v6 ONNX file.
 * @throws Error naming the tensor that is missing or has another shape.
 */
export function readSpeechWeights(model: Uint8Array): SpeechWeights {
  const constants = readOnnxConstants(model);
  const take = (suffix: string, dims: readonly number[]): Float32Array => {
    const name = `If_0_then_branch__Inline_0__${suffix}`;
    const tensor: Tensor | undefined = constants.get(name);
    if (!tensor) throw new Error(`speech weights: no tensor ${name}`);
    if (tensor.dims.join() !== dims.join())
      throw new Error(`speech weights: ${name} is ${tensor.dims.join('x')}, not ${dims.join('x')}`);
    return tensor.values;
  };
  const shapes = [
    { inputs: BINS, outputs: 128, stride: 1 },
    { inputs: 128, outputs: 64, stride: 2 },
    { inputs: 64, outputs: 64, stride: 2 },
    { inputs: 64, outputs: 128, stride: 1 },
  ];
  const inputBias = take('decoder.rnn.bias_ih', [4 * HIDDEN]);
  const hiddenBias = take('decoder.rnn.bias_hh', [4 * HIDDEN]);
  return {
    window: readWindow(take('stft.forward_basis_buffer', [2 * BINS, 1, WINDOW])),
    encoder: shapes.map((shape, i) => ({
      ...shape,
      weight: take(`encoder.${i}.reparam_conv.weight`, [shape.outputs, shape.inputs, KERNEL]),
      bias: take(`encoder.${i}.reparam_conv.bias`, [shape.outputs]),
    })),
    inputGates: take('decoder.rnn.weight_ih', [4 * HIDDEN, HIDDEN]),
    hiddenGates: take('decoder.rnn.weight_hh', [4 * HIDDEN, HIDDEN]),
    gateBias: inputBias.map((bias, i) => bias + (hiddenBias[i] ?? 0)),
    output: take('decoder.decoder.2.weight', [1, HIDDEN, 1]),
    outputBias: take('decoder.decoder.2.bias', [1])[0] ?? 0,
  };
}

/**
 * Adds to `sums` the products of as many rows of `weights` (a multiple of four, one after another)
 * with `values`. Four at once: each value is then fetched once for four, which halves the time.
 */
function addProducts(sums: Float32Array, weights: Float32Array, values: Float32Array): void {
  const { length } = values;
  for (let row = 0; row < sums.length; row += 4) {
    const first = row * length;
    const second = first + length;
    const third = second + length;
    const fourth = third + length;
    let [s0, s1, s2, s3] = [0, 0, 0, 0];
    for (let i = 0; i < length; i += 1) {
      const value = values[i] ?? 0;
      s0 += (weights[first + i] ?? 0) * value;
      s1 += (weights[second + i] ?? 0) * value;
      s2 += (weights[third + i] ?? 0) * value;
      s3 += (weights[fourth + i] ?? 0) * value;
    }
    sums[row] = (sums[row] ?? 0) + s0;
    sums[row + 1] = (sums[row + 1] ?? 0) + s1;
    sums[row + 2] = (sums[row + 2] ?? 0) + s2;
    sums[row + 3] = (sums[row + 3] ?? 0) + s3;
  }
}

/** One convolution (kernel 3, one zero each side) and ReLU over rows of time. */
function convolve(layer: Convolution, rows: Float32Array): Float32Array {
  const { inputs, outputs, stride, weight, bias } = layer;
  const times = rows.length / inputs;
  const steps = Math.floor((times - 1) / stride) + 1;
  const out = new Float32Array(steps * outputs);
  const patch = new Float32Array(inputs * KERNEL);
  for (let t = 0; t < steps; t += 1) {
    for (let k = 0; k < KERNEL; k += 1) {
      const row = t * stride + k - 1;
      const inside = row >= 0 && row < times;
      for (let c = 0; c < inputs; c += 1)
        patch[c * KERNEL + k] = inside ? (rows[row * inputs + c] ?? 0) : 0;
    }
    const sums = out.subarray(t * outputs, (t + 1) * outputs);
    sums.set(bias);
    addProducts(sums, weight, patch);
    for (let o = 0; o < outputs; o += 1) sums[o] = Math.max(0, sums[o] ?? 0);
  }
  return out;
}

const sigmoid = (x: number): number => 1 / (1 + Math.exp(-x));

/** A running network: it remembers what came before, so one stream, one network. */
export class SpeechNetwork {
  readonly #weights: SpeechWeights;
  readonly #spectrum: Spectrum;
  readonly #sound = new Float32Array(CONTEXT + FRAME_SAMPLES);
  readonly #gates = new Float32Array(4 * HIDDEN);
  readonly #hidden = new Float32Array(HIDDEN);
  readonly #cell = new Float32Array(HIDDEN);

  constructor(weights: SpeechWeights) {
    this.#weights = weights;
    this.#spectrum = new Spectrum(weights.window);
  }

  /** Forgets what came before, as at the start of a stream. */
  reset(): void {
    this.#sound.fill(0);
    this.forget();
  }

  /** Forgets what it made of what came before; the sound itself goes on. */
  forget(): void {
    this.#hidden.fill(0);
    this.#cell.fill(0);
  }

  /**
   * Probability, 0 to 1, that the next {@link FRAME_SAMPLES} samples hold speech.
   * @throws RangeError when the frame has another length.
   */
  probability(frame: Float32Array): number {
    if (frame.length !== FRAME_SAMPLES)
      throw new RangeError(`a frame has ${FRAME_SAMPLES} samples, not ${frame.length}`);
    this.#sound.copyWithin(0, FRAME_SAMPLES);
    this.#sound.set(frame, CONTEXT);
    let rows = this.#spectrum.rows(this.#sound);
    for (const layer of this.#weights.encoder) rows = convolve(layer, rows);
    this.#remember(rows);
    let sum = this.#weights.outputBias;
    for (let i = 0; i < HIDDEN; i += 1)
      sum += Math.max(0, this.#hidden[i] ?? 0) * (this.#weights.output[i] ?? 0);
    return sigmoid(sum);
  }

  /** One step of the long short-term memory; gates in order input, forget, cell, output. */
  #remember(input: Float32Array): void {
    const { inputGates, hiddenGates, gateBias } = this.#weights;
    this.#gates.set(gateBias);
    addProducts(this.#gates, inputGates, input);
    addProducts(this.#gates, hiddenGates, this.#hidden);
    for (let i = 0; i < HIDDEN; i += 1) {
      const gate = (n: number): number => this.#gates[n * HIDDEN + i] ?? 0;
      const cell = sigmoid(gate(1)) * (this.#cell[i] ?? 0) + sigmoid(gate(0)) * Math.tanh(gate(2));
      this.#cell[i] = cell;
      this.#hidden[i] = sigmoid(gate(3)) * Math.tanh(cell);
    }
  }
}
