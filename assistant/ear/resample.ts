/** Sound at another rate to 16 kHz, piece by piece, for machines that cannot give 16 kHz. */
import { SAMPLE_RATE, type Pcm } from './port.ts';

/** Zero crossings of the filter on each side. */
const LOBES = 16;

/**
 * A streaming resampler: band-limited interpolation by a windowed sinc.
 * Method: J. O. Smith and P. Gossett, Proc. IEEE ICASSP 1984, 19.4.1-19.4.4.
 */
export class Resampler {
  readonly #step: number;
  readonly #cutoff: number;
  readonly #reach: number;
  #sound: Float32Array;
  /** Where the next output lies, in input samples from the start of `#sound`. */
  #at: number;

  /** @throws RangeError when `inputRate` (hertz) is not between 8 and 192 kHz. */
  constructor(inputRate: number) {
    if (!(inputRate >= 8_000 && inputRate <= 192_000))
      throw new RangeError(`sound at ${inputRate} hertz cannot be used; 8000 to 192000 can`);
    this.#step = inputRate / SAMPLE_RATE;
    // Below the lower of both half rates, with room for the filter's slope.
    this.#cutoff = Math.min(1, SAMPLE_RATE / inputRate) * 0.95;
    this.#reach = Math.ceil(LOBES / this.#cutoff);
    this.#sound = new Float32Array(this.#reach);
    this.#at = this.#reach;
  }

  /** Takes the next piece; gives what can be said for sure, a filter's reach behind. */
  push(piece: Pcm): Pcm {
    const sound = new Float32Array(this.#sound.length + piece.length);
    sound.set(this.#sound);
    sound.set(piece, this.#sound.length);
    const last = sound.length - this.#reach - 1;
    const count = Math.max(0, Math.floor((last - this.#at) / this.#step) + 1);
    const out = new Float32Array(count);
    for (let i = 0; i < count; i += 1) out[i] = this.#value(sound, this.#at + i * this.#step);
    this.#at += count * this.#step;
    const drop = Math.max(0, Math.floor(this.#at) - this.#reach);
    this.#sound = sound.slice(drop);
    this.#at -= drop;
    return out;
  }

  /** The rest, as if silence followed. */
  end(): Pcm {
    return this.push(new Float32Array(this.#reach + 1));
  }

  #value(sound: Float32Array, at: number): number {
    const centre = Math.floor(at);
    let sum = 0;
    for (let i = centre - this.#reach + 1; i <= centre + this.#reach; i += 1) {
      const x = (i - at) * this.#cutoff;
      if (Math.abs(x) >= LOBES) continue;
      const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
      const window = 0.5 + 0.5 * Math.cos((Math.PI * x) / LOBES);
      sum += (sound[i] ?? 0) * sinc * window;
    }
    return sum * this.#cutoff;
  }
}
