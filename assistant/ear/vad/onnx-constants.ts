/**
 * Reads the float constants out of an ONNX file, nothing else: enough to run a
 * small network without loading a whole runtime for it.
 * Wire format: Protocol Buffers encoding; field numbers: onnx.proto3 of ONNX IR.
 */

/** A float tensor: its shape and its values in row-major order. */
export interface Tensor {
  readonly dims: readonly number[];
  readonly values: Float32Array;
}

interface Field {
  readonly number: number;
  /** Varint value, or 0 for other wire types. */
  readonly value: number;
  /** Bytes of a length-delimited field, or empty. */
  readonly bytes: Uint8Array;
}

const EMPTY: Uint8Array = new Uint8Array(0);
const FLOAT = 1;
const MODEL_GRAPH = 7;
const GRAPH_NODE = 1;
const GRAPH_INITIALIZER = 5;
const NODE_OUTPUT = 2;
const NODE_ATTRIBUTE = 5;
const ATTRIBUTE_TENSOR = 5;
const ATTRIBUTE_GRAPH = 6;
const TENSOR_DIMS = 1;
const TENSOR_TYPE = 2;
const TENSOR_FLOATS = 4;
const TENSOR_NAME = 8;
const TENSOR_RAW = 9;

function* fieldsOf(bytes: Uint8Array): Generator<Field> {
  let at = 0;
  const varint = (): number => {
    let value = 0;
    let scale = 1;
    for (;;) {
      const byte = bytes[at];
      if (byte === undefined) throw new Error('ONNX file ends in the middle of a field');
      at += 1;
      // Beyond 2^53 precision goes, but only int64 slice bounds are that large and none is used.
      value += (byte & 0x7f) * scale;
      if (byte < 0x80) return value;
      scale *= 128;
    }
  };
  while (at < bytes.length) {
    const key = varint();
    const number = Math.floor(key / 8);
    const wire = key % 8;
    if (wire === 0) yield { number, value: varint(), bytes: EMPTY };
    else if (wire === 1) at += 8;
    else if (wire === 5) at += 4;
    else if (wire === 2) {
      const length = varint();
      if (at + length > bytes.length) throw new Error('ONNX file ends in the middle of a field');
      yield { number, value: 0, bytes: bytes.subarray(at, at + length) };
      at += length;
    } else throw new Error(`ONNX file has an unknown wire type ${wire}`);
  }
}

function packedVarints(bytes: Uint8Array): number[] {
  const values: number[] = [];
  let value = 0;
  let scale = 1;
  for (const byte of bytes) {
    value += (byte & 0x7f) * scale;
    scale *= 128;
    if (byte < 0x80) {
      values.push(value);
      value = 0;
      scale = 1;
    }
  }
  return values;
}

const text = new TextDecoder();

function readTensor(bytes: Uint8Array): { name: string; tensor: Tensor } | null {
  const dims: number[] = [];
  let type = 0;
  let name = '';
  let raw: Uint8Array = EMPTY;
  for (const field of fieldsOf(bytes)) {
    if (field.number === TENSOR_DIMS)
      dims.push(...(field.bytes.length > 0 ? packedVarints(field.bytes) : [field.value]));
    else if (field.number === TENSOR_TYPE) type = field.value;
    else if (field.number === TENSOR_NAME) name = text.decode(field.bytes);
    else if (field.number === TENSOR_RAW || field.number === TENSOR_FLOATS) raw = field.bytes;
  }
  if (type !== FLOAT) return null;
  // A copy: the file's tensors are not aligned to four bytes.
  const values = new Float32Array(new Uint8Array(raw).buffer);
  return { name, tensor: { dims, values } };
}

function collectNode(node: Uint8Array, into: Map<string, Tensor>): void {
  let output = '';
  for (const field of fieldsOf(node)) {
    if (field.number === NODE_OUTPUT && output === '') output = text.decode(field.bytes);
    if (field.number !== NODE_ATTRIBUTE) continue;
    for (const part of fieldsOf(field.bytes)) {
      if (part.number === ATTRIBUTE_GRAPH) collectGraph(part.bytes, into);
      if (part.number !== ATTRIBUTE_TENSOR || part.bytes.length === 0) continue;
      const read = readTensor(part.bytes);
      if (read) into.set(output, read.tensor);
    }
  }
}

function collectGraph(graph: Uint8Array, into: Map<string, Tensor>): void {
  for (const field of fieldsOf(graph)) {
    if (field.number === GRAPH_NODE) collectNode(field.bytes, into);
    if (field.number === GRAPH_INITIALIZER) {
      const read = readTensor(field.bytes);
      if (read) into.set(read.name, read.tensor);
    }
  }
}

/**
 * Every float constant of an ONNX model, by name, those of nested branches included.
 * @throws Error when the bytes are not an ONNX file.
 */
export function readOnnxConstants(model: Uint8Array): Map<string, Tensor> {
  const constants = new Map<string, Tensor>();
  for (const field of fieldsOf(model))
    if (field.number === MODEL_GRAPH) collectGraph(field.bytes, constants);
  return constants;
}
