import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { Operatory } from './harness.ts';

const ASSETS = fileURLToPath(new URL('../../dist/assets/', import.meta.url));

/** Scripts of the page, its workers and worklets; weights and WebAssembly are no scripts. */
const scripts = readdirSync(ASSETS).filter((name) => /\.m?js$/u.test(name));

/**
 * Scripts only in form. `vocabulary`: 32 000 pieces of words that belong to the recogniser's
 * weights. `wake-word`: an engine that only a practice with its own access key ever loads.
 */
const apart = scripts.filter((name) => /^(?:vocabulary-|wake-word\.)/u.test(name));

it('an engine that nobody opted in to is not loaded', async () => {
  const operatory = await Operatory.open();
  try {
    const loaded = await operatory.page.evaluate(() =>
      performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname),
    );
    expect(apart.some((name) => name.startsWith('wake-word.'))).toBe(true);
    expect(loaded.some((path) => /\/index-.*\.js$/u.test(path))).toBe(true);
    expect(loaded.filter((path) => path.includes('wake-word'))).toEqual([]);
  } finally {
    await operatory.close();
  }
});

it('the other scripts together are at most 300 kB compressed', () => {
  const sizes = scripts
    .filter((name) => !apart.includes(name))
    .map((name) => [name, gzipSync(readFileSync(ASSETS + name)).length] as const);
  const total = sizes.reduce((sum, [, size]) => sum + size, 0);
  expect(sizes.length).toBeGreaterThan(0);
  expect(total, sizes.map(([name, size]) => `${name} ${size}`).join(', ')).toBeLessThanOrEqual(
    300_000,
  );
});
