/**
 * `npm test` after the checks: quick tests, then what needs sound, then what needs a browser, one
 * after another, and one closing line for all.
 */
import { spawn } from 'node:child_process';
import { requireBuild } from './e2e/built.ts';

interface Sum {
  passed: number;
  failed: number;
  skipped: number;
}

/** The plain closing line of one run, from `closing-reporter.ts`. */
const CLOSING = /^(?<passed>\d+) passed, (?<failed>\d+) failed(?:, (?<skipped>\d+) skipped)?$/gm;

function countIn(output: string): Sum {
  const last = [...output.matchAll(CLOSING)].at(-1)?.groups ?? {};
  const count = (name: string): number => Number(last[name] ?? 0);
  return { passed: count('passed'), failed: count('failed'), skipped: count('skipped') };
}

/** Runs vitest with `args`; its output comes at once when it has ended, so runs don't mix lines. */
function vitest(...args: readonly string[]): Promise<Sum> {
  return new Promise((resolve) => {
    const child = spawn('npx', ['vitest', 'run', ...args], {
      env: { ...process.env, SEATCALL_BUILT: '1' },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let output = '';
    const keep = (chunk: Buffer): void => {
      output += chunk.toString();
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.on('close', (code) => {
      process.stdout.write(output);
      const sum = countIn(output);
      // A run that broke before it could count is a failure all the same.
      if (code !== 0 && sum.failed === 0) sum.failed = 1;
      resolve(sum);
    });
  });
}

const add = (sums: readonly Sum[]): Sum =>
  sums.reduce((all, one) => ({
    passed: all.passed + one.passed,
    failed: all.failed + one.failed,
    skipped: all.skipped + one.skipped,
  }));

requireBuild();
const quick = await vitest('--project=quick');
const sound = await vitest('--project=sound');
const browser = await vitest('--project=e2e');
const { passed, failed, skipped } = add([quick, sound, browser]);
process.stdout.write(
  `\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`,
);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
