/**
 * Noises of the surgery, from a seed. Their make-up (broad-band suction with a gurgle; a turbine's
 * whine near 6 kHz, as 360 000 turns a minute give, with a hiss) is from memory, not from a
 * published measurement: they are there to disturb, not to model a room.
 */

/** A stream of numbers in 0..1 that depends on `seed` alone (mulberry32). */
export function chance(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Root mean square of `pcm`. */
export function rms(pcm: Float32Array): number {
  let sum = 0;
  for (const sample of pcm) sum += sample * sample;
  return Math.sqrt(sum / Math.max(1, pcm.length));
}

/** Amplitude factor of a level in decibels. */
export const amplitude = (decibels: number): number => 10 ** (decibels / 20);

function atUnitLevel(pcm: Float32Array): Float32Array {
  const level = rms(pcm);
  return level === 0 ? pcm : pcm.map((sample) => sample / level);
}

/** A gaussian-like hiss of level 1: what a quiet room and a microphone's own noise come to. */
export function hiss(samples: number, seed: number): Float32Array {
  const next = chance(seed);
  return atUnitLevel(Float32Array.from({ length: samples }, () => next() + next() + next() - 1.5));
}

/** High-volume suction: turbulence below about 2 kHz, swelling slowly, gurgling when it meets water. */
export function suction(samples: number, rate: number, seed: number): Float32Array {
  const next = chance(seed);
  const [low, high] = [
    1 - Math.exp((-2 * Math.PI * 2_000) / rate),
    1 - Math.exp((-2 * Math.PI * 150) / rate),
  ];
  const out = new Float32Array(samples);
  let [smooth, rumble, gurgle, target] = [0, 0, 0, 0];
  for (let i = 0; i < samples; i++) {
    smooth += low * (2 * next() - 1 - smooth);
    rumble += high * (smooth - rumble);
    if (i % Math.round(rate / 14) === 0) target = next() < 0.3 ? next() : 0;
    gurgle += 0.002 * (target - gurgle);
    const swell = 1 + 0.2 * Math.sin((2 * Math.PI * 0.4 * i) / rate);
    out[i] = (smooth - rumble) * swell * (1 + 2 * gurgle);
  }
  return atUnitLevel(out);
}

/** An air-turbine handpiece: a wavering whine and its overtone, with the hiss of its exhaust. */
export function handpiece(samples: number, rate: number, seed: number): Float32Array {
  const next = chance(seed);
  const out = new Float32Array(samples);
  let [phase, load, target, previous] = [0, 0, 0, 0];
  for (let i = 0; i < samples; i++) {
    if (i % Math.round(rate / 3) === 0) target = next();
    load += 0.0005 * (target - load);
    // Under load a turbine slows by about a third.
    phase += (2 * Math.PI * 6_000 * (1 - 0.35 * load)) / rate;
    const white = 2 * next() - 1;
    const exhaust = white - 0.8 * previous;
    previous = white;
    out[i] = Math.sin(phase) + (rate > 26_000 ? 0.3 * Math.sin(2 * phase) : 0) + 0.5 * exhaust;
  }
  return atUnitLevel(out);
}
