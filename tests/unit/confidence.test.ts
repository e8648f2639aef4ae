/** What speaks for a phrase that was found, and what does not. */
import { expect, it } from 'vitest';
import type { Path } from '../../assistant/ear/neural/beam.ts';
import { confidence, evidence } from '../../assistant/ear/neural/confidence.ts';

const path = (likelihood: number): Path => ({
  words: ['stop'],
  tokens: [1, 2],
  score: 0,
  likelihood,
  prior: -8,
});

/** As a phrase and the free transcript came out of a drawn-out cry, near enough. */
function sureOf(likelihood: number, free: number): number {
  const best = path(likelihood);
  const written = { tokens: [3, 4], likelihood: free, ended: true, spoken: -4.2 };
  return confidence(evidence({ paths: [best], free: written }, best));
}

it('a phrase is no surer for a free transcript that is worse still', () => {
  expect(sureOf(-4.3, -7.5)).toBe(sureOf(-4.3, -4.3));
  expect(sureOf(-4.3, -3)).toBeLessThan(sureOf(-4.3, -4.3));
  expect(sureOf(-4.3, -7.5)).toBeLessThan(0.4);
});
