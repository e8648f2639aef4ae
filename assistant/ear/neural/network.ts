import * as ort from 'onnxruntime-web/wasm';
import type { Pcm } from '../port.ts';
import type { NeuralOptions, Weights } from './options.ts';
import { BEGIN_TOKEN, KEPT } from './vocabulary.ts';

// Dimensions of the 27-million-parameter model, as its ONNX files declare them.
const LAYERS = 6;
const HEADS = 8;
const HEAD_SIZE = 36;
const HIDDEN = 288;

/** Floats of keys and values that the decoder keeps for one token. */
export const TOKEN_MEMORY = LAYERS * 2 * HEADS * HEAD_SIZE;

/** Scores in a row of {@link Step.logits}, one for each token kept. */
export const LOGITS = KEPT.length;

const SHAPE = { heads: HEADS, headSize: HEAD_SIZE };

type Feeds = Record<string, ort.Tensor>;

/** What a step asks of the decoder: it would copy out the encoder's keys and values each time. */
const STEP_OUTPUTS = ['logits', ...memoryNames(['decoder']).map((name) => `present.${name}`)];

/** Which of the encoders hears: the one fitted to rooms, or the package's own. */
export type Hearer = 'fitted' | 'given';

/** What an encoder made of one segment. */
export interface Encoded {
  readonly hidden: ort.Tensor;
}

/** Keys and values of what was decoded so far: the decoder's for each row, the encoder's for all. */
export interface Memory {
  readonly rows: number;
  /** Tokens remembered, and those there is room for: what comes after the former does not count. */
  readonly length: number;
  readonly room: number;
  readonly shape: { readonly heads: number; readonly headSize: number };
  readonly decoder: ReadonlyMap<string, Float32Array>;
  readonly encoder: ReadonlyMap<string, ort.Tensor>;
}

/** Scores for the next token: `rows` times {@link LOGITS} natural logarithms of probabilities. */
export interface Step {
  readonly logits: Float32Array;
  readonly memory: Memory;
  /** The step after this one, if what was guessed comes next: a token for each row. */
  readonly guessed: { readonly next: readonly number[]; readonly step: Step } | null;
}

/** The ONNX graphs. Calls must not overlap. */
export class Network {
  readonly #encoders: Readonly<Record<Hearer, ort.InferenceSession>>;
  readonly #decoder: ort.InferenceSession;

  private constructor(
    encoders: Readonly<Record<Hearer, ort.InferenceSession>>,
    decoder: ort.InferenceSession,
  ) {
    this.#encoders = encoders;
    this.#decoder = decoder;
  }

  /** Loads the weights. @throws Error when a file cannot be fetched or is not the model. */
  static async load(options: NeuralOptions): Promise<Network> {
    configure(options);
    // The larger first: the runtime's memory never shrinks, and what the decoder's file took while
    // it was read is room enough for the encoders.
    const decoder = await session(options.decoder);
    const fitted = await session(options.encoder);
    return new Network({ fitted, given: await session(options.givenEncoder) }, decoder);
  }

  /** Encodes a segment of at least 0.1 s. */
  async encode(segment: Pcm, by: Hearer = 'fitted'): Promise<Encoded> {
    const input = new ort.Tensor('float32', segment, [1, segment.length]);
    const output = await this.#encoders[by].run({ input_values: input });
    const hidden = output['last_hidden_state'];
    if (hidden === undefined) throw new Error('the encoder gave no last_hidden_state');
    return { hidden };
  }

  /** The first step: one row that holds only the begin token; and further ones, if `guess` comes. */
  async begin(encoded: Encoded, guess: readonly number[] = []): Promise<Step> {
    const given = [BEGIN_TOKEN, ...guess];
    const feeds: Feeds = {
      input_ids: tokens(given, 1, given.length),
      encoder_hidden_states: encoded.hidden,
      use_cache_branch: flag(false),
    };
    for (const name of memoryNames(['decoder', 'encoder'])) {
      feeds[`past_key_values.${name}`] = state(new Float32Array(0), 1, 0);
    }
    const output = await this.#decoder.run(feeds);
    const encoder = new Map(memoryNames(['encoder']).map((name) => [name, present(output, name)]));
    return stepsOf(output, [given], 0, encoder);
  }

  /**
   * One more step: row i goes on from row `from[i]` of the memory with token `next[i]`; and one further,
   * if `guess[i]` comes after it: most of what a step takes it takes for any number of tokens.
   */
  async step(
    memory: Memory,
    from: readonly number[],
    next: readonly number[],
    guess: readonly number[] | null = null,
  ): Promise<Step> {
    const given = next.map((token, row) =>
      guess === null ? [token] : [token, guess[row] ?? token],
    );
    const output = await this.#decoder.run(this.#cached(memory, from, given), STEP_OUTPUTS);
    return stepsOf(output, given, memory.length, memory.encoder);
  }

