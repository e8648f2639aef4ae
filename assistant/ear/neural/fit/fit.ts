/**
 * The encoder fitted to a loud room. What was learnt (tests/bench/fit/) is small changes of its
 * weights; here they are put into the weights as the package has them, so that the file with the
 * changes stays small and the package stays the source of the rest.
 */
import { z } from 'zod';
import { FLOAT } from '../../onnx/parts.ts';
import { type FreshTensor, onnxTensors, withTensors } from '../../onnx/tensors.ts';
import type { Bytes } from '../../onnx/written.ts';

const LINE_END = 10;
const LEVELS = 255;
/** What a factor's steps are counted in: it is kept as whole numbers from -127 to 127. */
const STEPS = 127;

/** What a fit file's first line says; the changes follow in this order. */
const Header = z.object({
  format: z.literal('seatcall-encoder-fit/2'),
  /** Length in bytes of the weights that it was made for. */
  of: z.number().int().positive(),
  changes: z.array(
    z.discriminatedUnion('kind', [
      /**
       * To a quantised matrix `rows` by `columns`, row after row, add the product of two factors.
       * They follow as `rank` scales (32-bit floats) and signed bytes, `rank` by `rows`; then the
       * same for `rank` by `columns`.
       */
      z.object({
        kind: z.literal('product'),
        name: z.string(),
        rows: z.number().int().positive(),
        columns: z.number().int().positive(),
        rank: z.number().int().positive(),
        /** The whole number that stands for none. */
        zero: z.number().int().min(1).max(254),
      }),
      /**
       * The same to the kernels of a convolution, `dims` of them: kernels, inputs, samples. The
       * graph makes weights of whole numbers, a scale and one float that is added; in place of the
       * one a float is put for every weight, for rounded to the scale the change would be lost.
       */
      z.object({
        kind: z.literal('kernels'),
        name: z.string(),
        dims: z.tuple([
          z.number().int().positive(),
          z.number().int().positive(),
          z.number().int().positive(),
        ]),
        rank: z.number().int().positive(),
      }),
      /** Put these `length` 32-bit floats, which follow, in the tensor's place. */
      z.object({
        kind: z.literal('floats'),
        name: z.string(),
        length: z.number().int().positive(),
      }),
    ]),
  ),
});
type Change = z.infer<typeof Header>['changes'][number];

/** Reads what follows the first line, piece by piece. */
class Payload {
  readonly #bytes: Bytes;
  #at: number;

  constructor(bytes: Bytes, at: number) {
    this.#bytes = bytes;
    this.#at = at;
  }

  get left(): number {
    return this.#bytes.length - this.#at;
  }

  take(length: number): Bytes {
    if (length > this.left) throw new Error('the fit file is cut off');
    this.#at += length;
    return this.#bytes.slice(this.#at - length, this.#at);
  }

  floats(length: number): Float32Array<ArrayBuffer> {
    return new Float32Array(this.take(length * 4).buffer);
  }

  /** `rank` rows of `length`, each with its scale put to it. */
  factor(rank: number, length: number): readonly Float32Array[] {
    const scales = this.floats(rank);
    return Array.from(scales, (scale) =>
      Float32Array.from(new Int8Array(this.take(length).buffer), (step) => (step / STEPS) * scale),
    );
  }
}

function stored(tensors: ReadonlyMap<string, Bytes>, name: string, length: number): Bytes {
  const found = tensors.get(name);
  if (found?.length !== length) throw new Error(`the weights hold no ${name} of ${length} bytes`);
  return found;
}

const view = ({ buffer, byteOffset, byteLength }: Bytes): DataView =>
  new DataView(buffer, byteOffset, byteLength);

/** Adds the product of `a` and `b`, both `rank` rows, to `weights`, `columns` to a row. */
function addProduct(
  weights: Float32Array,
  a: readonly Float32Array[],
  b: readonly Float32Array[],
  columns: number,
): void {
  for (const [k, ofRows] of a.entries()) {
    const ofColumns = b[k] ?? new Float32Array(columns);
    for (let row = 0; row < ofRows.length; row++) {
      const share = ofRows[row] ?? 0;
      const start = row * columns;
      for (let column = 0; column < columns; column++)
        weights[start + column] = (weights[start + column] ?? 0) + share * (ofColumns[column] ?? 0);
    }
  }
}

