/**
 * Reads the float constants out of an ONNX file, nothing else: enough to run a
 * small network without loading a whole runtime for it.
 */
import { FIELD, FLOAT, inside, parts } from '../onnx/parts.ts';

/** A float tensor: its shape and its values in row-major order. */
export interface Tensor {
  readonly dims: readonly number[];
  readonly values: Float32Array;
}

const EMPTY: Uint8Array = new Uint8Array(0);

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
  const { tensor } = FIELD;
  for (const { field, value, bytes: own } of parts(bytes)) {
    if (field === tensor.dims) dims.push(...(own === null ? [value] : packedVarints(own)));
    else if (field === tensor.type) type = value;
    else if (own === null) continue;
    else if (field === tensor.name) name = text.decode(own);
    else if (field === tensor.raw || field === tensor.floats) raw = own;
  }
  if (type !== FLOAT) return null;
  // A copy: the file's tensors are not aligned to four bytes.
  const values = new Float32Array(new Uint8Array(raw).buffer);
  return { name, tensor: { dims, values } };
}

function collectNode(node: Uint8Array, into: Map<string, Tensor>): void {
  const [output] = inside(node, FIELD.node.output);
  for (const attribute of inside(node, FIELD.node.attribute)) {
    for (const graph of inside(attribute, FIELD.attribute.graph)) collectGraph(graph, into);
    for (const bytes of inside(attribute, FIELD.attribute.tensor)) {
      const read = bytes.length === 0 ? null : readTensor(bytes);
      if (read !== null) into.set(text.decode(output), read.tensor);
    }
  }
}

function collectGraph(graph: Uint8Array, into: Map<string, Tensor>): void {
  for (const node of inside(graph, FIELD.graph.node)) collectNode(node, into);
  for (const initializer of inside(graph, FIELD.graph.initializer)) {
    const read = readTensor(initializer);
    if (read !== null) into.set(read.name, read.tensor);
  }
}

/**
 * Every float constant of an ONNX model, by name, those of nested branches included.
 * @throws Error when the bytes are not an ONNX file.
 */
export function readOnnxConstants(model: Uint8Array): Map<string, Tensor> {
  const constants = new Map<string, Tensor>();
  for (const graph of inside(model, FIELD.model.graph)) collectGraph(graph, constants);
  return constants;
}
