import { readFile } from 'node:fs/promises';
import { expect, it } from 'vitest';
import { fitEncoder } from '../../assistant/ear/neural/fit/fit.ts';
import { onnxTensors } from '../../assistant/ear/neural/fit/onnx-tensors.ts';

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
  const header = JSON.stringify({ format: 'seatcall-encoder-fit/1', of, changes });
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

/** The weights of a matrix counted from `zero`, or of a convolution with its float added. */
function weightsOf(file: Uint8Array, name: string, zero: number | null): Float32Array {
  const tensors = onnxTensors(Uint8Array.from(file));
  const values = tensors.get(`${name}_quantized`) ?? new Uint8Array();
  const scale = float(tensors, `${name}_scale`);
  if (zero !== null) return Float32Array.from(values, (step) => (step - zero) * scale);
  const offset = float(tensors, `${name}_zero_point`);
  return Float32Array.from(values, (step) => ((step << 24) >> 24) * scale + offset);
}

it.each([
  { name: MATRIX, rows: 288, columns: 288, zero: 141 },
  { name: CONVOLUTION, rows: 288, columns: 127, zero: null },
])('adds a product of two factors to $name, and no more than rounding to the rest', (where) => {
  const { name, rows, columns, zero } = where;
  const payload = Buffer.concat([bytesOf(one(rows, 3, 2)), bytesOf(one(columns, 7, 2.5))]);
  const fit = fitFile([{ kind: 'product', ...where, rank: 1 }], payload);
  const before = weightsOf(encoder, name, zero);
  const fitted = fitEncoder(encoder, fit);
  const after = weightsOf(fitted, name, zero);
  const step = float(onnxTensors(fitted), `${name}_scale`);
  const changed = 3 * columns + 7;
  for (const [at, weight] of before.entries()) {
    const wanted = weight + (at === changed ? 5 : 0);
    expect(Math.abs((after[at] ?? 0) - wanted)).toBeLessThanOrEqual(step * 0.501);
  }
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
  expect(() => fitEncoder(cut, fitFile([change], payload, cut.length))).toThrow(/cut off/u);
  for (const text of ['no line', '{}\n', 'no header\n'])
    expect(() => fitEncoder(encoder, Buffer.from(text))).toThrow(/first line of the fit file/u);
  const noise = Buffer.from('nothing of the kind');
  expect(() => fitEncoder(noise, fitFile([change], payload, noise.length))).toThrow(/ONNX/u);
});
