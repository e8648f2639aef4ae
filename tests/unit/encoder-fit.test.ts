import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { fitEncoder } from '../../assistant/ear/neural/fit/fit.ts';
import { onnxTensors } from '../../assistant/ear/onnx/tensors.ts';

const MODEL = '../../node_modules/@usefulsensors/moonshine-js/dist/model/tiny/quantized/';
const encoder = await readFile(new URL(`${MODEL}encoder_model.onnx`, import.meta.url));
const [MATRIX, CONVOLUTION] = ['onnx::MatMul_1493', 'conv1.weight'];

interface Factor {
  readonly scale: number;
  /** Whole numbers from -127 to 127. */
  readonly steps: readonly number[];
}

const bytesOf = ({ scale, steps }: Factor): Buffer =>
  Buffer.concat([Buffer.from(Float32Array.of(scale).buffer), Buffer.from(Int8Array.from(steps))]);

function fitFile(changes: readonly object[], payload: Uint8Array, of = encoder.length): Buffer {
  const header = JSON.stringify({ format: 'seatcall-encoder-fit/2', of, changes });
  return Buffer.concat([Buffer.from(`${header}\n`), payload]);
}

/** A factor that is `scale` at one place. More than any weight here is, so the units change too. */
const one = (length: number, at: number, scale: number): Factor => ({
  scale,
  steps: Array.from({ length }, (_, i) => (i === at ? 127 : 0)),
});

function float(tensors: ReadonlyMap<string, Uint8Array>, name: string): number {
  const bytes = tensors.get(name);
  if (bytes === undefined) throw new Error(`no ${name}`);
  return new DataView(bytes.buffer, bytes.byteOffset).getFloat32(0, true);
}

/** The weights of a matrix, counted from `zero`. */
function matrixOf(file: Uint8Array, zero: number): Float32Array {
  const tensors = onnxTensors(Uint8Array.from(file));
  const scale = float(tensors, `${MATRIX}_scale`);
  const values = tensors.get(`${MATRIX}_quantized`) ?? new Uint8Array();
  return Float32Array.from(values, (step) => (step - zero) * scale);
}

/** The weights of a convolution as the graph makes them: to each its own float is added, or all one. */
function kernelsOf(file: Uint8Array): Float32Array {
  const tensors = onnxTensors(Uint8Array.from(file));
  const scale = float(tensors, `${CONVOLUTION}_scale`);
  const added = Uint8Array.from(tensors.get(`${CONVOLUTION}_zero_point`) ?? []);
  const floats = new Float32Array(added.buffer);
  return Float32Array.from(
    tensors.get(`${CONVOLUTION}_quantized`) ?? new Uint8Array(),
    (step, at) => ((step << 24) >> 24) * scale + (floats[floats.length > 1 ? at : 0] ?? 0),
  );
}

it('adds a product of two factors to a matrix, and no more than rounding to the rest', () => {
  const [rows, columns, zero] = [288, 288, 141];
  const payload = Buffer.concat([bytesOf(one(rows, 3, 2)), bytesOf(one(columns, 7, 2.5))]);
  const where = { name: MATRIX, rows, columns, zero, rank: 1 };
  const before = matrixOf(encoder, zero);
  const fitted = fitEncoder(encoder, fitFile([{ kind: 'product', ...where }], payload));
  const step = float(onnxTensors(fitted), `${MATRIX}_scale`);
  const after = matrixOf(fitted, zero);
  for (const [at, weight] of before.entries()) {
    const wanted = weight + (at === 3 * columns + 7 ? 5 : 0);
    expect(Math.abs((after[at] ?? 0) - wanted)).toBeLessThanOrEqual(step * 0.501);
  }
});

it('adds a product of two factors to the kernels of a convolution, and nothing to the rest', () => {
  const [kernels, samples] = [288, 127];
  const payload = Buffer.concat([bytesOf(one(kernels, 3, 2)), bytesOf(one(samples, 7, 2.5))]);
  const where = { name: CONVOLUTION, dims: [kernels, 1, samples], rank: 1 };
  const before = kernelsOf(encoder);
  const fitted = fitEncoder(encoder, fitFile([{ kind: 'kernels', ...where }], payload));
  const after = kernelsOf(fitted);
  for (const [at, weight] of before.entries()) {
    const wanted = weight + (at === 3 * samples + 7 ? 5 : 0);
    expect(Math.abs((after[at] ?? 0) - wanted)).toBeLessThan(1e-5);
  }
  // Everything else is there as it was.
  const [was, is] = [onnxTensors(Uint8Array.from(encoder)), onnxTensors(fitted)];
  const differing = [...was].filter(
    ([name, bytes]) => Buffer.compare(bytes, is.get(name) ?? Buffer.alloc(0)) !== 0,
  );
  expect(differing.map(([name]) => name)).toEqual([`${CONVOLUTION}_zero_point`]);
  expect(is.size).toBe(was.size);
});

it('puts floats in the place of floats, and leaves the given weights as they were', () => {
  const kept = Uint8Array.from(encoder);
  const floats = Float32Array.from({ length: 288 }, (_, i) => i / 7);
  const change = { kind: 'floats', name: 'layer_norm.weight', length: 288 };
  const fitted = fitEncoder(encoder, fitFile([change], Buffer.from(floats.buffer)));
  expect(Buffer.from(onnxTensors(fitted).get('layer_norm.weight') ?? [])).toEqual(
    Buffer.from(floats.buffer),
  );
  expect(Buffer.compare(encoder, kept)).toBe(0);
  expect(fitted.length).toBe(encoder.length);
});

it('refuses what does not belong to these weights, is cut off, or is none', () => {
  const change = { kind: 'floats', name: 'layer_norm.weight', length: 288 };
  const payload = Buffer.alloc(288 * 4);
  expect(() => fitEncoder(encoder, fitFile([change], payload, 5))).toThrow(/weights of 5 bytes/u);
  expect(() => fitEncoder(encoder, fitFile([change], payload.subarray(1)))).toThrow(/cut off/u);
  expect(() => fitEncoder(encoder, fitFile([], payload))).toThrow(/1152 bytes too many/u);
  const other = { ...change, name: 'no such tensor' };
  expect(() => fitEncoder(encoder, fitFile([other], payload))).toThrow(/hold no no such tensor/u);
  const cut = encoder.subarray(0, -1);
  expect(() => fitEncoder(cut, fitFile([change], payload, cut.length))).toThrow(
    /middle of a field/u,
  );
  for (const text of ['no line', '{}\n', 'no header\n'])
    expect(() => fitEncoder(encoder, Buffer.from(text))).toThrow(/first line of the fit file/u);
  const noise = Buffer.from('nothing of the kind');
  expect(() => fitEncoder(noise, fitFile([change], payload, noise.length))).toThrow(/ONNX/u);
});
