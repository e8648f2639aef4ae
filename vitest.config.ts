import { defineConfig } from 'vitest/config';

const minute = 60_000;

/** Everything that is neither driven in a browser, nor a benchmark, nor runs a neural network. */
const ROOMS = ['unit', 'property', 'model', 'outside'].map((room) => `tests/${room}/**/*.test.ts`);

/**
 * `quick`: pure. `sound`: what runs a recogniser or a synthesiser (`*.sound.test.ts`), up to
 * 700 MB a process. `e2e`: real Chromium, one at a time, in real time. `bench`: budgets, alone.
 * Groups run one after another, so on two cores the networks don't starve the browser.
 */
export default defineConfig({
  test: {
    reporters: ['default', './tests/closing-reporter.ts'],
    maxWorkers: 2,
    passWithNoTests: false,
    projects: [
      {
        test: {
          name: 'quick',
          setupFiles: ['tests/draws.ts'],
          include: ROOMS,
          exclude: ['**/*.sound.test.ts'],
          testTimeout: minute,
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          name: 'sound',
          include: ['tests/**/*.sound.test.ts'],
          testTimeout: 5 * minute,
          hookTimeout: 2 * minute,
          sequence: { groupOrder: 1 },
        },
      },
      {
        test: {
          name: 'e2e',
          include: ['tests/e2e/**/*.e2e.ts'],
          exclude: ['tests/e2e/seating.e2e.ts'],
          // A second is too little for a page on a machine with other work.
          expect: { poll: { timeout: 20_000 } },
          // Real time on a shared machine; what passed only so is named at the end.
          retry: 1,
          globalSetup: 'tests/e2e/built.ts',
          testTimeout: 10 * minute,
          hookTimeout: 2 * minute,
          fileParallelism: false,
          maxWorkers: 1,
          sequence: { groupOrder: 2 },
        },
      },
      {
        test: {
          // Ten minutes in real time: `npm run appointments`.
          name: 'appointments',
          include: ['tests/e2e/seating.e2e.ts'],
          globalSetup: 'tests/e2e/built.ts',
          testTimeout: 20 * minute,
          hookTimeout: 2 * minute,
          maxWorkers: 1,
          sequence: { groupOrder: 4 },
        },
      },
      {
        test: {
          name: 'bench',
          include: ['tests/bench/**/*.bench.ts'],
          globalSetup: 'tests/e2e/built.ts',
          testTimeout: 10 * minute,
          hookTimeout: 2 * minute,
          fileParallelism: false,
          maxWorkers: 1,
          sequence: { groupOrder: 3 },
        },
      },
    ],
  },
});
