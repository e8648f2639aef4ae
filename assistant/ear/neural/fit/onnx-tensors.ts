/**
 * The tensors that an ONNX file holds, in place: whoever writes to their bytes changes the file.
 * Field numbers from the open format's `onnx.proto`; protocol-buffer wire format.
 */

type Bytes = Uint8Array<ArrayBuffer>;

const MODEL_GRAPH = 7;
const GRAPH_INITIALIZER = 5;
const TENSOR = { floats: 4, name: 8, raw: 9 } as const;

const [VARINT, EIGHT_BYTES, BYTES, FOUR_BYTES] = [0, 1, 2, 5];

interface Part {
  readonly field: number;
  readonly bytes: Bytes;
}

/**
 * The parts of a message that hold bytes.
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
    const key = varint();
    const [field, wire] = [Math.floor(key / 8), key % 8];
    if (wire === VARINT) varint();
    else if (wire === EIGHT_BYTES) take(8);
    else if (wire === FOUR_BYTES) yield { field, bytes: take(4) };
    else if (wire === BYTES) yield { field, bytes: take(varint()) };
    else throw new Error('this is no ONNX file');
  }
}

const inside = (message: Bytes, field: number): readonly Bytes[] =>
  [...parts(message)].flatMap((part) => (part.field === field ? [part.bytes] : []));

/**
 * The values of the file's tensors by name, little-endian, as views into it: of those that lie
 * there as bytes or as one run of 32-bit floats.
 * @throws Error when it is no ONNX file with weights, or one cut off.
 */
export function onnxTensors(file: Bytes): ReadonlyMap<string, Bytes> {
  const found = new Map<string, Bytes>();
  const read = new TextDecoder();
  for (const graph of inside(file, MODEL_GRAPH)) {
    for (const tensor of inside(graph, GRAPH_INITIALIZER)) {
      let name = '';
      let values: Bytes | null = null;
      for (const { field, bytes } of parts(tensor)) {
        if (field === TENSOR.name) name = read.decode(bytes);
        else if (field === TENSOR.raw || field === TENSOR.floats) values = bytes;
      }
      if (values !== null) found.set(name, values);
    }
  }
  if (found.size === 0) throw new Error('this is no ONNX file with weights in it');
  return found;
}