const least = (values: Float32Array): number => values.reduce((a, b) => Math.min(a, b), 0);
const most = (values: Float32Array): number => values.reduce((a, b) => Math.max(a, b), 0);

/** Weights kept as whole numbers from 0 to 255, of which `zero` stands for none. */
function changeSteps(
  values: Bytes,
  scale: DataView,
  zero: number,
  apply: (weights: Float32Array) => void,
): void {
  const unit = scale.getFloat32(0, true);
  const weights = Float32Array.from(values, (step) => (step - zero) * unit);
  apply(weights);
  // The whole number for none stays, so the wider side sets the unit.
  const wider = Math.max(-least(weights) / zero, most(weights) / (LEVELS - zero));
  const fresh = Math.fround(wider);
  scale.setFloat32(0, fresh, true);
  for (const [at, weight] of weights.entries())
    values[at] = Math.min(LEVELS, Math.max(0, Math.round(weight / fresh) + zero));
}

type Of<Kind extends Change['kind']> = Extract<Change, { readonly kind: Kind }>;

/** A convolution's weights with the change, less what its whole numbers and their scale come to. */
function kernelsOf(
  { name, dims, rank }: Of<'kernels'>,
  tensors: ReadonlyMap<string, Bytes>,
  payload: Payload,
): FreshTensor {
  const [kernels, inputs, samples] = dims;
  const rest = new Float32Array(kernels * inputs * samples);
  stored(tensors, `${name}_quantized`, rest.length);
  rest.fill(view(stored(tensors, `${name}_zero_point`, 4)).getFloat32(0, true));
  const columns = inputs * samples;
  addProduct(rest, payload.factor(rank, kernels), payload.factor(rank, columns), columns);
  return { type: FLOAT, dims, bytes: new Uint8Array(rest.buffer) };
}

function changeMatrix(
  { name, rows, columns, rank, zero }: Of<'product'>,
  tensors: ReadonlyMap<string, Bytes>,
  payload: Payload,
): void {
  const [a, b] = [payload.factor(rank, rows), payload.factor(rank, columns)];
  const values = stored(tensors, `${name}_quantized`, rows * columns);
  const scale = view(stored(tensors, `${name}_scale`, 4));
  changeSteps(values, scale, zero, (weights) => addProduct(weights, a, b, columns));
}

function headerOf(line: Bytes): z.infer<typeof Header> {
  try {
    return Header.parse(JSON.parse(new TextDecoder().decode(line)));
  } catch (error) {
    throw new Error('the first line of the fit file is not that of one', { cause: error });
  }
}

/**
 * The encoder's ONNX file with the changes of the fit file in it; `encoder` itself stays as it is.
 * @throws Error when one of them is no such file, is cut off, or they do not belong together.
 */
export function fitEncoder(encoder: Uint8Array, fit: Uint8Array): Uint8Array<ArrayBuffer> {
  const changes = Uint8Array.from(fit);
  const end = changes.indexOf(LINE_END);
  const header = headerOf(changes.subarray(0, Math.max(0, end)));
  if (header.of !== encoder.length)
    throw new Error(`the fit is for weights of ${header.of} bytes, these are ${encoder.length}`);
  const fitted = Uint8Array.from(encoder);
  const tensors = onnxTensors(fitted);
  const payload = new Payload(changes, end + 1);
  const kernels = new Map<string, FreshTensor>();
  for (const one of header.changes) {
    if (one.kind === 'product') changeMatrix(one, tensors, payload);
    else if (one.kind === 'kernels')
      kernels.set(`${one.name}_zero_point`, kernelsOf(one, tensors, payload));
    else stored(tensors, one.name, one.length * 4).set(payload.take(one.length * 4));
  }
  if (payload.left > 0) throw new Error(`the fit file holds ${payload.left} bytes too many`);
  return withTensors(fitted, kernels);
}
