import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';

const ASSETS = fileURLToPath(new URL('../../dist/assets/', import.meta.url));

/**
 * Scripts of the page, its workers and worklets. Weights and WebAssembly are no scripts, and the
 * recogniser's vocabulary is one only in form: 32 000 pieces of words, kept by its package in a
 * module.
 */
const scripts = readdirSync(ASSETS).filter(
  (name) => /\.m?js$/u.test(name) && !name.startsWith('vocabulary-'),
);

it('all scripts together are at most 300 kB compressed', () => {
  const sizes = scripts.map(
    (name) => [name, gzipSync(readFileSync(ASSETS + name)).length] as const,
  );
  const total = sizes.reduce((sum, [, size]) => sum + size, 0);
  expect(sizes.length).toBeGreaterThan(0);
  expect(total, sizes.map(([name, size]) => `${name} ${size}`).join(', ')).toBeLessThanOrEqual(
    300_000,
  );
});
