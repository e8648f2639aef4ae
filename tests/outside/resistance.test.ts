import { describe, expect, test } from 'vitest';
import { convergence, limitingConvergence } from '../../machines/form/index.ts';
import type { Prep } from '../../machines/contract/index.ts';
import { retentionVerdict } from '../../machines/plan/retention.ts';
import { TRADE } from '../../machines/trade/index.ts';

const crown = (tooth: string, prep: Prep) =>
  retentionVerdict(
    { tooth, kind: 'crown', material: 'zirconia-3y', substrate: 'dentin', prep },
    TRADE,
  );

const resists = (heightMm: number, widthMm: number, convergenceDeg: number): boolean =>
  convergenceDeg <= limitingConvergence(heightMm, widthMm);

describe('published resistance verdicts', () => {
  test('Parker MH et al. J Prosthet Dent 1988;59:281-288 (read in study notes): B 10, H 3 resists up to 17.4', () => {
    expect([resists(3, 10, 17.4), resists(3, 10, 17.6)]).toEqual([true, false]);
  });
  test('Woolsey GD, Matich JA. J Am Dent Assoc 1978;97:978-980 (from memory, read in study notes): B 10, H 3: 10 adequate, 20 not', () => {
    expect([resists(3, 10, 10), resists(3, 10, 20)]).toEqual([true, false]);
  });
  test('Weed RM, Baez RJ. J Prosthet Dent 1984;52:330-334 (from memory, read in study notes): B 10, H 3.5, 22 inadequate', () => {
    expect(resists(3.5, 10, 22)).toBe(false);
  });
  test('Proussaefs P et al. J Prosthet Dent 2004;91:33-41: molar, H 2.5, 20 lacks resistance form (B 10 assumed)', () => {
    expect(resists(2.5, 10, 20)).toBe(false);
    expect(crown('46', { heightMm: 2.5, convergenceDeg: 20, widthMm: 10 }).holds).toBe(false);
  });
  test('Goodacre CJ et al. J Prosthet Dent 2001;85:363-376: 4 mm on molars, 3 mm on others, ratio 0.4', () => {
    const holds = (tooth: string, heightMm: number, widthMm: number): boolean =>
      crown(tooth, { heightMm, convergenceDeg: 10, widthMm }).holds;
    expect([holds('46', 3.9, 9), holds('46', 4, 10)]).toEqual([false, true]);
    expect([holds('24', 2.9, 7), holds('24', 3, 7), holds('24', 3, 7.6)]).toEqual([
      false,
      true,
      false,
    ]);
  });
});

// Computed from asin(H/B); to be compared with the H/B table of Parker 1988 and 1993, not read.
test.each([
  [0.1, 5.74],
  [0.2, 11.54],
  [0.25, 14.48],
  [0.3, 17.46],
  [0.35, 20.49],
  [0.4, 23.58],
  [0.5, 30.0],
  [0.6, 36.87],
  [0.7, 44.43],
  [0.8, 53.13],
  [0.9, 64.16],
  [1.0, 90.0],
])('limit at H/B %f is %f degrees', (ratio, limit) => {
  expect(limitingConvergence(ratio * 10, 10)).toBeCloseTo(limit, 2);
});

/**
 * Share of the opposing wall that resists, by brute force over its points: pivot at the opposite
 * margin; a point resists while the angle of its radius is at least the wall's taper. Geometry
 * only, so it can disagree with the closed form.
 */
const resistiveShare = (heightMm: number, widthMm: number, tocDeg: number): number => {
  const phi = (tocDeg * Math.PI) / 360;
  const points = Array.from({ length: 1999 }, (_, index) => ((index + 0.5) / 1999) * heightMm);
  const good = points.filter((h) => Math.atan2(h, widthMm - h * Math.tan(phi)) >= phi);
  return good.length / points.length;
};

test.each([
  [3, 10],
  [4, 10],
  [3.5, 10],
  [4, 9],
])('at the limit half the wall resists: H %f, B %f', (heightMm, widthMm) => {
  const limit = limitingConvergence(heightMm, widthMm);
  expect(resistiveShare(heightMm, widthMm, limit)).toBeCloseTo(0.5, 2);
  expect(resistiveShare(heightMm, widthMm, limit + 4)).toBeLessThan(0.48);
});

test('convergence is the sum of the wall tapers', () => {
  expect(convergence(5, 7)).toBe(12);
});
