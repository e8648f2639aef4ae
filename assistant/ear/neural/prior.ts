import { type Encoded, type Memory, memoryNames, type Network, TOKEN_MEMORY } from './network.ts';
import { logProbability, rowOf } from './scores.ts';
import { BEGIN_TOKEN, END_TOKEN } from './vocabulary.ts';

/** A beginning of a transcript, as the decoder sees it when there is next to nothing to hear. */
export interface PriorNode {
  readonly parent: PriorNode | null;
  readonly token: number;
  readonly depth: number;
  readonly children: Map<number, PriorNode>;
  /** Log-probabilities of the next tokens asked for so far. */
  readonly scores: Map<number, number>;
  /** The decoder's keys and values for this node's own token; null until it was run. */
  memory: Float32Array | null;
}

/** Beginnings run before all are forgotten: each keeps {@link TOKEN_MEMORY} floats, about 14 kB. */
const MOST_RUN = 3_000;

const node = (parent: PriorNode | null, token: number): PriorNode => ({
  parent,
  token,
  depth: parent === null ? 0 : parent.depth + 1,
  children: new Map(),
  scores: new Map(),
  memory: null,
});

/**
 * What the decoder expects from the beginning of a transcript alone. It does not depend on what is
 * heard, so it is worked out once per beginning and kept, whatever grammar asks.
 */
export class Prior {
  readonly #network: Network;
  readonly #quiet: Encoded;
  #quietMemory: Memory | null = null;
  #root = node(null, BEGIN_TOKEN);
  #run = 0;

  constructor(network: Network, quiet: Encoded) {
    this.#network = network;
    this.#quiet = quiet;
  }

  /** The empty beginning. Call once per segment: nodes of an earlier segment may be forgotten. */
  root(): PriorNode {
    if (this.#run > MOST_RUN) {
      this.#root = node(null, BEGIN_TOKEN);
      this.#run = 0;
    }
    return this.#root;
  }

  /** The beginning that goes on from `parent` with `token`. */
  child(parent: PriorNode, token: number): PriorNode {
    let child = parent.children.get(token);
    if (child === undefined) parent.children.set(token, (child = node(parent, token)));
    return child;
  }

  /** Sees to it that each node (all of one depth) has scores for the tokens wanted of it. */
  async fill(nodes: readonly PriorNode[], wanted: readonly ReadonlySet<number>[]): Promise<void> {
    const lacking = nodes.flatMap((one, index) => {
      const tokens = wanted[index] ?? new Set<number>();
      return [...tokens].some((token) => !one.scores.has(token)) ? [{ one, tokens }] : [];
    });
    const [first] = lacking;
    if (first === undefined) return;
    const { logits, memory } = await this.#decode(lacking.map(({ one }) => one));
    lacking.forEach(({ one, tokens }, index) => {
      // As of what is heard: nothing at all is out of the question.
      const row = rowOf(logits, index, one.parent === null ? END_TOKEN : null);
      for (const token of tokens) one.scores.set(token, logProbability(row, token));
      if (one.memory !== null) return;
      one.memory = lastMemory(memory, index);
      this.#run++;
    });
  }

  async #decode(nodes: readonly PriorNode[]) {
    if (nodes[0]?.parent === null) {
      const step = await this.#network.begin(this.#quiet);
      this.#quietMemory = step.memory;
      return step;
    }
    if (this.#quietMemory === null) throw new Error('the empty beginning is filled first');
    const past = joined(nodes, this.#quietMemory);
    return this.#network.step(
      past,
      nodes.map((_, index) => index),
      nodes.map(({ token }) => token),
    );
  }
}

/** Keys and values of the last token of one row, all layers one after another. */
function lastMemory(memory: Memory, row: number): Float32Array {
  const own = new Float32Array(TOKEN_MEMORY);
  const names = memoryNames(['decoder']);
  const { heads, headSize } = memory.shape;
  names.forEach((name, part) => {
    const values = memory.decoder.get(name) ?? new Float32Array(0);
    for (let head = 0; head < heads; head++) {
      const from = ((row * heads + head) * memory.room + memory.length - 1) * headSize;
      own.set(values.subarray(from, from + headSize), (part * heads + head) * headSize);
    }
  });
  return own;
}

/** The memory of what comes before each node, put together from its ancestors' own parts. */
function joined(nodes: readonly PriorNode[], like: Memory): Memory {
  const length = nodes[0]?.depth ?? 0;
  const { heads, headSize } = like.shape;
  const names = memoryNames(['decoder']);
  const size = heads * length * headSize;
  const decoder = new Map(names.map((name) => [name, new Float32Array(nodes.length * size)]));
  nodes.forEach((one, row) => {
    for (let above = one.parent; above !== null; above = above.parent) {
      const own = above.memory;
      if (own === null) throw new Error('a beginning is filled before it is gone on from');
      const position = above.depth;
      names.forEach((name, part) => {
        for (let head = 0; head < heads; head++) {
          const from = (part * heads + head) * headSize;
          decoder
            .get(name)
            ?.set(
              own.subarray(from, from + headSize),
              row * size + (head * length + position) * headSize,
            );
        }
      });
    }
  });
  return { ...like, rows: nodes.length, length, room: length, decoder };
}
