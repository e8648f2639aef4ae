/** The speech network's spectrum, by the fast Fourier transform. */

/** Samples a window has. */
export const WINDOW = 256;
const HOP = 128;
const EDGE = 64;

/** Magnitudes a window has. */
export const BINS = WINDOW / 2 + 1;

/** Cosine and sine of a window's n-th part of a turn, n below half the window. */
const COSINE = Float32Array.from({ length: WINDOW / 2 }, (_, n) => Math.cos(turn(n)));
const SINE = Float32Array.from({ length: WINDOW / 2 }, (_, n) => Math.sin(turn(n)));
/** Where each sample of a window goes first: its number with the bits turned round. */
const TURNED = Uint8Array.from({ length: WINDOW }, (_, n) =>
  Number.parseInt(n.toString(2).padStart(8, '0').split('').toReversed().join(''), 2),
);

function turn(n: number): number {
  return (2 * Math.PI * n) / WINDOW;
}

/** How far the file's numbers may be from the windowed transform that they are. */
const NEAR = 1e-5;

/**
 * The window out of the network's transform, which its file holds as a matrix: {@link BINS} rows
 * of cosines and as many of sines, {@link WINDOW} to a row, each under the window.
 * @throws Error when it is another transform: then this arithmetic would not be the network's.
 */
export function readWindow(basis: Float32Array): Float32Array {
  const window = basis.slice(0, WINDOW);
  for (let bin = 0; bin < BINS; bin += 1)
    for (let n = 0; n < WINDOW; n += 1) {
      const angle = turn((bin * n) % WINDOW);
      const real = (basis[bin * WINDOW + n] ?? 0) - (window[n] ?? 0) * Math.cos(angle);
      const imaginary =
        (basis[(bin + BINS) * WINDOW + n] ?? 0) + (window[n] ?? 0) * Math.sin(angle);
      if (Math.abs(real) > NEAR || Math.abs(imaginary) > NEAR)
        throw new Error('speech weights: the spectrum is no windowed Fourier transform');
    }
  return window;
}

/** `Math.hypot` guards against overflow, at ten times the time. */
const length = (a: number, b: number): number => Math.sqrt(a * a + b * b);

/** Transforms in place; both have {@link WINDOW} numbers, already in the order of {@link TURNED}. */
function transform(real: Float32Array, imaginary: Float32Array): void {
  for (let half = 1; half < WINDOW; half *= 2) {
    const stride = WINDOW / 2 / half;
    for (let start = 0; start < WINDOW; start += 2 * half)
      for (let k = 0; k < half; k += 1) {
        const [low, high] = [start + k, start + k + half];
        const [cosine, sine] = [COSINE[k * stride] ?? 0, SINE[k * stride] ?? 0];
        const [re, im] = [real[high] ?? 0, imaginary[high] ?? 0];
        const turnedRe = re * cosine + im * sine;
        const turnedIm = im * cosine - re * sine;
        real[high] = (real[low] ?? 0) - turnedRe;
        imaginary[high] = (imaginary[low] ?? 0) - turnedIm;
        real[low] = (real[low] ?? 0) + turnedRe;
        imaginary[low] = (imaginary[low] ?? 0) + turnedIm;
      }
  }
}

/** Magnitudes of a sound, window by window; made once, it keeps its room to work in. */
export class Spectrum {
  readonly #window: Float32Array;
  readonly #real = new Float32Array(WINDOW);
  readonly #imaginary = new Float32Array(WINDOW);

  constructor(window: Float32Array) {
    this.#window = window;
  }

  /** Rows of {@link BINS}, one every {@link HOP} samples, an even number. The right edge is reflected. */
  rows(sound: Float32Array): Float32Array {
    const reflected = new Float32Array(sound.length + EDGE);
    reflected.set(sound);
    for (let i = 0; i < EDGE; i += 1)
      reflected[sound.length + i] = sound[sound.length - 2 - i] ?? 0;
    const steps = (reflected.length - WINDOW) / HOP + 1;
    const rows = new Float32Array(steps * BINS);
    for (let t = 0; t < steps; t += 2) this.#two(reflected, t * HOP, rows, t * BINS);
    return rows;
  }

  /** Two windows at once: one is the real part, the next the imaginary. */
  #two(sound: Float32Array, at: number, rows: Float32Array, to: number): void {
    const [real, imaginary] = [this.#real, this.#imaginary];
    for (let n = 0; n < WINDOW; n += 1) {
      const place = TURNED[n] ?? 0;
      const weight = this.#window[n] ?? 0;
      real[place] = weight * (sound[at + n] ?? 0);
      imaginary[place] = weight * (sound[at + HOP + n] ?? 0);
    }
    transform(real, imaginary);
    for (let bin = 0; bin < BINS; bin += 1) {
      const mirror = (WINDOW - bin) % WINDOW;
      const [re, im] = [real[bin] ?? 0, imaginary[bin] ?? 0];
      const [mirrorRe, mirrorIm] = [real[mirror] ?? 0, imaginary[mirror] ?? 0];
      rows[to + bin] = length(re + mirrorRe, im - mirrorIm) / 2;
      rows[to + BINS + bin] = length(im + mirrorIm, mirrorRe - re) / 2;
    }
  }
}
