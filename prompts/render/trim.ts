/** Makes a clip of synthesised speech: silence off its ends, one loudness for all. Pure. */

const FRAME_MS = 10;
/** Below the loudest frame by this much, it is silence; synthesised speech has no noise of its own. */
const SILENCE_DB = -42;
/** Kept before the first sound and after the last, so that no consonant is cut. */
const LEAD_MS = 15;
const TAIL_MS = 45;
/** Silence between one piece of a call and the next. */
const GAP_MS = 110;
/** Loudness of the spoken frames, below full scale. */
const LOUDNESS_DB = -19;
/** No sample goes beyond this. */
const PEAK = 0.89;

const amplitude = (db: number): number => 10 ** (db / 20);

/** Root mean square of every whole frame of `size` samples. */
function frameLevels(pcm: Float32Array, size: number): readonly number[] {
  return Array.from({ length: Math.floor(pcm.length / size) }, (_, i) => {
    const frame = pcm.subarray(i * size, (i + 1) * size);
    return Math.sqrt(frame.reduce((sum, sample) => sum + sample * sample, 0) / size);
  });
}

/**
 * `pcm` (mono, -1..1, `rate` hertz) trimmed to its speech, brought to -19 dB full scale over the
 * spoken frames as far as peaks of 0.89 allow, with the gap to the next piece at its end.
 * @throws RangeError when there is no speech in it.
 */
export function toClip(pcm: Float32Array, rate: number): Float32Array {
  const size = Math.round((rate * FRAME_MS) / 1000);
  const levels = frameLevels(pcm, size);
  const floor = Math.max(...levels, 0) * amplitude(SILENCE_DB);
  const spoken = levels.map((level) => level > floor);
  const [first, last] = [spoken.indexOf(true), spoken.lastIndexOf(true)];
  if (first === -1) throw new RangeError('nothing but silence');
  const samples = (ms: number): number => Math.round((rate * ms) / 1000);
  const start = Math.max(0, first * size - samples(LEAD_MS));
  const end = Math.min(pcm.length, (last + 1) * size + samples(TAIL_MS));
  const power = levels.filter((_, i) => spoken[i]).reduce((sum, level) => sum + level * level, 0);
  const loudness = Math.sqrt(power / spoken.filter(Boolean).length);
  const peak = pcm.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const gain = Math.min(amplitude(LOUDNESS_DB) / loudness, PEAK / peak);
  const clip = new Float32Array(end - start + samples(GAP_MS));
  clip.set(pcm.subarray(start, end).map((sample) => sample * gain));
  return clip;
}
