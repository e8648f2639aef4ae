import { describe, expect, it } from 'vitest';
import { BINS, readWindow, Spectrum } from '../../assistant/ear/vad/spectrum.ts';
import { hiss } from '../speech/noise.ts';

const WINDOW = 256;

/** A Hann window's transform as the network's file holds it: rows of cosines, then of sines. */
function basis(): Float32Array {
  const hann = (n: number): number => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / WINDOW);
  return Float32Array.from({ length: 2 * BINS * WINDOW }, (_, at) => {
    const [row, n] = [Math.floor(at / WINDOW), at % WINDOW];
    const angle = (2 * Math.PI * (row % BINS) * n) / WINDOW;
    return hann(n) * (row < BINS ? Math.cos(angle) : -Math.sin(angle));
  });
}

/** The same by the definition: every row of the matrix times every window. */
function byMatrix(matrix: Float32Array, sound: Float32Array): number[] {
  const edge = sound.slice(-65, -1).toReversed();
  const reflected = Float32Array.from([...sound, ...edge]);
  const rows: number[] = [];
  for (let at = 0; at + WINDOW <= reflected.length; at += WINDOW / 2) {
    const part = reflected.subarray(at, at + WINDOW);
    const times = (row: number): number =>
      part.reduce((sum, sample, n) => sum + sample * (matrix[row * WINDOW + n] ?? 0), 0);
    for (let bin = 0; bin < BINS; bin += 1) rows.push(Math.hypot(times(bin), times(bin + BINS)));
  }
  return rows;
}

describe('the spectrum', () => {
  it('is what the matrix gives, row by row', () => {
    const sound = hiss(576, 5).map((sample, n) => 0.1 * sample + Math.sin(n / 9));
    const rows = new Spectrum(readWindow(basis())).rows(sound);
    const expected = byMatrix(basis(), sound);
    expect(rows).toHaveLength(expected.length);
    const worst = Math.max(...expected.map((value, at) => Math.abs(value - (rows[at] ?? 0))));
    expect(Math.max(...expected)).toBeGreaterThan(10);
    expect(worst).toBeLessThan(1e-4);
  });

  it('refuses a matrix that is another transform', () => {
    const other = basis();
    other[(BINS + 3) * WINDOW + 40] = 0.2;
    expect(() => readWindow(other)).toThrow('no windowed Fourier transform');
  });
});
