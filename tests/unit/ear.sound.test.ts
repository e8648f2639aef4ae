import { beforeAll, describe, expect, it, vi } from 'vitest';
import { Ear, type EarOptions } from '../../assistant/ear/ear.ts';
import type { Hearing } from '../../assistant/ear/listener.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import type { SoundHandlers, SoundSource } from '../../assistant/ear/sound-source.ts';
import { RestKeeper } from '../../assistant/ear/rest-keeper.ts';
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
  readonly toldSpeaking: boolean[] = [];
  readonly heard: Hearing[] = [];
  handlers: SoundHandlers | null = null;
  levels = 0;
  levelledMs = 0;
  readonly levelsMs: number[] = [];
  readonly ear: Ear;
  /** Keeps back the sound of a room at rest, as the microphone does; null: all sound comes. */
  readonly #keeper: RestKeeper | null;
  #waiting: (() => void) | null = null;

  constructor(recogniser: Recogniser, more: Partial<EarOptions> = {}, keepsBack = false) {
    this.#keeper = keepsBack
      ? new RestKeeper({
          frameSamples: 512,
          whole: false,
          onHanded: (handed) => {
            if (handed.kind === 'rest') this.handlers?.onRest(handed.level, handed.rested);
            else this.handlers?.onSound(handed.sound, handed.rested);
          },
        })
      : null;
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
      onLevel: ({ ms }, atMs) => {
        this.levels += 1;
        this.levelledMs += ms;
        this.levelsMs.push(atMs);
      },
      ...more,
    });
  }

  async start(handlers: SoundHandlers): Promise<void> {
    this.handlers = handlers;
    handlers.onStart(this.#keeper !== null);
  }

  speaking(isSo: boolean): void {
    this.toldSpeaking.push(isSo);
    if (this.#keeper !== null) this.#keeper.open = isSo;
  }

  async stop(): Promise<void> {
    this.handlers = null;
  }

  play(pcm: Float32Array): void {
    for (let at = 0; at + 512 <= pcm.length; at += 512) {
      this.nowMs += 32;
      const frame = pcm.slice(at, at + 512);
      if (this.#keeper === null) this.handlers?.onSound(frame, 0);
      else this.#keeper.push(frame);
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

  it('hears the same from a source that keeps back a room at rest, with the level of all of it', async () => {
    const { pcm } = await buildTimeline({
      utterances: [4_000, 9_000].map((atMs) => ({
        atMs,
        text: 'lantern next step',
        voice: 'americanMan' as const,
      })),
      noises: [{ kind: 'hiss', snrDb: 45, seed: 4 }],
      tailMs: 6_000,
      rate: 16_000,
    });
    const heard = await Promise.all(
      [false, true].map(async (keepsBack) => {
        const bench = new Bench(engine, {}, keepsBack);
        await bench.ear.start();
        const { nowMs } = bench;
        bench.play(pcm);
        await vi.waitFor(() => expect(bench.heard).toHaveLength(2));
        expect(bench.toldSpeaking).toEqual([true, false, true, false]);
        expect(bench.told).toEqual([]);
        // No stretch twice, and at the end at most half a second that is still to come.
        expect(bench.levelsMs).toEqual(bench.levelsMs.toSorted((one, other) => one - other));
        const lacksMs = bench.nowMs - nowMs - bench.levelledMs;
        expect(Math.round(lacksMs)).toBeGreaterThanOrEqual(0);
        expect(lacksMs).toBeLessThan(512);
        return bench;
      }),
    );
    const [all, kept] = heard.map((bench) =>
      bench.heard.map((hearing) => ({ ...hearing, decodeMs: 0 })),
    );
    expect(kept).toEqual(all);
    expect(kept?.map(({ phrase }) => phrase)).toEqual(['next step', 'next step']);
    expect(heard[1]?.levels).toBeLessThan((heard[0]?.levels ?? 0) / 2);
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

  it.each([
    ['', false],
    [', where a room at rest is kept back', true],
  ])('a dead and an overdriven microphone are told, and their end%s', async (_where, keepsBack) => {
    const bench = new Bench(engine, {}, keepsBack);
    await bench.ear.start();
    bench.play(new Float32Array(16_000 * 4));
    bench.play(new Float32Array(8_000).map((_, i) => (i % 40 < 20 ? 1 : -1)));
    bench.play(new Float32Array(16_000 * 6).fill(0.001));
    bench.play(new Float32Array(16_000 * 4));
    expect(bench.told).toEqual(['silent', 'well: silent', 'clipped', 'well: clipped', 'silent']);
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
    bench.handlers?.onStart(false);
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
