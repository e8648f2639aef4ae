import type { Reporter, TestModule } from 'vitest/node';

/**
 * Ends a run with one plain line, `N passed, N failed[, N skipped]`, for whoever reads it by
 * script. Before it, by name, what passed only when tried again: a test that does so often is at
 * fault, or shows a fault.
 */
export default class ClosingReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      // A file that failed to load holds no test that could have failed.
      if (module.state() === 'failed' && module.errors().length > 0) counts.failed += 1;
      for (const test of module.children.allTests()) {
        const { state, errors } = test.result();
        const tries = 1 + (test.diagnostic()?.retryCount ?? 0);
        if (state === 'passed' && tries > 1) {
          const why = errors?.map(({ message }) => message).join('; ') ?? '';
          process.stdout.write(
            `\npassed at try ${tries}: ${module.relativeModuleId}: ${test.name}\n${why}\n`,
          );
        }
        if (state === 'pending') counts.skipped += 1;
        else counts[state] += 1;
      }
    }
    const skipped = counts.skipped > 0 ? `, ${counts.skipped} skipped` : '';
    process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed${skipped}\n`);
  }
}
