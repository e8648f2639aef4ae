/** The page's side: a recogniser in a worker that is started again when it dies. */
import { parseJsgf } from '../../../prompts/grammar/index.ts';
import type { Clock } from '../../voice/clock.ts';
import type { Heard, Pcm, Recogniser } from '../port.ts';
import type { Channel, OpenChannel } from './channel.ts';
import type { Reply, Request } from './protocol.ts';

/** No segment takes nearly this long: a worker that does is taken for dead, ms. */
export const HANG_MS = 10_000;
/** Weights come from this machine; a slow disk is waited for, ms. */
export const OPEN_MS = 60_000;
/** Waits before a restart, after one, two, three... deaths without an answer between, ms. */
export const RESTART_MS: readonly number[] = [0, 250, 1_000, 5_000, 15_000];

export interface WorkerRecogniserOptions<Options> {
  readonly openChannel: OpenChannel<Options>;
  readonly engine: Options;
  readonly clock: Clock;
  /** The worker died and is being started again. */
  readonly onDeath: (why: string) => void;
  /** It answers (again). */
  readonly onReady: () => void;
}

type Order =
  | { readonly kind: 'load'; readonly grammar: string }
  | { readonly kind: 'hear' | 'hearAhead'; readonly pcm: Pcm };

interface Waiting {
  readonly id: number;
  readonly order: Order;
  /** Deaths this order has lived through; after the second it is given up. */
  deaths: number;
  readonly resolve: (heard: Heard | null) => void;
  readonly reject: (error: Error) => void;
}

export class WorkerRecogniser<Options> implements Recogniser {
  readonly #options: WorkerRecogniserOptions<Options>;
  #channel: Channel<Options> | null = null;
  #nextId = 1;
  #openId = 0;
  #ready = false;
  #closed = false;
  #deaths = 0;
  #grammar: string | null = null;
  #waiting: Waiting[] = [];
  #cancelTimer: () => void = () => undefined;

  constructor(options: WorkerRecogniserOptions<Options>) {
    this.#options = options;
    this.#start();
  }

  async load(grammar: string): Promise<void> {
    // Here, so that the error keeps its line and column; messages carry text only.
    parseJsgf(grammar);
    await this.#ask({ kind: 'load', grammar });
    this.#grammar = grammar;
  }

  hear(segment: Pcm): Promise<Heard | null> {
    return this.#ask({ kind: 'hear', pcm: segment });
  }

  async hearAhead(segment: Pcm): Promise<void> {
    await this.#ask({ kind: 'hearAhead', pcm: segment });
  }

  async close(): Promise<void> {
    this.#closed = true;
    this.#cancelTimer();
    this.#channel?.end();
    this.#channel = null;
    for (const waiting of this.#waiting.splice(0)) waiting.reject(new Error('recogniser closed'));
  }

  #ask(order: Order): Promise<Heard | null> {
    if (this.#closed) return Promise.reject(new Error('recogniser closed'));
    return new Promise((resolve, reject) => {
      const waiting = { id: this.#nextId, order, deaths: 0, resolve, reject };
      this.#nextId += 1;
      this.#waiting.push(waiting);
      if (this.#ready) this.#send(waiting);
    });
  }

  #start(): void {
    const channel: Channel<Options> = this.#options.openChannel({
      onReply: (reply) => {
        if (this.#channel === channel) this.#reply(reply);
      },
      onDeath: (why) => {
        if (this.#channel === channel) this.#die(why);
      },
    });
    this.#channel = channel;
    this.#openId = this.#nextId;
    this.#nextId += 1;
    const lock = `seatcall-ear-${crypto.randomUUID()}`;
    channel.send({ kind: 'open', id: this.#openId, options: this.#options.engine, lock });
    this.#watch(OPEN_MS);
  }

  #reply(reply: Reply): void {
    if (reply.id === this.#openId) {
      if (reply.kind === 'failed') this.#die(reply.message);
      else this.#whenOpen();
      return;
    }
    const index = this.#waiting.findIndex((waiting) => waiting.id === reply.id);
    const [waiting] = index < 0 ? [] : this.#waiting.splice(index, 1);
    this.#deaths = 0;
    this.#watch(HANG_MS);
    if (!waiting) return;
    if (reply.kind === 'failed') waiting.reject(new Error(reply.message));
    else waiting.resolve(reply.kind === 'heard' ? reply.heard : null);
  }

  /** The new worker knows nothing: first the grammar in force, then what waits, in order. */
  #whenOpen(): void {
    this.#ready = true;
    if (this.#grammar !== null && this.#waiting[0]?.order.kind !== 'load') {
      this.#channel?.send({ kind: 'load', id: this.#nextId, grammar: this.#grammar });
      this.#nextId += 1;
    }
    for (const waiting of this.#waiting) this.#send(waiting);
    this.#options.onReady();
    this.#watch(HANG_MS);
  }

  #send({ id, order }: Waiting): void {
    // A copy: should the worker die, the segment is still here to be sent again.
    const request: Request<Options> =
      order.kind === 'load'
        ? { kind: 'load', id, grammar: order.grammar }
        : { kind: order.kind, id, pcm: new Float32Array(order.pcm) };
    this.#channel?.send(request);
    this.#watch(HANG_MS);
  }

  #watch(withinMs: number): void {
    this.#cancelTimer();
    if (this.#ready && this.#waiting.length === 0) return;
    const dueMs = this.#options.clock.now() + withinMs;
    this.#cancelTimer = this.#options.clock.at(dueMs, () => {
      this.#die(`no answer within ${withinMs / 1000} s`);
    });
  }

  #die(why: string): void {
    this.#cancelTimer();
    this.#channel?.end();
    this.#channel = null;
    this.#ready = false;
    this.#options.onDeath(why);
    for (const waiting of this.#waiting) waiting.deaths += 1;
    // What was begun ahead is not begun again: should it have been the death, the segment itself comes.
    const isLost = ({ deaths, order }: Waiting): boolean =>
      deaths > 1 || order.kind === 'hearAhead';
    const lost = this.#waiting.filter(isLost);
    this.#waiting = this.#waiting.filter((waiting) => !isLost(waiting));
    for (const waiting of lost) waiting.reject(new Error(`recogniser died: ${why}`));
    const wait = RESTART_MS[Math.min(this.#deaths, RESTART_MS.length - 1)] ?? 0;
    this.#deaths += 1;
    const { clock } = this.#options;
    this.#cancelTimer = clock.at(clock.now() + wait, () => {
      if (!this.#closed) this.#start();
    });
  }
}
