import { type Pcm, SAMPLE_RATE } from '../port.ts';

const FRAME = 0.02 * SAMPLE_RATE;
/** Kept before and after what is loud, seconds: weak fricatives begin and end words. */
const MARGIN = 0.3;
/** A frame this far below the loudest, in decibels, holds no speech worth hearing. */
const DEPTH = 28;
/** Quiet put before and after, seconds: the model drops words that start or end with the sound. */
export const QUIET_SECONDS = 0.25;
/** Peak of the dither: below the lowest bit of 16-bit sound, yet enough against digital silence. */
const DITHER = 1e-5;

/**
 * Cuts quiet from both ends and adds a little dither. Long silences cost time and make the model
 * stop early; exact zeroes make it unsure. The dither repeats, so a clip is always heard alike.
 */
export function prepare(segment: Pcm): Pcm {
  const { first, last } = loudRange(segment);
  const margin = MARGIN * SAMPLE_RATE;
  const kept = segment.subarray(
    Math.max(0, first - margin),
    Math.min(segment.length, last + margin),
  );
  const quiet = QUIET_SECONDS * SAMPLE_RATE;
  const prepared = new Float32Array(kept.length + 2 * quiet);
  prepared.set(kept, quiet);
  addDither(prepared, DITHER);
  return prepared;
}

/**
 * What the prior listens to: `seconds` of a noise that 16-bit sound just holds. The weights of the
 * confidence were fitted with it; a fainter one makes the prior so sure that it misleads.
 */
export function nearSilence(seconds: number): Pcm {
  const quiet = new Float32Array(seconds * SAMPLE_RATE);
  addDither(quiet, 1e-4);
  return quiet;
}

function addDither(pcm: Pcm, peak: number): void {
  let seed = 1;
  for (let index = 0; index < pcm.length; index++) {
    // A linear congruential generator (multiplier of Numerical Recipes, from memory) is random enough.
    seed = (Math.imul(seed, 1_664_525) + 1_013_904_223) | 0;
    pcm[index] = (pcm[index] ?? 0) + (seed / 2 ** 31) * peak;
  }
}

/** Sample numbers from the first to after the last frame that is loud against the loudest. */
function loudRange(segment: Pcm): { first: number; last: number } {
  const energies: number[] = [];
  for (let start = 0; start < segment.length; start += FRAME) {
    let sum = 0;
    for (const sample of segment.subarray(start, start + FRAME)) sum += sample * sample;
    energies.push(sum);
  }
  const floor = Math.max(...energies, 0) / 10 ** (DEPTH / 10);
  const isLoud = (energy: number): boolean => energy > floor;
  const first = energies.findIndex(isLoud);
  if (first === -1) return { first: 0, last: segment.length };
  return { first: first * FRAME, last: (energies.findLastIndex(isLoud) + 1) * FRAME };
}
