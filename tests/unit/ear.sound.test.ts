import { beforeAll, describe, expect, it } from 'vitest';
import { Ear, type EarOptions } from '../../assistant/ear/ear.ts';
import type { Hearing } from '../../assistant/ear/listener.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import type { SoundHandlers, SoundSource } from '../../assistant/ear/sound-source.ts';
import { trouble } from '../../assistant/ear/trouble.ts';
import type { SpeechWeights } from '../../assistant/ear/vad/speech-network.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { createFiniteStateRecogniser } from '../ear/finite-state.ts';
import { buildTimeline } from '../speech/timeline.ts';

let weights: SpeechWeights;
let engine: Recogniser;
beforeAll(async () => {
  weights = await loadSpeechWeights();
  engine = await createFiniteStateRecogniser();
});

const PHRASES = '#JSGF V1.0; grammar now; public <phrase> = next step | go back;';

/** Sound that comes when the test says so, on the test's clock, 7 ms late as a browser's does. */
class Bench implements SoundSource {
  nowMs = 50_000;
  readonly told: string[] = [];
  readonly heard: Hearing[] = [];
  handlers: SoundHandlers | null = null;
  levels = 0;
  readonly ear: Ear;
  #waiting: (() => void) | null = null;

  constructor(recogniser: Recogniser, more: Partial<EarOptions> = {}) {
    this.ear = new Ear({
      source: this,
      recogniser,
      weights,
      now: () => this.nowMs,
      phrases: PHRASES,
      onHeard: (hearing) => {
        this.heard.push(hearing);
        this.#waiting?.();
      },
      onTrouble: ({ kind, detail }) => {
        this.told.push(`${kind}${detail === '' ? '' : `: ${detail}`}`);
        this.#waiting?.();
      },
      onWell: (kind) => this.told.push(`well: ${kind}`),
      onLevel: () => {
        this.levels += 1;
      },
      ...more,
    });
  }

  async start(handlers: SoundHandlers): Promise<void> {
    this.handlers = handlers;
    handlers.onStart();
  }

  async stop(): Promise<void> {
    this.handlers = null;
  }

  play(pcm: Float32Array): void {
    for (let at = 0; at + 512 <= pcm.length; at += 512) {
      this.nowMs += 32;
      this.handlers?.onFrame(pcm.slice(at, at + 512));
    }
  }

  /** Plays, and waits for the one thing that must be told after it. */
  async playAndWait(pcm: Float32Array): Promise<void> {
    const done = new Promise<void>((resolve) => {
      this.#waiting = resolve;
    });
    this.play(pcm);
    await done;
    // What follows in the same turn, such as the end of a trouble, is told by then.
    await Promise.resolve();
  }
}

const say = async (text: string): Promise<Float32Array> => {
  const { pcm } = await buildTimeline({
    utterances: [{ atMs: 500, text, voice: 'americanMan' }],
    tailMs: 800,
    rate: 16_000,
  });
  return pcm;
};

