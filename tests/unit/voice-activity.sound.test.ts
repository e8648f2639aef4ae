import { existsSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { SpeechSegment } from '../../assistant/ear/vad/segmenter.ts';
import type { SpeechWeights } from '../../assistant/ear/vad/speech-network.ts';
import { VoiceActivity } from '../../assistant/ear/vad/voice-activity.ts';
import { loadSpeechWeights } from '../../assistant/ear/vad/weights-node.ts';
import { inNoise, orders, seeded } from '../bench/vad-sounds.ts';
import { VOICES, type VoiceName } from '../speech/index.ts';
import { handpiece, hiss, suction } from '../speech/noise.ts';
import { buildTimeline, type Noise } from '../speech/timeline.ts';

let weights: SpeechWeights;
beforeAll(async () => {
  weights = await loadSpeechWeights();
});

interface Given extends SpeechSegment {
  /** How much of the sound had come when the segment was given out, ms. */
  readonly givenMs: number;
}

/** Segments of a sound that comes in pieces of `piece` samples. */
function segmentsOf(pcm: Float32Array, piece = 512): Given[] {
  const vad = new VoiceActivity(weights);
  const given: Given[] = [];
  for (let at = 0; at < pcm.length; at += piece)
    for (const event of vad.push(pcm.subarray(at, at + piece)))
      if (event.kind === 'segment') given.push({ ...event, givenMs: (at + piece) / 16 });
  for (const event of vad.end())
    if (event.kind === 'segment') given.push({ ...event, givenMs: pcm.length / 16 });
  return given;
}

const isVoice = (name: string): name is VoiceName => name in VOICES;
const voices = Object.keys(VOICES).filter(isVoice);

describe.each<[string, Noise[]]>([
  ['quiet', []],
  ['suction at 10 dB', [{ kind: 'suction', snrDb: 10, seed: 5 }]],
  ['a handpiece at 10 dB', [{ kind: 'handpiece', snrDb: 10, seed: 5 }]],
])('two-word commands in %s', (_, noises) => {
  it('each voice, each command: found, both ends in it, in one piece, soon', async () => {
    const said = ['tack it', 'cleaner on', 'prep clean', 'silane on', 'stop'];
    const wrong: string[] = [];
    const delays: number[] = [];
    let parted = 0;
    for (const voice of voices) {
      const utterances = said.map((text, i) => ({ atMs: 1_000 + i * 3_000, text, voice }));
      const { pcm, spoken } = await buildTimeline({
        utterances,
        noises,
        tailMs: 1_500,
        rate: 16_000,
      });
      const segments = segmentsOf(pcm);
      for (const one of spoken) {
        const mine = segments.filter((s) => s.startMs < one.endMs && s.endMs > one.startMs);
        const [first] = mine;
        const last = mine.at(-1);
        const name = `${voice} "${one.text}"`;
        if (!first || !last) {
          wrong.push(`${name}: not found`);
          continue;
        }
        if (mine.length > 1) parted += 1;
        // 30 ms of what is 40 dB below the loudest tell a recogniser nothing.
        if (first.startMs > one.startMs + 30) wrong.push(`${name}: its beginning is cut`);
        if (last.endMs < one.endMs - 30) wrong.push(`${name}: its end is cut`);
        delays.push(last.givenMs - one.endMs);
      }
    }
    expect(wrong).toEqual([]);
    expect(parted).toBeLessThanOrEqual(2);
    const sorted = delays.toSorted((a, b) => a - b);
    expect(sorted[Math.floor(sorted.length * 0.5)]).toBeLessThan(600);
    expect(sorted[Math.floor(sorted.length * 0.95)]).toBeLessThan(600);
  });
});

describe.each([
  ['suction at 10 dB', { kind: 'suction', snrDb: 10, seed: 5 }, 0],
  ['suction at 5 dB', { kind: 'suction', snrDb: 5, seed: 5 }, 1],
  ['a handpiece at 5 dB', { kind: 'handpiece', snrDb: 5, seed: 5 }, 0],
] as const satisfies [string, Noise, number][])('after 20 s of %s', (_, noise, most) => {
  it(`a short word is missed in at most ${most} of the voices`, async () => {
    const utterances = voices.map((voice, i) => ({
      atMs: 20_000 + i * 5_000,
      text: 'stop',
      voice,
    }));
    const { pcm, spoken } = await buildTimeline({
      utterances,
      noises: [noise],
      tailMs: 1_500,
      rate: 16_000,
    });
    const segments = segmentsOf(pcm);
    const unheard = spoken.filter(
      ({ startMs, endMs }) => !segments.some((s) => s.startMs < endMs && s.endMs > startMs),
    );
    expect(unheard.length, unheard.map(({ voice }) => voice).join()).toBeLessThanOrEqual(most);
  });
});

describe('noise without speech', () => {
  it.each([
    ['digital silence', new Float32Array(160_000)],
    ['a quiet room', hiss(480_000, 2).map((x) => x * 0.001)],
    ['loud suction', suction(480_000, 16_000, 4).map((x) => x * 0.1)],
    ['a handpiece', handpiece(480_000, 16_000, 4).map((x) => x * 0.1)],
  ])('%s gives no segment', (_, pcm) => {
    expect(segmentsOf(pcm).map(({ startMs, endMs }) => [startMs, endMs])).toEqual([]);
  });
});

it('segments are the same however the sound is parted', async () => {
  const { pcm } = await buildTimeline({
    utterances: [{ atMs: 700, text: 'porcelain etch on', voice: voices[0] ?? 'scottishMan' }],
    tailMs: 900,
    rate: 16_000,
  });
  const bounds = (piece: number): number[][] =>
    segmentsOf(pcm, piece).map(({ startMs, endMs, pcm: sound }) => [startMs, endMs, sound.length]);
  expect(bounds(512)).toHaveLength(1);
  expect(bounds(128)).toEqual(bounds(512));
  expect(bounds(4_410)).toEqual(bounds(512));
});

// The recordings lie beside the repository, not in it.
const RECORDED = '../shared/voice';
describe.runIf(existsSync(`${RECORDED}/orders`))('recorded orders in kitchen noise', () => {
  it('are all found, nearly all in one piece; noise alone gives nothing', () => {
    const { clips, kitchen } = orders(RECORDED);
    const random = seeded(1);
    const some = clips.filter((_, i) => i % 10 === 0);
    const counts = some.map((clip) => segmentsOf(inNoise(clip, kitchen, 9, random).sound).length);
    expect(counts.filter((count) => count === 0)).toEqual([]);
    expect(counts.filter((count) => count === 1).length).toBeGreaterThanOrEqual(8);
    expect(segmentsOf(kitchen.subarray(0, 960_000))).toEqual([]);
  });
});
