/** ONNX graphs with other nodes in the place of some. */
import { ATTRIBUTE, FIELD, parts } from './parts.ts';
import { type FreshTensor, tensorOf } from './tensors.ts';
import { type Bytes, changed, joined, ofBytes, ofNumber, ofText, textIn } from './written.ts';

const { model: MODEL, graph: GRAPH, node: NODE, attribute: ATTRIBUTE_FIELD } = FIELD;

/** A node that is put into a graph: an operator of the standard, and what it is called by `to`. */
export interface FreshNode {
  readonly op: string;
  readonly from: readonly string[];
  readonly to: readonly string[];
  /** Whole numbers, none negative. */
  readonly attributes?: Readonly<Record<string, number | readonly number[]>>;
}

export interface Change {
  /** What stands in the place of the nodes named, in the graph and in the branches of it. */
  readonly instead: ReadonlyMap<string, readonly FreshNode[]>;
  /** Tensors that come to the outermost graph. */
  readonly tensors: ReadonlyMap<string, FreshTensor>;
  /** Tensors of the outermost graph that no node wants any more. */
  readonly without: ReadonlySet<string>;
}

function attributeOf([name, value]: readonly [string, number | readonly number[]]): Bytes {
  const values =
    typeof value === 'number'
      ? [ofNumber(ATTRIBUTE_FIELD.number, value)]
      : value.map((one) => ofNumber(ATTRIBUTE_FIELD.numbers, one));
  const type = typeof value === 'number' ? ATTRIBUTE.number : ATTRIBUTE.numbers;
  return joined([
    ofText(ATTRIBUTE_FIELD.name, name),
    ...values,
    ofNumber(ATTRIBUTE_FIELD.type, type),
  ]);
}

const nodeOf = ({ op, from, to, attributes = {} }: FreshNode): Bytes =>
  joined([
    ...from.map((name) => ofText(NODE.input, name)),
    ...to.map((name) => ofText(NODE.output, name)),
    ofText(NODE.op, op),
    ...Object.entries(attributes).map((one) => ofBytes(NODE.attribute, attributeOf(one))),
  ]);

function graphWith(graph: Bytes, change: Change, replaced: Set<string>): Bytes {
  const pieces = [...parts(graph)].flatMap(({ field, bytes, whole }) => {
    if (bytes === null) return [whole];
    if (field === GRAPH.initializer)
      return change.without.has(textIn(bytes, FIELD.tensor.name)) ? [] : [whole];
    if (field !== GRAPH.node) return [whole];
    const name = textIn(bytes, NODE.name);
    const instead = change.instead.get(name);
    if (instead !== undefined) {
      replaced.add(name);
      return instead.map((node) => ofBytes(GRAPH.node, nodeOf(node)));
    }
    const node = changed(bytes, NODE.attribute, (attribute) =>
      changed(attribute, ATTRIBUTE_FIELD.graph, (branch) => graphWith(branch, change, replaced)),
    );
    return [ofBytes(GRAPH.node, node)];
  });
  return joined(pieces);
}

/**
 * A file like `file` with the change in it.
 * @throws Error when it has no node of a name that something is to stand in the place of.
 */
export function withNodes(file: Bytes, change: Change): Bytes {
  const replaced = new Set<string>();
  const fresh = [...change.tensors].map(([name, tensor]) =>
    ofBytes(GRAPH.initializer, tensorOf(name, tensor)),
  );
  const made = changed(file, MODEL.graph, (graph) =>
    joined([graphWith(graph, change, replaced), ...fresh]),
  );
  for (const name of change.instead.keys())
    if (!replaced.has(name)) throw new Error(`the ONNX file has no node ${name}`);
  return made;
}
