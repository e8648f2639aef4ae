import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { espeak } from '../speech/espeak.ts';
import { VOICES, speak, type VoiceName } from '../speech/index.ts';
import { handpiece, hiss, rms, suction } from '../speech/noise.ts';
import { resample } from '../speech/resample.ts';
import { buildTimeline, oneAfterAnother } from '../speech/timeline.ts';

const tone = (hertz: number, rate: number): Float32Array =>
  Float32Array.from({ length: rate }, (_, i) => Math.sin((2 * Math.PI * hertz * i) / rate));

const isVoice = (name: string): name is VoiceName => name in VOICES;

describe('speak', () => {
  const names = Object.keys(VOICES).filter(isVoice);

  it('says the same words differently in every voice', async () => {
    const sounds = await Promise.all(names.map((name) => speak('saliva on the intaglio', name)));
    const print = sounds.map((pcm) => `${pcm.length} ${rms(pcm).toFixed(4)}`);
    expect(new Set(print).size).toBe(names.length);
    for (const pcm of sounds) {
      expect(pcm.length / 16_000).toBeGreaterThan(0.8);
      expect(pcm.length / 16_000).toBeLessThan(4);
      expect(rms(pcm)).toBeGreaterThan(0.01);
    }
  });

  it('gives the same samples again, and slower ones when stretched', async () => {
    const first = await speak('seated', 'britishWoman');
    expect(await speak('seated', 'britishWoman')).toEqual(first);
    const slow = await speak('seated', 'britishWoman', { stretch: 1.3 });
    expect(slow.length).toBeGreaterThan(first.length * 1.1);
  });
});

it('eSpeak says the same words alike, whatever it said before and whenever', async () => {
  const print = async (): Promise<string> => {
    // A breathy voice: its noise was drawn by the time of day.
    const { pcm } = await espeak('saliva on the inside', 'en-us', 'f2', 1);
    return createHash('sha256').update(new Uint8Array(pcm.buffer)).digest('hex').slice(0, 16);
  };
  const prints = [await print()];
  for (const [text, accent, variant] of [
    ['lantern, next step', 'en-gb-scotland', 'm3'],
    ['stop', 'en-gb-x-rp', 'f4'],
  ] as const) {
    await espeak(text, accent, variant, 1.2);
    await new Promise((resolve) => setTimeout(resolve, 600));
    prints.push(await print());
  }
  // On one machine; another must say it alike.
  expect(new Set(prints)).toEqual(new Set(['f41c05eab0944e91']));
});

describe('resample', () => {
  it('keeps a tone below the band edge and removes one above it', () => {
    // A tone that begins abruptly has every frequency, so its ends don't count.
    const left = (hertz: number, from: number, to: number): number =>
      20 * Math.log10(rms(resample(tone(hertz, from), from, to).slice(500, -500)) * Math.SQRT2);
    expect(left(1_000, 22_050, 16_000)).toBeCloseTo(0, 1);
    expect(left(3_000, 16_000, 48_000)).toBeCloseTo(0, 1);
    expect(left(10_000, 48_000, 16_000)).toBeLessThan(-70);
  });

  it('keeps the length in time', () => {
    expect(resample(tone(1_000, 22_050), 22_050, 16_000)).toHaveLength(16_000);
  });
});

describe('noise', () => {
  it('depends on its seed alone and has level 1', () => {
    for (const make of [
      (seed: number) => suction(16_000, 16_000, seed),
      (seed: number) => handpiece(16_000, 16_000, seed),
      (seed: number) => hiss(16_000, seed),
    ]) {
      expect(make(3)).toEqual(make(3));
      expect(make(3)).not.toEqual(make(4));
      expect(rms(make(3))).toBeCloseTo(1, 5);
    }
  });
});

describe('buildTimeline', () => {
  it('puts speech where it says and noise at the asked distance', async () => {
    const utterances = await oneAfterAnother(
      [
        { text: 'cleaner on', voice: 'americanMan' },
        { text: 'rinsed and dried', voice: 'scottishMan', gapMs: 2_000 },
      ],
      { startMs: 500 },
    );
    const quiet = await buildTimeline({ utterances, tailMs: 1_000, rate: 16_000 });
    const part = (fromMs: number, toMs: number, pcm: Float32Array): number =>
      20 * Math.log10(rms(pcm.subarray(fromMs * 16, toMs * 16)));
    const [first, second] = quiet.spoken;
    if (first === undefined || second === undefined) throw new Error('two were said');
    expect(second.startMs - first.endMs).toBeGreaterThan(1_990);
    expect(part(first.startMs, first.endMs, quiet.pcm)).toBeCloseTo(-24, 0);
    expect(part(first.endMs + 300, second.startMs - 300, quiet.pcm)).toBeCloseTo(-72, 0);
    const noisy = await buildTimeline({
      utterances,
      tailMs: 1_000,
      rate: 16_000,
      noises: [{ kind: 'suction', snrDb: 10, seed: 5 }],
    });
    expect(noisy.pcm).toHaveLength(Math.round((second.endMs + 1_000) * 16));
    expect(rms(noisy.pcm.map((v, i) => v - (quiet.pcm[i] ?? 0)))).toBeCloseTo(10 ** (-34 / 20), 4);
  });

  it('refuses overlapping speech', async () => {
    const utterances = [
      { atMs: 0, text: 'cleaner on', voice: 'americanMan' },
      { atMs: 100, text: 'rinsed', voice: 'americanMan' },
    ] as const;
    await expect(buildTimeline({ utterances, tailMs: 0 })).rejects.toThrow(
      '"rinsed" begins before "cleaner on" has ended',
    );
  });
});
