import { describe, expect, test } from 'vitest';
import { prepare } from '../../assistant/ear/neural/prepare.ts';

const RATE = 16_000;
const speech = Float32Array.from({ length: RATE }, (_, i) => 0.3 * Math.sin(i / 5));

/** One second of sound after `before` and before `after` seconds of zeroes. */
function padded(before: number, after: number): Float32Array {
  const whole = new Float32Array((before + 1 + after) * RATE);
  whole.set(speech, before * RATE);
  return whole;
}

describe('prepare', () => {
  test('long quiet is cut to 0.3 s and 0.25 s more are put at each end', () => {
    expect(prepare(padded(3, 5)).length / RATE).toBeCloseTo(1 + 2 * 0.3 + 2 * 0.25, 1);
  });

  test('sound that is loud throughout is kept whole', () => {
    expect(prepare(speech).length).toBe(RATE * 1.5);
  });

  test('nothing is exactly zero for long, and the same sound gives the same samples', () => {
    const quiet = prepare(new Float32Array(RATE));
    expect(quiet.filter((sample) => sample === 0).length).toBeLessThan(10);
    expect(Math.max(...quiet.map(Math.abs))).toBeLessThan(1 / 32_768);
    expect(prepare(padded(1, 1))).toEqual(prepare(padded(1, 1)));
  });

  test('an empty segment gives only the quiet', () => {
    expect(prepare(new Float32Array(0)).length).toBe(RATE / 2);
  });
});
