/**
 * Prints how well detectors cut recorded speech out of noise (docs/ear.md).
 * Usage: npx tsx tests/bench/vad.ts [folder of recordings] [every n-th clip]
 */
import { existsSync } from 'node:fs';
import { SEGMENTER } from '../../assistant/ear/vad/constants.ts';
import { Segmenter, type SpeechSegment } from '../../assistant/ear/vad/segmenter.ts';
import { FRAME_SAMPLES, endpointer, level, network, type Detector } from './vad-detectors.ts';
import { handpiece, inNoise, orders, seeded, speechBounds, suction } from './vad-sounds.ts';

interface Cut {
  readonly segments: readonly SpeechSegment[];
  /** When each segment was given out, ms of the stream. */
  readonly givenAtMs: readonly number[];
  readonly msPerFrame: number;
}

function run(detector: Detector, sound: Float32Array): Cut {
  const segmenter = new Segmenter(SEGMENTER);
  const segments: SpeechSegment[] = [];
  const givenAtMs: number[] = [];
  const began = performance.now();
  let frames = 0;
  for (let at = 0; at + FRAME_SAMPLES <= sound.length; at += FRAME_SAMPLES, frames += 1) {
    const frame = sound.subarray(at, at + FRAME_SAMPLES);
    for (const event of segmenter.push(frame, detector(frame)))
      if (event.kind === 'segment') {
        segments.push(event);
        givenAtMs.push((at + FRAME_SAMPLES) / 16);
      }
  }
  return { segments, givenAtMs, msPerFrame: (performance.now() - began) / frames };
}

const [folder = '../shared/voice', every = '1'] = process.argv.slice(2);
if (!existsSync(`${folder}/orders`)) throw new Error(`no recordings in ${folder}`);
const { clips: all, kitchen } = orders(folder);
const clips = all.filter((_, i) => i % Number(every) === 0);
const quantile = (xs: readonly number[], q: number): number =>
  xs.toSorted((a, b) => a - b)[Math.min(xs.length - 1, Math.floor(xs.length * q))] ?? Number.NaN;

const detectors: Record<string, () => Detector> = {
  'network v6': network('v6'),
  'network v5': network('v5'),
  'level +9 dB': level(9),
  'endpointer mode 0': await endpointer(0),
  'endpointer mode 3': await endpointer(3),
};
const noises = { kitchen, suction: suction(60), handpiece: handpiece(60) };

const row = (...cells: readonly (string | number)[]): void =>
  console.log(`| ${cells.join(' | ')} |`);
row(
  'detector',
  'dB',
  'found',
  'start cut',
  'tail cut',
  'in one piece',
  'delay p50',
  'delay p95',
  'ms/frame',
);
row('---', '--:', '--:', '--:', '--:', '--:', '--:', '--:', '--:');
for (const [name, make] of Object.entries(detectors))
  for (const snr of [24, 15, 9, 6]) {
    const random = seeded(snr);
    const delays: number[] = [];
    let found = 0;
    let startCut = 0;
    let tailCut = 0;
    let whole = 0;
    let cost = 0;
    for (const clip of clips) {
      const { sound, offset } = inNoise(clip, kitchen, snr, random);
      const bounds = speechBounds(clip);
      const fromMs = (offset + bounds.from) / 16;
      const toMs = (offset + bounds.to) / 16;
      const cut = run(make(), sound);
      cost += cut.msPerFrame / clips.length;
      const inside = cut.segments.filter((s) => s.endMs > fromMs && s.startMs < toMs);
      const last = inside.at(-1);
      if (!inside[0] || !last) continue;
      found += 1;
      if (inside[0].startMs > fromMs + 30) startCut += 1;
      if (last.endMs < toMs - 50) tailCut += 1;
      if (inside.length === 1) whole += 1;
      delays.push((cut.givenAtMs[cut.segments.indexOf(last)] ?? 0) - toMs);
    }
    const of = (n: number): string => `${n}/${clips.length}`;
    row(
      name,
      snr,
      of(found),
      startCut,
      tailCut,
      whole,
      Math.round(quantile(delays, 0.5)),
      Math.round(quantile(delays, 0.95)),
      cost.toFixed(2),
    );
  }

console.log();
row('false segments a minute (seconds of sound in them)', ...Object.keys(noises));
row('---', ...Object.keys(noises).map(() => '--:'));
for (const [name, make] of Object.entries(detectors))
  row(
    name,
    ...Object.values(noises).map((noise) => {
      const { segments } = run(make(), noise);
      const minutes = noise.length / 16_000 / 60;
      const seconds = segments.reduce((sum, s) => sum + (s.endMs - s.startMs) / 1000, 0);
      return `${(segments.length / minutes).toFixed(1)} (${(seconds / minutes).toFixed(1)} s)`;
    }),
  );
