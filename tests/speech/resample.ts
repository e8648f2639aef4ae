/** Zero crossings of the kernel on each side; 16 keeps the stop band below -60 dB. */
const CROSSINGS = 16;

const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));

/** Blackman window over -1..1. */
const window = (x: number): number =>
  Math.abs(x) >= 1 ? 0 : 0.42 + 0.5 * Math.cos(Math.PI * x) + 0.08 * Math.cos(2 * Math.PI * x);

const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));

/**
 * Mono sound from one whole rate in hertz to another, by a windowed-sinc polyphase filter whose
 * pass band ends at 0.45 of the lower rate.
 */
export function resample(pcm: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return pcm;
  const step = gcd(from, to);
  const [up, down] = [to / step, from / step];
  const cutoff = 0.9 * Math.min(1, to / from);
  const half = Math.ceil(CROSSINGS / cutoff);
  const phases = Array.from({ length: up }, (_, phase) => {
    const taps = Float32Array.from({ length: 2 * half + 1 }, (__, tap) => {
      const distance = tap - half - phase / up;
      return cutoff * sinc(cutoff * distance) * window(distance / (half + 1));
    });
    const sum = taps.reduce((total, tap) => total + tap, 0);
    return taps.map((tap) => tap / sum);
  });
  const out = new Float32Array(Math.floor((pcm.length * up) / down));
  for (let i = 0; i < out.length; i++) {
    const position = i * down;
    const taps = phases[position % up];
    if (taps === undefined) continue;
    const first = Math.floor(position / up) - half;
    let sum = 0;
    for (let tap = 0; tap < taps.length; tap++) {
      sum += (taps[tap] ?? 0) * (pcm[first + tap] ?? 0);
    }
    out[i] = sum;
  }
  return out;
}
