/**
 * The parts of an ONNX file, as they lie in it. Wire format: Protocol Buffers encoding; field
 * numbers: the open format's `onnx.proto`.
 */

/** The field numbers that the readers of this folder's neighbours need. */
export const FIELD = {
  model: { graph: 7 },
  graph: { node: 1, initializer: 5, output: 12, valueInfo: 13 },
  node: { input: 1, output: 2, name: 3, op: 4, attribute: 5 },
  attribute: { name: 1, number: 3, tensor: 5, graph: 6, numbers: 8, type: 20 },
  tensor: { dims: 1, type: 2, floats: 4, name: 8, raw: 9 },
  valueInfo: { name: 1, type: 2 },
  type: { tensor: 1 },
  tensorType: { shape: 2 },
} as const;

/** `TensorProto.DataType` of 32-bit floats, of whole numbers from 0 to 255 and of those of eight bytes. */
export const [FLOAT, UINT8, INT64] = [1, 2, 7];

/** `AttributeProto.AttributeType` of a whole number and of several. */
export const ATTRIBUTE = { number: 2, numbers: 7 } as const;

/** How a part is kept: a number of its own, eight bytes, bytes with their length before, four bytes. */
export const WIRE = { number: 0, eightBytes: 1, bytes: 2, fourBytes: 5 } as const;

export interface Part<B extends ArrayBufferLike = ArrayBufferLike> {
  readonly field: number;
  /** The number that stands in the part itself; 0 where bytes do. */
  readonly value: number;
  /** Null where a number stands in the part itself. */
  readonly bytes: Uint8Array<B> | null;
  /** The part as it lies in the message, what comes before its bytes included. */
  readonly whole: Uint8Array<B>;
}

/**
 * The parts of a message, in order, as views into it.
 * @throws Error when it ends within a part or holds something that is no part.
 */
export function* parts<B extends ArrayBufferLike>(message: Uint8Array<B>): Generator<Part<B>> {
  let at = 0;
  const varint = (): number => {
    let [value, scale] = [0, 1];
    for (;;) {
      const byte = message[at++];
      if (byte === undefined) throw new Error('the ONNX file ends in the middle of a field');
      // Beyond 2^53 precision goes, but only int64 slice bounds are that large and none is used.
      value += (byte & 127) * scale;
      if (byte < 128) return value;
      scale *= 128;
    }
  };
  const take = (length: number): Uint8Array<B> => {
    if (at + length > message.length)
      throw new Error('the ONNX file ends in the middle of a field');
    at += length;
    return message.subarray(at - length, at);
  };
  while (at < message.length) {
    const start = at;
    const key = varint();
    const [field, wire] = [Math.floor(key / 8), key % 8];
    let value = 0;
    let bytes: Uint8Array<B> | null = null;
    if (wire === WIRE.number) value = varint();
    else if (wire === WIRE.eightBytes) bytes = take(8);
    else if (wire === WIRE.fourBytes) bytes = take(4);
    else if (wire === WIRE.bytes) bytes = take(varint());
    else throw new Error(`this is no ONNX file: it has a part of kind ${wire}`);
    yield { field, value, bytes, whole: message.subarray(start, at) };
  }
}

/** The bytes of every part of `field`, in order. */
export function* inside<B extends ArrayBufferLike>(
  message: Uint8Array<B>,
  field: number,
): Generator<Uint8Array<B>> {
  for (const part of parts(message))
    if (part.field === field && part.bytes !== null) yield part.bytes;
}
