/** Noise put to speech as the speech-to-intent benchmark does (its README; commit 47b1ca6). */
import type { Pcm } from '../../assistant/ear/port.ts';
import { chance } from '../speech/noise.ts';

const FRAME = 2_048;

function loudestFrame(pcm: Pcm): number {
  let loudest = 0;
  for (let at = 0; at === 0 || at + FRAME <= pcm.length; at += FRAME) {
    let energy = 0;
    for (const sample of pcm.subarray(at, at + FRAME)) energy += sample * sample;
    loudest = Math.max(loudest, energy);
  }
  return loudest;
}

/**
 * `speech` in `noise`, `decibels` apart by their loudest frames, from a place in the noise that
 * `seed` picks, then divided by twice the peak.
 */
export function mix(speech: Pcm, noise: Pcm, decibels: number, seed: number): Pcm {
  const offset = Math.floor(chance(seed)() * Math.max(0, noise.length - speech.length));
  const part = noise.subarray(offset, offset + speech.length);
  const scale = Math.sqrt(loudestFrame(speech) / (loudestFrame(part) * 10 ** (decibels / 10)));
  const mixed = speech.map((sample, index) => sample + scale * (part[index] ?? 0));
  const peak = mixed.reduce((most, sample) => Math.max(most, Math.abs(sample)), 1e-9);
  return mixed.map((sample) => sample / (2 * peak));
}
