import { describe, expect, it } from 'vitest';
import type { ChannelHandlers } from '../../assistant/ear/worker/channel.ts';
import type { Request } from '../../assistant/ear/worker/protocol.ts';
import { serveRecogniser } from '../../assistant/ear/worker/serve.ts';
import { HANG_MS, WorkerRecogniser } from '../../assistant/ear/worker/worker-recogniser.ts';
import { written, WrittenRecogniser } from '../ear/written-recogniser.ts';

const GRAMMAR = '#JSGF V1.0; grammar g; public <a> = seating | next step;';

/** A clock whose time passes when told, and a worker in this thread that can die or hang. */
class Bench {
  nowMs = 0;
  started: { atMs: number }[] = [];
  deaths: string[] = [];
  ready = 0;
  /** Messages the current worker does not take while true. */
  hung = false;
  /** Workers that fail to open from now on. */
  failOpen = false;
  readonly seen: string[] = [];
  #timers: { dueMs: number; task: () => void }[] = [];
  #handlers: ChannelHandlers | null = null;

  readonly recogniser = new WorkerRecogniser<string>({
    engine: 'written',
    clock: {
      now: () => this.nowMs,
      at: (dueMs, task) => {
        const timer = { dueMs, task };
        this.#timers.push(timer);
        return () => {
          this.#timers = this.#timers.filter((other) => other !== timer);
        };
      },
    },
    onDeath: (why) => this.deaths.push(why),
    onReady: () => {
      this.ready += 1;
    },
    openChannel: (handlers) => {
      this.started.push({ atMs: this.nowMs });
      this.#handlers = handlers;
      let ended = false;
      const serve = serveRecogniser<string>(
        async () => {
          if (this.failOpen) throw new Error('no weights');
          return new WrittenRecogniser();
        },
        (reply) => {
          if (!ended) handlers.onReply(reply);
        },
      );
      return {
        send: (request: Request<string>) => {
          this.seen.push(request.kind);
          if (!this.hung) serve(request);
        },
        end: () => {
          ended = true;
        },
      };
    },
  });

  kill(): void {
    this.#handlers?.onDeath('killed');
  }

  pass(ms: number): void {
    const untilMs = this.nowMs + ms;
    for (;;) {
      const [next] = this.#timers.toSorted((a, b) => a.dueMs - b.dueMs);
      if (!next || next.dueMs > untilMs) break;
      this.#timers = this.#timers.filter((timer) => timer !== next);
      this.nowMs = Math.max(this.nowMs, next.dueMs);
      next.task();
    }
    this.nowMs = untilMs;
  }
}

const settle = async (): Promise<void> => {
  for (let i = 0; i < 50; i += 1) await Promise.resolve();
};

describe('a recogniser in a worker', () => {
  it('hears what it was loaded with', async () => {
    const { recogniser } = new Bench();
    await recogniser.load(GRAMMAR);
    expect(await recogniser.hear(written('seating'))).toEqual({
      phrase: 'seating',
      score: 0.9,
      sure: true,
    });
    expect(await recogniser.hear(written('sweeping'))).toBe(null);
  });

  it('refuses what is not JSGF with line and column', async () => {
    const { recogniser } = new Bench();
    await expect(
      recogniser.load('#JSGF V1.0;\ngrammar g;\npublic <a> = (b;'),
    ).rejects.toMatchObject({ name: 'JsgfError', line: 3 });
  });

  it('a failure inside the engine is the caller’s, not a death', async () => {
    const bench = new Bench();
    await expect(bench.recogniser.hear(written('seating'))).rejects.toThrow('no grammar loaded');
    expect(bench.deaths).toEqual([]);
  });
});

describe('a worker that dies', () => {
  it('is started again at once, with its grammar', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    bench.kill();
    expect(bench.deaths).toEqual(['killed']);
    bench.pass(0);
    await settle();
    expect(bench.started).toHaveLength(2);
    expect(bench.ready).toBe(2);
    expect(bench.seen).toEqual(['open', 'load', 'open', 'load']);
    expect(await bench.recogniser.hear(written('next step'))).toEqual({
      phrase: 'next step',
      score: 0.9,
      sure: true,
    });
  });

  it('in the middle of a segment hears it again', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    const heard = bench.recogniser.hear(written('seating'));
    bench.kill();
    bench.pass(0);
    expect(await heard).toEqual({ phrase: 'seating', score: 0.9, sure: true });
    expect(bench.seen).toEqual(['open', 'load', 'hear', 'open', 'load', 'hear']);
  });

  it('does not begin ahead again: the segment itself will come', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    const ahead = bench.recogniser.hearAhead(written('seating'));
    bench.kill();
    await expect(ahead).rejects.toThrow('recogniser died: killed');
    bench.pass(0);
    expect(await bench.recogniser.hear(written('seating'))).toMatchObject({ phrase: 'seating' });
    expect(bench.seen).toEqual(['open', 'load', 'hearAhead', 'open', 'load', 'hear']);
  });

  it('twice over one segment gives that segment up', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    bench.hung = true;
    const heard = bench.recogniser.hear(written('seating'));
    bench.kill();
    bench.pass(0);
    bench.kill();
    await expect(heard).rejects.toThrow('recogniser died: killed');
  });

  it('or hangs, is taken for dead', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    bench.hung = true;
    const heard = bench.recogniser.hear(written('seating'));
    bench.pass(HANG_MS - 1);
    expect(bench.deaths).toEqual([]);
    bench.hung = false;
    bench.pass(1);
    expect(bench.deaths).toEqual(['no answer within 10 s']);
    expect(await heard).toEqual({ phrase: 'seating', score: 0.9, sure: true });
  });

  it('an idle worker is not taken for dead', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    bench.pass(3_600_000);
    expect(bench.deaths).toEqual([]);
  });

  it('again and again is started after longer and longer waits', async () => {
    const bench = new Bench();
    bench.failOpen = true;
    for (let i = 0; i < 6; i += 1) {
      await settle();
      bench.pass(20_000);
    }
    const starts = bench.started.map(({ atMs }) => atMs);
    expect(starts).toEqual([0, 0, 20_250, 41_000, 65_000, 95_000, 115_000]);
    expect(bench.deaths[0]).toBe('no weights');
    bench.failOpen = false;
    await settle();
    bench.pass(20_000);
    await bench.recogniser.load(GRAMMAR);
    expect((await bench.recogniser.hear(written('seating')))?.phrase).toBe('seating');
  });

  it('after closing stays dead', async () => {
    const bench = new Bench();
    await bench.recogniser.load(GRAMMAR);
    await bench.recogniser.close();
    bench.kill();
    bench.pass(60_000);
    expect(bench.started).toHaveLength(1);
    await expect(bench.recogniser.hear(written('seating'))).rejects.toThrow('recogniser closed');
  });
});
