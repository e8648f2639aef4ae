import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Sounding } from '../../assistant/ear/attention.ts';
import { listenToPcm, type OfflineHearing, type Standing } from '../../assistant/ear/offline.ts';
import type { Recogniser } from '../../assistant/ear/port.ts';
import type { SpeechWeights } from '../../assistant/ear/vad/speech-network.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { openNeuralRecogniser } from '../ear/neural.ts';
import { speak } from '../speech/index.ts';
import { buildTimeline, type Utterance } from '../speech/timeline.ts';

let weights: SpeechWeights;
let recogniser: Recogniser;
beforeAll(async () => {
  weights = await loadSpeechWeights();
  recogniser = await openNeuralRecogniser();
});
afterAll(() => recogniser.close());

const jsgf = (...phrases: readonly string[]): string =>
  `#JSGF V1.0; grammar now; public <phrase> = ${phrases.join(' | ')};`;

const voice = 'americanMan';
const talk = (...said: readonly (readonly [atMs: number, text: string])[]): Utterance[] =>
  said.map(([atMs, text]) => ({ atMs, text, voice }));

async function run(
  pcm: Float32Array,
  standing: (atMs: number) => Standing,
): Promise<OfflineHearing[]> {
  const hearings: OfflineHearing[] = [];
  for await (const hearing of listenToPcm(pcm, recogniser, { weights, standing }))
    hearings.push(hearing);
  return hearings;
}

const said = (hearings: readonly OfflineHearing[]): unknown[] =>
  hearings.map(({ kind, phrase }) => [kind, phrase]);

describe('the ear over a sound file', () => {
  it('hears a talk in file time, and what may be said changes as the talk goes on', async () => {
    const { pcm, spoken } = await buildTimeline({
      utterances: talk(
        [1_000, 'lantern'],
        [2_500, 'cleaner on'],
        [5_500, 'next step'],
        [16_000, 'next step'],
        [18_500, 'lantern next step'],
        [21_000, 'stop'],
      ),
      tailMs: 1_500,
      rate: 16_000,
    });
    let step = 0;
    const asked: number[] = [];
    const hearings: OfflineHearing[] = [];
    const standing = (atMs: number): Standing => {
      asked.push(atMs);
      return {
        phrases: step === 0 ? jsgf('cleaner on', 'rinsing') : jsgf('next step'),
        sounding: [],
      };
    };
    for await (const hearing of listenToPcm(pcm, recogniser, { weights, standing })) {
      hearings.push(hearing);
      if (hearing.accepted) step += 1;
    }
    // The bare "next step" at 16 s is long past the window: whatever is heard, it is no command.
    expect(said(hearings.filter((_, i) => i !== 3))).toEqual([
      ['attention', 'lantern'],
      ['command', 'cleaner on'],
      ['command', 'next step'],
      ['command', 'next step'],
      ['command', 'stop'],
    ]);
    expect(hearings[3]?.accepted).toBe(false);
    expect(asked).toEqual(hearings.map(({ completeMs }) => completeMs));
    hearings.forEach(({ startMs, endMs, completeMs }, i) => {
      const one = spoken[i];
      expect(Math.abs(startMs - (one?.startMs ?? 0))).toBeLessThan(200);
      expect(Math.abs(endMs - (one?.endMs ?? 0))).toBeLessThan(200);
      expect(completeMs - (one?.endMs ?? 0)).toBeLessThan(600);
    });
  });

  it('is silent over silence', async () => {
    const standing = (): Standing => ({ phrases: jsgf('next step'), sounding: [] });
    expect(await run(new Float32Array(48_000), standing)).toEqual([]);
    expect(await run(new Float32Array(0), standing)).toEqual([]);
  });

  it('a file that ends in the middle of a word is heard to its end', async () => {
    const clip = await speak('lantern, next step', voice);
    const { length } = clip;
    const hearings = await run(clip.subarray(0, length - 1_000), () => ({
      phrases: jsgf('next step'),
      sounding: [],
    }));
    expect(said(hearings)).toEqual([['command', 'next step']]);
  });
});

describe('our own voice in the microphone', () => {
  const text = 'Next step: cleaner on.';

  /** The call is heard at `gainDb` below a person; the window is open all the time. */
  async function withCall(gainDb: number, person: readonly Utterance[] = []): Promise<unknown[]> {
    const { pcm, spoken } = await buildTimeline({
      utterances: [
        { atMs: 1_000, text: 'lantern', voice },
        { atMs: 3_000, text, voice: 'britishWoman', gainDb },
        ...person,
      ],
      tailMs: 1_500,
      rate: 16_000,
    });
    const call = spoken.find((one) => one.text === text);
    if (!call) throw new Error('no call was said');
    const sounding: Sounding = { text, fromMs: call.startMs - 100, untilMs: call.endMs };
    const hearings = await run(pcm, (atMs) => ({
      phrases: jsgf('next step', 'cleaner on', 'next step cleaner on'),
      sounding: atMs > call.startMs ? [sounding] : [],
    }));
    return hearings.filter(({ accepted }) => accepted).map(({ phrase }) => phrase);
  }

  it('is not obeyed, as loud as a person or faint', async () => {
    for (const gainDb of [0, -12, -24]) expect(await withCall(gainDb)).toEqual([]);
  });

  it('a person right after it is obeyed', async () => {
    expect(await withCall(-24, [{ atMs: 6_000, text: 'next step', voice }])).toEqual(['next step']);
  });
});