describe('the live ear', () => {
  it('hears a command, on the page’s clock, with a level for every frame', async () => {
    const starts: number[] = [];
    const bench = new Bench(engine, { onSpeech: (ms) => starts.push(ms) });
    await bench.ear.start();
    const pcm = await say('lantern next step');
    await bench.playAndWait(pcm);
    const [hearing] = bench.heard;
    expect(hearing).toMatchObject({ kind: 'command', phrase: 'next step', accepted: true });
    const startMs = (hearing?.startMs ?? 0) - 50_000;
    expect(startMs).toBeGreaterThan(400);
    expect(startMs).toBeLessThan(900);
    expect(starts).toEqual([hearing?.startMs]);
    expect(bench.levels).toBe(Math.floor(pcm.length / 512));
    expect(bench.told).toEqual([]);
  });

  it('phrases and call sign change while it listens', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    bench.ear.setCallSign('Beacon');
    bench.ear.setPhrases('#JSGF V1.0; grammar now; public <phrase> = say again;');
    await bench.playAndWait(await say('beacon say again'));
    expect(bench.heard.map(({ phrase }) => phrase)).toEqual(['say again']);
    expect(() => bench.ear.setCallSign('')).toThrow('is not a word');
  });

  it('needs no call sign when it was addressed by other means', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    bench.ear.addressed(bench.nowMs);
    await bench.playAndWait(await say('go back'));
    expect(bench.heard.map(({ phrase, accepted }) => [phrase, accepted])).toEqual([
      ['go back', true],
    ]);
  });

  it('does not obey the call that sounds', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    const from = bench.nowMs;
    const text = 'To go on say: lantern, next step.';
    bench.ear.speaking({ text, from, until: Infinity });
    const pcm = await say('lantern next step');
    await bench.playAndWait(pcm);
    expect(bench.heard.map(({ accepted, why }) => [accepted, why])).toEqual([[false, 'own voice']]);
    bench.ear.speaking({ text, from, until: bench.nowMs });
    await bench.playAndWait(pcm);
    expect(bench.heard.at(-1)?.accepted).toBe(true);
  });
});

describe('what is wrong', () => {
  it('a recogniser that fails is told once, and well again when it answers', async () => {
    let failing = true;
    const bench = new Bench({
      load: (grammar) => engine.load(grammar),
      hear: (pcm) => (failing ? Promise.reject(new Error('no memory')) : engine.hear(pcm)),
      close: () => engine.close(),
    });
    await bench.ear.start();
    const pcm = await say('lantern next step');
    await bench.playAndWait(pcm);
    expect(bench.told).toEqual(['recogniser: no memory']);
    failing = false;
    await bench.playAndWait(pcm);
    expect(bench.told).toEqual(['recogniser: no memory', 'well: recogniser']);
    expect(bench.heard.map(({ phrase }) => phrase)).toEqual(['next step']);
  });

  it('a dead and an overdriven microphone are told, and their end', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    bench.play(new Float32Array(16_000 * 4));
    bench.play(new Float32Array(8_000).map((_, i) => (i % 40 < 20 ? 1 : -1)));
    bench.play(new Float32Array(16_000 * 6).fill(0.001));
    expect(bench.told).toEqual(['silent', 'well: silent', 'clipped', 'well: clipped']);
  });

  it('speech that stays faint is told, and its end; our own faint calls are no speech', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    const pcm = await say('lantern next step');
    const faint = pcm.map((sample) => sample * 0.01);
    for (let call = 0; call < 4; call += 1) {
      const from = bench.nowMs;
      bench.ear.speaking({ text: 'Next step.', from, until: Infinity });
      await bench.playAndWait(faint);
      bench.ear.speaking({ text: 'Next step.', from, until: bench.nowMs });
    }
    // Longer than an echo.
    bench.play(new Float32Array(32_000).fill(0.0001));
    await bench.playAndWait(faint);
    await bench.playAndWait(faint);
    expect(bench.told).toEqual([]);
    await bench.playAndWait(faint);
    expect(bench.told).toEqual(['faint']);
    await bench.playAndWait(pcm);
    expect(bench.told).toEqual(['faint', 'well: faint']);
  });

  it('half a command before the microphone is lost goes with no other', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    const first = await say('lantern');
    bench.play(first.subarray(0, 14_000));
    bench.handlers?.onTrouble(trouble('lost'));
    bench.handlers?.onStart();
    await bench.playAndWait(await say('lantern go back'));
    expect(bench.told).toEqual(['lost']);
    expect(bench.heard.map(({ phrase }) => phrase)).toEqual(['go back']);
  });

  it('after stopping nothing is heard', async () => {
    const bench = new Bench(engine);
    await bench.ear.start();
    await bench.ear.stop();
    bench.play(await say('lantern next step'));
    expect(bench.levels).toBe(0);
  });
});
