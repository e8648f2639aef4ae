/**
 * The tensors that an ONNX file holds: those that keep their size in place, so that whoever writes
 * to their bytes changes the file; one of another size by writing the file anew.
 */
import { FIELD, inside } from './parts.ts';
import {
  type Bytes,
  changed,
  joined,
  lacking,
  ofBytes,
  ofNumber,
  ofText,
  textIn,
} from './written.ts';

const { model: MODEL, graph: GRAPH, tensor: TENSOR } = FIELD;

const nameOf = (tensor: Bytes): string => textIn(tensor, TENSOR.name);

/**
 * The values of the file's tensors by name, little-endian, as views into it: of those that lie
 * there as bytes or as one run of 32-bit floats.
 * @throws Error when it is no ONNX file with weights, or one cut off.
 */
export function onnxTensors(file: Bytes): ReadonlyMap<string, Bytes> {
  const found = new Map<string, Bytes>();
  for (const graph of inside(file, MODEL.graph)) {
    for (const tensor of inside(graph, GRAPH.initializer)) {
      const values = [TENSOR.raw, TENSOR.floats].flatMap((field) => [...inside(tensor, field)])[0];
      if (values !== undefined) found.set(nameOf(tensor), values);
    }
  }
  if (found.size === 0) throw new Error('this is no ONNX file with weights in it');
  return found;
}

/** A tensor that is put in another's place. */
export interface FreshTensor {
  /** `TensorProto.DataType`. */
  readonly type: number;
  readonly dims: readonly number[];
  /** Little-endian. */
  readonly bytes: Bytes;
}

/** A tensor as the file holds it. */
export const tensorOf = (name: string, { type, dims, bytes }: FreshTensor): Bytes =>
  joined([
    ...dims.map((dim) => ofNumber(TENSOR.dims, dim)),
    ofNumber(TENSOR.type, type),
    ofText(TENSOR.name, name),
    ofBytes(TENSOR.raw, bytes),
  ]);

/** A file like `file` in which the tensors named are those given; it has them already, of any size. */
export const withTensors = (file: Bytes, tensors: ReadonlyMap<string, FreshTensor>): Bytes =>
  changed(file, MODEL.graph, (graph) =>
    changed(graph, GRAPH.initializer, (tensor) => {
      const name = nameOf(tensor);
      const fresh = tensors.get(name);
      return fresh === undefined ? tensor : tensorOf(name, fresh);
    }),
  );

function graphWithoutShapes(graph: Bytes, output: string): Bytes {
  const bare = lacking(graph, FIELD.graph.valueInfo);
  const inner = changed(bare, FIELD.graph.node, (node) =>
    changed(node, FIELD.node.attribute, (attribute) =>
      changed(attribute, FIELD.attribute.graph, (branch) => graphWithoutShapes(branch, output)),
    ),
  );
  return changed(inner, FIELD.graph.output, (one) =>
    textIn(one, FIELD.valueInfo.name) === output
      ? changed(one, FIELD.valueInfo.type, (type) =>
          changed(type, FIELD.type.tensor, (tensor) => lacking(tensor, FIELD.tensorType.shape)),
        )
      : one,
  );
}

/**
 * A file like `file` that says nothing of the shape of `output`, nor of anything between, in its
 * graph and the branches of it: whoever runs it finds them out.
 */
export const withoutShapes = (file: Bytes, output: string): Bytes =>
  changed(file, MODEL.graph, (graph) => graphWithoutShapes(graph, output));
