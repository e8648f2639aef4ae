/** Real orders laid into noise by the public benchmark's mixing rule, and made-up surgery noise. */
import { readFileSync, readdirSync } from 'node:fs';

const RATE = 16_000;
const FRAME = 2048;

/** Reads a canonical 16-bit mono WAV (44-byte header). */
export function readWav(path: string): Float32Array {
  const bytes = new Uint8Array(readFileSync(path)).slice(44);
  const samples = new Int16Array(bytes.buffer, 0, bytes.length >> 1);
  return Float32Array.from(samples, (x) => x / 32_768);
}

/** A repeatable generator of numbers in 0..1 (mulberry32). */
export function seeded(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

function maxFrameEnergy(sound: Float32Array): number {
  let best = 0;
  for (let at = 0; at + FRAME <= sound.length; at += FRAME) {
    let energy = 0;
    for (let i = at; i < at + FRAME; i += 1) energy += (sound[i] ?? 0) ** 2;
    best = Math.max(best, energy);
  }
  return best;
}

/** First and last 10 ms of a clean clip within 35 dB of its loudest 10 ms, in samples. */
export function speechBounds(clean: Float32Array): { from: number; to: number } {
  const step = 160;
  const levels: number[] = [];
  for (let at = 0; at + step <= clean.length; at += step) {
    let energy = 1e-12;
    for (let i = at; i < at + step; i += 1) energy += (clean[i] ?? 0) ** 2;
    levels.push(10 * Math.log10(energy));
  }
  const peak = Math.max(...levels);
  const floor = levels.toSorted((a, b) => a - b)[Math.floor(levels.length / 10)] ?? -120;
  const speech = (x: number): boolean => x > Math.max(peak - 35, floor + 12);
  return { from: levels.findIndex(speech) * step, to: (levels.findLastIndex(speech) + 1) * step };
}

/** A clip with 1.5 s of noise around it, mixed at `snrDb`; `offset` is where the clip begins. */
export function inNoise(
  clip: Float32Array,
  noise: Float32Array,
  snrDb: number,
  random: () => number,
): { sound: Float32Array; offset: number } {
  const offset = 1.5 * RATE;
  const length = clip.length + 2 * offset;
  const from = Math.floor(random() * (noise.length - length));
  const scale = Math.sqrt(maxFrameEnergy(clip) / (maxFrameEnergy(noise) * 10 ** (snrDb / 10)));
  const sound = new Float32Array(length);
  for (let i = 0; i < length; i += 1)
    sound[i] = scale * (noise[from + i] ?? 0) + (clip[i - offset] ?? 0);
  const peak = sound.reduce((max, x) => Math.max(max, Math.abs(x)), 0);
  return { sound: sound.map((x) => x / (2 * peak)), offset };
}

/** Suction: low-passed hiss with a slow gurgle. Invented, no recording behind it. */
export function suction(seconds: number): Float32Array {
  const random = seeded(7);
  let low = 0;
  return Float32Array.from({ length: seconds * RATE }, (_, i) => {
    low += 0.25 * (random() * 2 - 1 - low);
    return 0.4 * low * (1 + 0.5 * Math.sin((2 * Math.PI * 3.1 * i) / RATE));
  });
}

/** Handpiece: a whine of 5.2 kHz and 2.6 kHz that sags under load, and hiss. Invented. */
export function handpiece(seconds: number): Float32Array {
  const random = seeded(11);
  let phase = 0;
  return Float32Array.from({ length: seconds * RATE }, (_, i) => {
    const sag = 1 - 0.15 * Math.max(0, Math.sin((2 * Math.PI * 0.4 * i) / RATE));
    phase += (2 * Math.PI * 2600 * sag) / RATE;
    return 0.15 * Math.sin(phase) + 0.1 * Math.sin(2 * phase) + 0.05 * (random() * 2 - 1);
  });
}

/** The recorded orders and the kitchen noise of a folder laid out as ../shared/voice. */
export function orders(folder: string): { clips: Float32Array[]; kitchen: Float32Array } {
  const names = readdirSync(`${folder}/orders`).toSorted();
  return {
    clips: names.map((name) => readWav(`${folder}/orders/${name}`)),
    kitchen: readWav(`${folder}/noise-kitchen.wav`),
  };
}
