/**
 * The tensors that an ONNX file holds: those that keep their size in place, so that whoever writes to
 * their bytes changes the file; one of another size by writing the file anew. Field numbers from the open format's `onnx.proto`; protocol-buffer wire format.
 */

type Bytes = Uint8Array<ArrayBuffer>;

const MODEL_GRAPH = 7;
const GRAPH_INITIALIZER = 5;
const TENSOR = { dims: 1, type: 2, floats: 4, name: 8, raw: 9 } as const;
/** `TensorProto.DataType` of 32-bit floats. */
const FLOAT = 1;

const [VARINT, EIGHT_BYTES, BYTES, FOUR_BYTES] = [0, 1, 2, 5];

interface Part {
  readonly field: number;
  /** Null where a number stands in the part itself. */
  readonly bytes: Bytes | null;
  /** The part as it lies in the message, what comes before its bytes included. */
  readonly whole: Bytes;
}

/**
 * The parts of a message, in order.
 * @throws Error when it ends within a part or holds something that is no part.
 */
function* parts(message: Bytes): Generator<Part> {
  let at = 0;
  const varint = (): number => {
    let [value, scale] = [0, 1];
    for (;;) {
      const byte = message[at++];
      if (byte === undefined) throw new Error('this ONNX file is cut off');
      value += (byte & 127) * scale;
      if (byte < 128) return value;
      scale *= 128;
    }
  };
  const take = (length: number): Bytes => {
    if (at + length > message.length) throw new Error('this ONNX file is cut off');
    at += length;
    return message.subarray(at - length, at);
  };
  while (at < message.length) {
    const start = at;
    let bytes: Bytes | null = null;
    const key = varint();
    const [field, wire] = [Math.floor(key / 8), key % 8];
    if (wire === VARINT) varint();
    else if (wire === EIGHT_BYTES) take(8);
    else if (wire === FOUR_BYTES) bytes = take(4);
    else if (wire === BYTES) bytes = take(varint());
    else throw new Error('this is no ONNX file');
    yield { field, bytes, whole: message.subarray(start, at) };
  }
}

const inside = (message: Bytes, field: number): readonly Bytes[] =>
  [...parts(message)].flatMap((part) =>
    part.field === field && part.bytes !== null ? [part.bytes] : [],
  );

const nameOf = (tensor: Bytes): string =>
  inside(tensor, TENSOR.name)
    .map((bytes) => new TextDecoder().decode(bytes))
    .join('');

/**
 * The values of the file's tensors by name, little-endian, as views into it: of those that lie
 * there as bytes or as one run of 32-bit floats.
 * @throws Error when it is no ONNX file with weights, or one cut off.
 */
export function onnxTensors(file: Bytes): ReadonlyMap<string, Bytes> {
  const found = new Map<string, Bytes>();
  for (const graph of inside(file, MODEL_GRAPH)) {
    for (const tensor of inside(graph, GRAPH_INITIALIZER)) {
      const values = inside(tensor, TENSOR.raw).at(-1) ?? inside(tensor, TENSOR.floats).at(-1);
      if (values !== undefined) found.set(nameOf(tensor), values);
    }
  }
  if (found.size === 0) throw new Error('this is no ONNX file with weights in it');
  return found;
}

/** A tensor of 32-bit floats. */
export interface FloatTensor {
  readonly dims: readonly number[];
  /** Little-endian. */
  readonly bytes: Bytes;
}

function asVarint(value: number): Bytes {
  const bytes: number[] = [];
  let rest = value;
  for (; rest >= 128; rest = Math.floor(rest / 128)) bytes.push((rest % 128) + 128);
  return Uint8Array.of(...bytes, rest);
}

function joined(pieces: readonly Bytes[]): Bytes {
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

const ofNumber = (field: number, value: number): Bytes =>
  joined([asVarint(field * 8 + VARINT), asVarint(value)]);
const ofBytes = (field: number, bytes: Bytes): Bytes =>
  joined([asVarint(field * 8 + BYTES), asVarint(bytes.length), bytes]);

const written = (name: string, { dims, bytes }: FloatTensor): Bytes =>
  joined([
    ...dims.map((dim) => ofNumber(TENSOR.dims, dim)),
    ofNumber(TENSOR.type, FLOAT),
    ofBytes(TENSOR.name, Uint8Array.from(new TextEncoder().encode(name))),
    ofBytes(TENSOR.raw, bytes),
  ]);

/** The message with every part of `field` that holds bytes as `change` has it. */
const changed = (message: Bytes, field: number, change: (bytes: Bytes) => Bytes): Bytes =>
  joined(
    [...parts(message)].map((part) =>
      part.field === field && part.bytes !== null ? ofBytes(field, change(part.bytes)) : part.whole,
    ),
  );

/** A file like `file` in which the tensors named are those given; it has them already, of any size. */
export const withTensors = (file: Bytes, tensors: ReadonlyMap<string, FloatTensor>): Bytes =>
  changed(file, MODEL_GRAPH, (graph) =>
    changed(graph, GRAPH_INITIALIZER, (tensor) => {
      const name = nameOf(tensor);
      const fresh = tensors.get(name);
      return fresh === undefined ? tensor : written(name, fresh);
    }),
  );