  /**
   * Scores after each token of several transcripts, all in one run: of each row of tokens, from the one
   * row of `memory` on, as many times {@link LOGITS} as the longest has tokens.
   */
  async follow(memory: Memory, transcripts: readonly (readonly number[])[]): Promise<Float32Array> {
    const rows = transcripts.length;
    const length = Math.max(...transcripts.map((own) => own.length));
    const given = transcripts.map((own) =>
      Array.from({ length }, (_, at) => own[at] ?? BEGIN_TOKEN),
    );
    const output = await this.#decoder.run(
      this.#cached(
        memory,
        Array.from({ length: rows }, () => 0),
        given,
      ),
      ['logits'],
    );
    return floats(output['logits']);
  }

  /** What the decoder is given: row i goes on from row `from[i]` of the memory with the tokens `given[i]`. */
  #cached(memory: Memory, from: readonly number[], given: readonly (readonly number[])[]): Feeds {
    const rows = from.length;
    const feeds: Feeds = {
      input_ids: tokens(given.flat(), rows, given[0]?.length ?? 0),
      // Not looked at once keys and values are given, but the graph wants the input.
      encoder_hidden_states: new ort.Tensor('float32', new Float32Array(HIDDEN), [1, 1, HIDDEN]),
      use_cache_branch: flag(true),
    };
    for (const [name, values] of memory.decoder) {
      feeds[`past_key_values.${name}`] = state(gather(values, from, memory), rows, memory.length);
    }
    for (const [name, tensor] of memory.encoder) feeds[`past_key_values.${name}`] = tensor;
    return feeds;
  }

  /** Frees the graphs. */
  async close(): Promise<void> {
    await this.#encoders.fitted.release();
    await this.#encoders.given.release();
    await this.#decoder.release();
  }
}

function configure({ wasm, threads }: NeuralOptions): void {
  ort.env.wasm.numThreads = threads ?? 1;
  if (wasm?.wasm instanceof Uint8Array) ort.env.wasm.wasmBinary = wasm.wasm;
  const paths: { wasm?: string; mjs?: string } = {};
  if (wasm?.wasm !== undefined && !(wasm.wasm instanceof Uint8Array))
    paths.wasm = String(wasm.wasm);
  if (wasm?.mjs !== undefined) paths.mjs = String(wasm.mjs);
  if (Object.keys(paths).length > 0) ort.env.wasm.wasmPaths = paths;
}

function session(weights: Weights): Promise<ort.InferenceSession> {
  const options = {
    executionProviders: ['wasm'],
    graphOptimizationLevel: 'all',
    // Else the quantised vocabulary matrix is unpacked and turned over at every step.
    extra: { session: { disable_quant_qdq: '1' } },
  } as const;
  return weights instanceof Uint8Array
    ? ort.InferenceSession.create(weights, options)
    : ort.InferenceSession.create(String(weights), options);
}

/** Names of the keys and values of all layers, as the decoder graph spells them. */
export function memoryNames(parts: readonly string[]): string[] {
  return Array.from({ length: LAYERS }, (_, layer) => layer).flatMap((layer) =>
    parts.flatMap((part) => [`${layer}.${part}.key`, `${layer}.${part}.value`]),
  );
}

function decoderMemory(output: ort.InferenceSession.OnnxValueMapType): Map<string, Float32Array> {
  return new Map(memoryNames(['decoder']).map((name) => [name, floats(present(output, name))]));
}

function present(output: ort.InferenceSession.OnnxValueMapType, name: string): ort.Tensor {
  const tensor = output[`present.${name}`];
  if (tensor === undefined) throw new Error(`the decoder gave no present.${name}`);
  return tensor;
}

/** The steps that one run comes to, from the first: `given` are the tokens of each row, `length` came before. */
function stepsOf(
  output: ort.InferenceSession.OnnxValueMapType,
  given: readonly (readonly number[])[],
  length: number,
  encoder: Memory['encoder'],
): Step {
  const [rows, count] = [given.length, given[0]?.length ?? 0];
  const logits = floats(output['logits']);
  if (logits.length !== rows * count * LOGITS)
    throw new Error(
      `the decoder knows ${logits.length / rows / count} tokens, not the ${LOGITS} kept`,
    );
  const decoder = decoderMemory(output);
  const stepAt = (at: number): Step => ({
    logits: scoresAt(logits, at, count),
    memory: { rows, length: length + at + 1, room: length + count, shape: SHAPE, encoder, decoder },
    guessed:
      at + 1 === count
        ? null
        : { next: given.map((row) => row[at + 1] ?? BEGIN_TOKEN), step: stepAt(at + 1) },
  });
  return stepAt(0);
}

/** Of every row, which has the scores after each of `count` tokens, those after token `at`. */
function scoresAt(logits: Float32Array, at: number, count: number): Float32Array {
  if (count === 1) return logits;
  const own = new Float32Array(logits.length / count);
  for (let row = 0; row * LOGITS < own.length; row++) {
    const from = (row * count + at) * LOGITS;
    own.set(logits.subarray(from, from + LOGITS), row * LOGITS);
  }
  return own;
}

function floats(tensor: ort.Tensor | undefined): Float32Array {
  if (!(tensor?.data instanceof Float32Array)) throw new Error('the model gave no floats');
  return tensor.data;
}

function tokens(ids: readonly number[], rows: number, length: number): ort.Tensor {
  return new ort.Tensor('int64', BigInt64Array.from(ids, BigInt), [rows, length]);
}

function flag(value: boolean): ort.Tensor {
  return new ort.Tensor('bool', Uint8Array.of(value ? 1 : 0), [1]);
}

function state(values: Float32Array, rows: number, length: number): ort.Tensor {
  return new ort.Tensor('float32', values, [rows, HEADS, length, HEAD_SIZE]);
}

/** Of each row of `from` what is remembered, without what there was room for besides. */
function gather(values: Float32Array, from: readonly number[], memory: Memory): Float32Array {
  const { heads, headSize } = memory.shape;
  const [room, kept] = [memory.room * headSize, memory.length * headSize];
  const gathered = new Float32Array(from.length * heads * kept);
  from.forEach((row, index) => {
    for (let head = 0; head < heads; head++) {
      const start = (row * heads + head) * room;
      gathered.set(values.subarray(start, start + kept), (index * heads + head) * kept);
    }
  });
  return gathered;
}
